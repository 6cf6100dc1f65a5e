"""The tour: short, by keyboard, over the real screens, and without a trace."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest

from tests.stage import NARROW, WIDE, sample_job, staged
from wizard.screens.start import StartScreen
from wizard.screens.tour import TourScreen
from wizard.steps import STEPS
from wizard.tour import STATIONS, Ground

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


def test_it_is_short_and_each_station_is_a_step() -> None:
    assert len(STATIONS) <= 8
    assert {station.step for station in STATIONS} <= {step.id for step in STEPS}


@SIZES
async def test_whoever_starts_for_the_first_time_is_shown_round(
    site: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(site.parent))
    async with staged(size=size) as stage:
        await stage.shows("first time here?")
        await stage.press("g")
        for place, station in enumerate(STATIONS, start=1):
            await stage.shows(f"{station.title}   {place} of {len(STATIONS)}", *station.words.split()[:3])
            assert stage.steps.step == station.step
            if station.answers:
                assert station.did in stage.text
            await stage.press("enter")
        await stage.until(lambda: isinstance(stage.screen, StartScreen), "the first screen")
        assert len(stage.app.screen_stack) == 2
    assert not list(site.parent.glob("hoodwright-tour-*"))
    assert list(site.iterdir()) == []


async def test_a_first_start_in_a_small_window_still_shows_cautions_the_tour_and_what_else_there_is(
    site: Path,
) -> None:
    async with staged(size=(60, 18)) as stage:
        await stage.shows("CAUTION", "No job in this folder yet", "New job", "Equipment sheet", "Tour of")
        await stage.press("enter")
        await stage.until(lambda: isinstance(stage.screen, TourScreen), "the tour, on which the cursor stood")


async def test_it_goes_back_and_can_be_left_anywhere(site: Path) -> None:
    sample_job("galley-gas", site)
    async with staged() as stage:
        await stage.press("g", "right", "right", "left")
        await stage.shows(f"2 of {len(STATIONS)}")
        assert isinstance(stage.screen, TourScreen)
        await stage.press("escape")
        await stage.until(lambda: isinstance(stage.screen, StartScreen), "the first screen")


async def test_whoever_has_opened_a_job_is_no_longer_asked(site: Path) -> None:
    path = sample_job("galley-gas", site)
    async with staged(path) as stage:
        await stage.shows("Galley kitchen")
    async with staged() as stage:
        await stage.shows("Tour of an invented kitchen")
        assert "first time here?" not in stage.text


def test_the_ground_is_sound_to_walk_on() -> None:
    ground = Ground()
    assert ground.session.plan_now().sound
    ground.leave()
    assert not Path(ground.session.now.draft.file).exists()
