"""Coils of what is left over of a factory cable: how wide, how thick, and where they fit."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.checks.excess import check_excess
from tests.small_kitchens import inches, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.boxes.coils import Coil

ENDS = (place("E", 20, 60), place("F", 80, 60))
STUDS: dict[str, Any] = {"lumber": "2x4", "spacing": "16 in", "first_stud": "12 in"}


def coils(length: float, route: str = "direct", *, above: str = "attic", **more: Any) -> tuple[Coil, ...]:
    walls = (wall("A", 240, **more.pop("studs", {})),)
    derived = kitchen(kitchen_job(walls, ENDS, route, site={"above": above}, **more), inches(length))
    return derived.coils


def cabinet(depth: float, width: float = 60, height: float = 30) -> dict[str, Any]:
    sides = {"left": 10.0, "width": width, "bottom": 45.0, "height": height, "depth": depth}
    return {"tag": "C1"} | {key: inches(value) for key, value in sides.items()}


def test_less_than_a_turn_makes_no_coil() -> None:
    # NEC 334.24, 5 diameters: of 0.4 in cable the inmost turn is at least 2π(2.0 + 0.2) in = 13.8 in long.
    assert coils(60 + 13.8) == ()
    (coil,) = coils(60 + 13.9)
    assert coil.turns == pytest.approx(13.9 / (2 * math.pi * 2.2))


def test_a_coil_in_a_shallow_space_is_one_layer_wide() -> None:
    """By hand: 100 in of 0.4 in cable, inner radius 2 in: five rings hold 94.2 in, six 120.6 in."""
    (coil,) = coils(160, cabinet=(cabinet(0.5),))
    (lie,) = [lie for lie in coil.lies if lie.space.words == "cabinet C1"]
    assert (lie.outer_in, lie.thick_in) == pytest.approx((2 * (2.0 + 6 * 0.4), 0.4))
    volume = math.pi / 4 * 8.8**2 * 0.4
    assert lie.share_percent == pytest.approx(100 * volume / (60 * 30 * 0.5))


@given(length=st.integers(80, 900), depth=st.floats(0.5, 24), width=st.floats(6, 60), height=st.floats(6, 40))
def test_a_coil_holds_the_excess_and_stays_in_its_space(
    length: int, depth: float, width: float, height: float
) -> None:
    (coil,) = coils(length, cabinet=(cabinet(depth, width, height),)) or (None,)
    if coil is None:
        return
    for lie in coil.lies:
        rings, layers = (
            (lie.outer_in / 2 - coil.inside_in) / coil.diameter_in,
            lie.thick_in / coil.diameter_in,
        )
        held = layers * sum(
            2 * math.pi * (coil.inside_in + (ring + 0.5) * coil.diameter_in) for ring in range(round(rings))
        )
        assert held >= coil.excess_in - 1e-6
        assert lie.outer_in <= min(lie.space.across_in, lie.space.high_in)
        assert lie.thick_in <= lie.space.deep_in + 1e-9


def test_an_open_attic_comes_first_and_a_stud_bay_last() -> None:
    (coil,) = coils(400, "overhead", studs=STUDS, cabinet=(cabinet(12),))
    assert [lie.space.words.split(",")[0] for lie in coil.lies] == [
        "the attic",
        "cabinet C1",
        "the stud bay of wall A",
    ]
    bay = coil.lies[-1].space
    assert (bay.across_in, bay.high_in, bay.deep_in) == (14.5, 96, 3.5)


def test_between_closed_joists_nothing_is_promised() -> None:
    assert coils(400, "overhead", above="joists")[0].lies == ()


@pytest.mark.parametrize(
    ("depth", "expected"),
    [
        (12.0, ("excess-coil", "note")),
        (0.3, ("excess-without-place", "check")),
        (None, ("excess-without-place", "note")),
    ],
)
def test_the_finding_says_whether_there_is_a_place(depth: float | None, expected: tuple[str, str]) -> None:
    more: dict[str, Any] = {} if depth is None else {"cabinet": (cabinet(depth),)}
    derived = kitchen(kitchen_job((wall("A", 240),), ENDS, **more), "160 in")
    (found,) = check_excess(derived)
    assert (found.code, found.severity.value) == expected
    assert found.says.startswith("8' 4\" of W1 is left over")
