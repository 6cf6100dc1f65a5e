"""The templates are complete: they are read, they give a sound plan, and they show every key that may be there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from schedules.job.draft import draft_from_text
from schedules.planned import plan_file
from schedules.schema import job_schema, sheet_schema
from schedules.sheet.reading import read_sheet
from schedules.templates import job_template, sheet_template

TEMPLATES = Path(__file__).parents[2] / "schedules" / "templates"


def test_the_template_job_gives_a_sound_plan() -> None:
    assert [item for item in plan_file(TEMPLATES / "job.toml").plan.findings if item.severity.blocks] == []


def test_the_template_sheet_is_read() -> None:
    assert read_sheet(TEMPLATES / "sheet.toml").sheet.id == "small-hood"


def keys(schema: dict[str, Any]) -> set[str]:
    """Every key that a schema knows."""
    return {key for part in (schema, *schema["$defs"].values()) for key in part["properties"]}


@pytest.mark.parametrize(
    ("text", "schema"),
    [(sheet_template(), sheet_schema()), (job_template(), job_schema())],
    ids=["sheet", "job"],
)
def test_every_key_stands_in_its_template_at_least_as_a_comment(text: str, schema: dict[str, Any]) -> None:
    shown = set(re.findall(r"\b([a-z_]+)(?= = |: )|\[\[?(?:[a-z]+\.)?([a-z_]+)\]\]?", text))
    assert keys(schema) - {name for pair in shown for name in pair} == set()


def test_a_commented_key_of_the_job_counts_once_its_sign_is_taken_away() -> None:
    text = re.sub(r"^# (?=(?:[a-z_]+ = |\[{1,2}[a-z_]+\]{1,2}))", "", job_template(), flags=re.MULTILINE)
    job = draft_from_text(text, "job.toml").job
    assert job.site.cabinet_height == 34
    assert job.circuit[0].downstream_of == "Q5"
    assert job.as_built[0].initials == "AB"
    assert job.run[-1].waypoint
