"""How many keys the journeys of the people on site take: written down in keystrokes.toml, and never more."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.job.draft import read_draft
from schedules.package import making
from tests.stage import NARROW, Stage, sample_job, staged

if TYPE_CHECKING:
    from collections.abc import Callable

KEPT = tomllib.loads((Path(__file__).parent / "keystrokes.toml").read_text(encoding="utf-8"))


@dataclass(frozen=True)
class Journey:
    """What somebody wants, the keys that lead there, and how one sees that the goal is reached.

    keys: each one key; a word of several letters is typed, a key for each.
    """

    wants: str
    keys: tuple[str, ...]
    shows: tuple[str, ...]
    reached: Callable[[Path], bool] = lambda _site: True


def landed(site: Path) -> bool:
    return read_draft(site / "corner-electric.toml").job.as_built[-1].landed == ("X1:1L", "X1:1N")


def begun(site: Path) -> bool:
    return read_draft(site / "oak-3.toml").job.job.name == "Oak 3"


def packed(site: Path) -> bool:
    return any(site.glob("*-package/booklet.pdf"))


JOURNEYS = {
    "terminations": Journey(
        "where wire 102 lands in the hood", ("t", "down", "slash", "=102", "enter"), ("X1:1N",)
    ),
    "reach": Journey("whether the third cable reaches", ("r", "down", "down"), ("factory cable", "supplied")),
    "compare": Journey("what another choice would change", ("c",), ("As it is",)),
    "first_job": Journey(
        "a job of one's own from an equipment sheet",
        (
            *("n", "enter", "down", "enter"),
            *("enter", "=Oak 3", "enter"),
            *("enter", "down", "enter"),
            *("enter", "=1/4 in", "enter"),
            "enter",
        ),
        ("Oak 3", "saved"),
        begun,
    ),
    "landing": Journey(
        "two ends of the hood marked as landed",
        ("t", "down", "tab", "space", "enter", "=RA", "enter", "enter", "down", "space"),
        ("2 of 25 ends landed",),
        landed,
    ),
    "package": Journey(
        "everything for everybody on paper", ("enter", "P", "enter"), ("Written: 1 files",), packed
    ),
}


def count(keys: tuple[str, ...]) -> int:
    return sum(len(key) - 1 if key.startswith("=") else 1 for key in keys)


async def walk(stage: Stage, keys: tuple[str, ...]) -> None:
    for key in keys:
        await (stage.type(key[1:]) if key.startswith("=") else stage.press(key))


@pytest.mark.parametrize("name", JOURNEYS)
async def test_a_journey_takes_no_more_keys_than_were_written_down(
    site: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(making, "pack", lambda *_arguments: {"booklet.pdf": b""})
    path = sample_job("corner-electric", site)
    journey = JOURNEYS[name]
    if name == "first_job":
        (site / path).unlink()
    async with staged(size=NARROW) as stage:
        await walk(stage, journey.keys)
        await stage.shows(*journey.shows)
        assert journey.reached(site)
    assert count(journey.keys) <= KEPT[name], journey.wants


def test_every_journey_is_written_down() -> None:
    assert set(KEPT) == set(JOURNEYS)
