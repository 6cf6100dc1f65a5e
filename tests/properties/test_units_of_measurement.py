"""It does not matter in which unit a kitchen was measured: every length of a sample job rewritten in another one."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.drawings.wall_content import wall_content, walls_to_draw
from schedules.job.draft import read_draft
from schedules.job.records import Job
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from schedules.quantities.lengths import parse_length
from schedules.quantities.numerals import UnitError

if TYPE_CHECKING:
    from collections.abc import Callable

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
UNITS: dict[str, Callable[[float], str]] = {
    "mm": lambda length_in: f"{length_in * 25.4:.7f} mm",
    "m": lambda length_in: f"{length_in * 0.0254:.10f} m",
    "ft": lambda length_in: f"{length_in / 12:.9f} ft",
}


def rewritten(data: Any, write: Callable[[float], str]) -> Any:
    """The same data, every length of it in another unit."""
    if isinstance(data, dict):
        return {key: rewritten(value, write) for key, value in data.items()}
    if isinstance(data, list):
        return tuple(rewritten(value, write) for value in data)
    if isinstance(data, str) and re.search(r"\d\s*(in|ft|mm|m|cm|'|\")$", data):
        try:
            return write(parse_length(data))
        except UnitError:
            return data
    return data


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize(
    ("name", "cable"), [("galley-gas", "W5"), ("loft-gas", "W13"), ("corner-electric", "W6")]
)
def test_lengths_margins_and_regions_are_the_same_in_every_unit(name: str, cable: str, unit: str) -> None:
    draft = read_draft(JOBS / f"{name}.toml")
    sheet = read_sheet_of(draft)
    data = rewritten(tomllib.loads(draft.text), UNITS[unit])
    assert data["place"][0]["along"].endswith(f" {unit}")
    one, other = plan_job(sheet, draft.job), plan_job(sheet, Job.model_validate(data))
    for here, there in zip(one.derived.lengths, other.derived.lengths, strict=True):
        assert (here.cable, here.verdict) == (there.cable, there.verdict)
        for key in ("required_in", "margin_in", "worst_in"):
            assert getattr(there, key) == pytest.approx(getattr(here, key), abs=1e-4), here.cable
    areas = [
        [
            shade.region.area_sq_in
            for wall in walls_to_draw(plan)
            for shade in wall_content(plan, wall, cable).shades
        ]
        for plan in (one, other)
    ]
    assert areas[0]
    assert areas[1] == pytest.approx(areas[0], rel=1e-5)
