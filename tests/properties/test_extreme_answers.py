"""Every number that a job may hold, next to nothing or as large as can be written, gives a plan or is refused in words.

The wizard's bounds don't guard a file that was written by hand. One answer at a time is spoilt in a whole kitchen.
"""

from __future__ import annotations

import copy
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from schedules.errors import InputError
from schedules.files.validation import validate
from schedules.job.draft import ROW_KEYS
from schedules.job.records import Job
from schedules.plan import plan_job
from schedules.questions.fields import FIELDS
from schedules.sheet.reading import read_sheet
from schedules.workings import workings

GALLEY = Path(__file__).parents[2] / "samples" / "jobs" / "galley-gas.toml"
SHEET = read_sheet(GALLEY.parent / "../sheets/marram.toml")
TABLES = ("site", "wall", "mounting", "cooking_range", "duct", "air", "gas")
MEASURED = sorted(
    key
    for key, field in FIELDS.items()
    if key[0] in TABLES and field.reads in ("length", "quantity", "percent")
)
PARTS = 2


@cache
def galley() -> dict[str, Any]:
    return tomllib.loads(GALLEY.read_text(encoding="utf-8"))


def extremes(table: str, key: str) -> tuple[str, str]:
    """The smallest and the largest amount that can be written in this answer's unit, for a length a large tolerance."""
    field = FIELDS[table, key]
    if field.reads == "length":
        return "0.001 in", "10 in" if key == "tolerance" else "9000 ft"
    unit = "%" if field.dimension is None else field.dimension.canonical_unit
    return f"0.000001 {unit}", f"999999999 {unit}"


def spoilt(table: str, key: str, value: str) -> Job | None:
    """The galley with one answer spoilt; None where it has no such row, or no such amount may be written."""
    document = copy.deepcopy(galley())
    home = document.get(table) if table in ROW_KEYS else document.setdefault(table, {})
    if not home:
        return None
    (home[0] if isinstance(home, list) else home)[key] = value
    try:
        return validate(Job, document, str(GALLEY), "")
    except InputError:
        return None


@pytest.mark.parametrize("part", range(PARTS))
def test_an_extreme_answer_never_breaks_the_plan(part: int) -> None:
    planned = 0
    for number, (table, key) in enumerate(MEASURED[part::PARTS]):
        value = extremes(table, key)[number % 2]
        job = spoilt(table, key, value)
        if job is None:
            continue
        try:
            plan = plan_job(SHEET, job)
            assert workings(plan)
        except Exception as error:
            error.add_note(f"{table}.{key} = {value}")
            raise
        planned += 1
    assert planned > len(MEASURED) / PARTS / 3


def test_studs_side_by_side_are_refused_rather_than_counted_by_the_thousand() -> None:
    assert spoilt("wall", "spacing", "0.001 in") is None
    assert spoilt("wall", "spacing", "4 in") is not None
