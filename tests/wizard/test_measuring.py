"""While a measurement is typed, the wall is sketched with it; what can't be read or is nowhere changes nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.findings import Edit
from schedules.job.draft import read_draft
from tests.stage import NARROW, WIDE, sample_job, staged

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_the_wall_is_sketched_with_what_is_typed(site: Path, size: tuple[int, int]) -> None:
    path = sample_job("galley-gas", site)
    read_draft(path).edited((Edit("place", "RB", "along", None),)).save()
    before = read_draft(path).text
    async with staged(path, size) as stage:
        await stage.press("M")
        await stage.shows("RB  RELAY BOX", "■CR", "N1")
        await stage.type("3")
        await stage.type(" ft")
        await stage.shows("■[RB]", "[RB] stands 3' 0\" along")
        await stage.type(" 6")
        await stage.until(lambda: "[RB]" not in stage.text, "the sketch without what can't be read")
        await stage.press("ctrl+u")
        await stage.type("99 ft")
        await stage.shows("NOT ON THIS WALL")
        assert read_draft(path).text == before
        await stage.press("escape")


async def test_without_a_measured_wall_there_is_no_sketch(site: Path) -> None:
    async with staged(sample_job("must-fail-air", site), WIDE) as stage:
        await stage.press("M")
        await stage.shows("Measuring")
        assert "a sketch" not in stage.text
