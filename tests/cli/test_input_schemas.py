"""The JSON Schemas for editors agree with what the program reads, and say what each key is for.

Valid is what JSON Schema, draft 2020-12, says, as an independent library reads it. The files are by construction what
the program reads: our own reader takes each of them first.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from schedules.job.draft import read_draft
from schedules.questions.fields import FIELDS
from schedules.schema import job_schema, sheet_schema
from schedules.sheet.reading import read_sheet

TOP = Path(__file__).parents[2]
TEMPLATES = TOP / "schedules" / "templates"
SHEETS = [TEMPLATES / "sheet.toml", *sorted((TOP / "samples" / "sheets").glob("*.toml"))]
JOBS = [TEMPLATES / "job.toml", *sorted((TOP / "samples" / "jobs").glob("*.toml"))]


def wrong(schema: dict[str, Any], document: dict[str, Any]) -> list[str]:
    """Where a document breaks a schema."""
    found = Draft202012Validator(schema).iter_errors(document)
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in found]


@pytest.mark.parametrize("schema", [sheet_schema(), job_schema()], ids=["sheet", "job"])
def test_the_schemas_are_themselves_valid(schema: dict[str, Any]) -> None:
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_every_sheet_that_is_read_fits_the_schema(path: Path) -> None:
    read_sheet(path)
    assert wrong(sheet_schema(), tomllib.loads(path.read_text())) == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_job_that_is_read_fits_the_schema(path: Path) -> None:
    read_draft(path)
    assert wrong(job_schema(), tomllib.loads(path.read_text())) == []


def test_an_editor_is_told_of_slips() -> None:
    document = tomllib.loads((TEMPLATES / "job.toml").read_text())
    document["site"]["tolerance"] = 3
    document["run"][0]["route"] = "tapped"
    document["nmae"] = "x"
    assert wrong(job_schema(), document) == [
        ": Additional properties are not allowed ('nmae' was unexpected)",
        "site/tolerance: 3 is not of type 'string'",
        "run/0/route: 'tapped' is not one of ['direct', 'straight', 'overhead', 'underfloor', 'cabinets', "
        "'shortest', 'waypoints', 'taped']",
    ]


def test_every_key_of_a_job_is_described_as_the_wizard_asks_for_it() -> None:
    schema = job_schema()
    for (table, key), field in FIELDS.items():
        home = schema["properties"]
        if table:
            entry = home[table]
            name = (entry.get("$ref") or entry["items"]["$ref"]).rpartition("/")[2]
            home = schema["$defs"][name]["properties"]
        assert (home[key]["title"], home[key]["description"]) == (field.label, field.why)
        assert wrong({**home[key], "$defs": schema["$defs"]}, home[key]["examples"][0]) == []


def test_a_sheets_keys_are_described_from_the_records_docstrings() -> None:
    schema = sheet_schema()
    enclosure = schema["$defs"]["Enclosure"]
    assert enclosure["description"] == "A box, panel or appliance in which conductors end."
    assert enclosure["properties"]["entry"]["description"] == "Wire from the opening to the terminals."
    assert "one choice" in schema["$defs"]["Group"]["properties"]["pick"]["description"]
    assert all(part.get("description") for part in schema["$defs"].values())


def test_nothing_in_the_schemas_is_what_toml_can_not_write() -> None:
    for schema in (sheet_schema(), job_schema()):
        assert '"null"' not in str(schema).replace("'", '"')
