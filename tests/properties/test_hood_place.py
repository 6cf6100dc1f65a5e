"""Where the hood is said to hang: on its wall, over the range, where its cables enter; and no block that holds it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.checks.hood_place import check_hood_place
from schedules.planned import plan_file
from schedules.site.zones import Zone
from tests.small_kitchens import keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.findings import Finding
    from schedules.site.hood_place import HungHood

SQUARE = (wall("A", 120), wall("B", 96), wall("C", 120), wall("D", 96))
APART = (place("E", 10, 40), place("F", 110, 40))
SAMPLES = Path(__file__).parents[2] / "samples" / "jobs"


def said(
    centre: str = "60 in", places: Any = APART, enclosure: str | None = None, **more: Any
) -> list[Finding]:
    """What is reported of a hood 30 in wide and 18 in high, its underside 64 in up."""
    mounting = {"centre": centre, "cooking_surface": "36 in", "clearance": "28 in"}
    derived = kitchen(kitchen_job(SQUARE, places, mounting=mounting, **more), hood=True)
    assert derived.hung is not None
    middle = derived.hung.centre_in
    hung: HungHood = replace(derived.hung, enclosure=enclosure, body=Zone(middle - 15, middle + 15, 64, 82))
    return list(check_hood_place(replace(derived, hung=hung)))


def range_at(centre: str, width: str = "30 in") -> dict[str, Any]:
    return {"cooking_range": {"centre": centre, "width": width}}


def test_a_hood_over_its_range_has_no_finding() -> None:
    assert said(**range_at("60 in")) == []
    assert said(enclosure="E", places=(place("E", 74, 70), APART[1]), **range_at("60 in")) == []


@pytest.mark.parametrize(
    ("spoilt", "expected"),
    [
        ({"centre": "14 in"}, ["beyond-wall hood"]),
        ({"centre": "106 in"}, ["beyond-wall hood"]),
        ({"keep_out": (keep_out("N1", 70, 30, 40, 30),)}, ["hood-before-opening hood"]),
        ({"keep_out": (keep_out("N1", 70, 30, 40, 30) | {"kind": "duct"},)}, []),
        ({"keep_out": (keep_out("N1", 76, 30, 40, 30),)}, []),
        (range_at("70 in"), ["range-uncovered hood"]),
        (range_at("60 in", "36 in"), ["range-uncovered hood"]),
        ({"centre": "15 in", **range_at("14 in", "28.5 in")}, ["range-uncovered hood", "beyond-wall range"]),
        ({"enclosure": "E"}, ["hood-in-two-places E"]),
        ({"enclosure": "E", "places": (place("E", 60, 62), APART[1])}, ["hood-in-two-places E"]),
    ],
    ids=str,
)
def test_a_hood_that_cannot_be_there_is_named(spoilt: dict[str, Any], expected: list[str]) -> None:
    assert [f"{item.code} {item.subject}" for item in said(**spoilt)] == expected


@pytest.mark.parametrize(
    ("spoilt", "cure"),
    [
        ({"centre": "14 in"}, "its middle 1' 3\" to 8' 9\" along"),
        (
            {"keep_out": (keep_out("N1", 70, 30, 40, 30),)},
            "its middle at 4' 7\" or less, or at 9' 7\" or more along",
        ),
        (range_at("70 in"), "its middle at 5' 10\" along"),
        ({"enclosure": "E"}, "they enter it 3' 9\" to 6' 3\" along"),
        ({"enclosure": "E", "places": (place("E", 60, 62), APART[1])}, "they enter it 5' 4\" or more up"),
    ],
    ids=str,
)
def test_where_it_would_be_right_is_said_by_number(spoilt: dict[str, Any], cure: str) -> None:
    """By hand: the hood is 30 in wide on a wall of 120 in; the window goes from 70 to 100 in."""
    (finding,) = said(**spoilt)
    assert cure in finding.remedies[0].words


def test_a_bracket_that_no_block_can_take_is_a_finding(tmp_path: Path) -> None:
    sheet = (SAMPLES / "../sheets/marram.toml").resolve()
    text = (SAMPLES / "galley-gas.toml").read_text(encoding="utf-8")
    for old, new in (('tolerance = "1/4 in"', 'tolerance = "10 in"'), ("../sheets/marram.toml", str(sheet))):
        assert old in text
        text = text.replace(old, new)
    job = tmp_path / "kitchen.toml"
    job.write_text(text, encoding="utf-8")
    found = {item.code: item.says for item in plan_file(job, remedies=False).plan.findings}
    assert "no lumber carried is 1' 8-15/16\" wide" in found["bracket-misses"]
    assert "bracket-unheld" in found
