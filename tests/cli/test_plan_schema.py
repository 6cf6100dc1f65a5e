"""The JSON of a plan against its shipped schema, checked by a validator that is not ours.

The part of the schema that describes rows follows the row types. After a change of a row type, write it anew with
`HOODWRIGHT_WRITE_SCHEMA=1 pytest tests/cli/test_plan_schema.py`, and raise the version if a key was renamed, removed
or changed its meaning.
"""

from __future__ import annotations

import dataclasses
import json
import os
from enum import StrEnum
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import pytest
from jsonschema import Draft202012Validator, ValidationError

from schedules import schema
from schedules.planned import plan_file
from schedules.rows.every import SCHEDULES
from schedules.writers.data import as_json, plan_data, plan_json

TOP = Path(__file__).parents[2]
SHIPPED = TOP / "schedules" / "schemas" / "plan-1.json"
JOBS = sorted((TOP / "samples" / "jobs").glob("*.toml"))
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"
PLAIN = {str: "string", int: "integer", float: "number", bool: "boolean", NoneType: "null"}


def row_type(name: str) -> type[Any]:
    """The row type that a schedule's function says it returns: `Schedule[CableRow]`."""
    make = SCHEDULES[name]
    inner = str(make.__annotations__["return"]).partition("[")[2].rstrip("]")
    found: type[Any] = make.__globals__[inner]
    return found


def shape(annotation: object) -> dict[str, Any]:
    """The schema of a row field's type."""
    if get_origin(annotation) in (Union, UnionType):
        kinds = [shape(part) for part in get_args(annotation)]
        return {"type": sorted(kind["type"] for kind in kinds)}
    if get_origin(annotation) is Literal:
        return {"enum": sorted(get_args(annotation))}
    if get_origin(annotation) is tuple:
        return {"type": "array", "items": shape(get_args(annotation)[0])}
    if isinstance(annotation, type) and issubclass(annotation, StrEnum):
        return {"enum": sorted(str(item) for item in annotation)}
    return {"type": PLAIN[annotation]}  # type: ignore[index]


def rows_part() -> tuple[dict[str, Any], dict[str, Any]]:
    """What the schema says of the schedules, and of each row type, as the code has them."""
    schedules: dict[str, Any] = {}
    rows: dict[str, Any] = {}
    for name in SCHEDULES:
        kind = row_type(name)
        hints = get_type_hints(kind)
        fields = [field.name for field in dataclasses.fields(kind)]
        rows[kind.__name__] = {
            "type": "object",
            "description": " ".join((kind.__doc__ or "").split()),
            "properties": {field: shape(hints[field]) for field in fields},
            "required": sorted(fields),
        }
        schedules[name] = {
            "type": "object",
            "properties": {
                "title": {"type": "string"},
                "note": {"type": "string"},
                "rows": {"type": "array", "items": {"$ref": f"#/$defs/{kind.__name__}"}},
            },
            "required": ["note", "rows", "title"],
        }
    return schedules, rows


def closed(node: Any) -> Any:
    """The same schema, refusing every key that it doesn't describe."""
    if isinstance(node, dict):
        inner = {key: closed(value) for key, value in node.items()}
        if node.get("type") == "object" and "properties" in node:
            inner["additionalProperties"] = False
        return inner
    return [closed(item) for item in node] if isinstance(node, list) else node


def test_the_shipped_schema_describes_the_row_types() -> None:
    schedules, rows = rows_part()
    shipped = json.loads(SHIPPED.read_bytes())
    if os.environ.get("HOODWRIGHT_WRITE_SCHEMA"):
        shipped["properties"]["schedules"]["properties"] = schedules
        own = {"Acknowledgement", "Finding", "Remedy", "Edit", "Working", "Input", "Source"}
        shipped["$defs"] = {name: part for name, part in shipped["$defs"].items() if name in own} | rows
        SHIPPED.write_text(json.dumps(shipped, indent=2) + "\n", encoding="utf-8")
    assert shipped["properties"]["schedules"]["properties"] == schedules
    assert {name: shipped["$defs"].get(name) for name in rows} == rows


def test_the_shipped_schema_is_itself_valid() -> None:
    Draft202012Validator.check_schema(json.loads(schema.plan_schema()))


@pytest.mark.parametrize("job", [*JOBS, TEMPLATE_JOB], ids=lambda path: path.stem)
def test_every_sample_gives_json_that_the_schema_describes_wholly(job: Path) -> None:
    document = json.loads(plan_json(plan_file(job).plan))
    strict = closed(json.loads(schema.plan_schema()))
    Draft202012Validator(strict).validate(document)
    assert set(document["schedules"]) == set(SCHEDULES)


def test_the_validator_notices_a_missing_and_a_wrong_value() -> None:
    document = plan_data(plan_file(TEMPLATE_JOB).plan)
    validator = Draft202012Validator(json.loads(schema.plan_schema()))
    del document["sound"]
    with pytest.raises(ValidationError, match="'sound' is a required property"):
        validator.validate(document)
    document["sound"] = "yes"
    with pytest.raises(ValidationError, match="'yes' is not of type 'boolean'"):
        validator.validate(document)


def test_a_row_carries_its_numbers_with_their_unit() -> None:
    document = plan_data(plan_file(TEMPLATE_JOB).plan)
    terminations = document["schedules"]["terminations"]["rows"]
    line = next(row for row in terminations if row["terminal"] == "X1:1L")
    # As the template sheet writes them: strip "3/8 in", torque "12 lbf.in".
    assert (line["strip_in"], line["torque_lbf_in"]) == (0.375, 12.0)


def test_a_number_that_is_not_finite_is_refused() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        as_json({"length_in": float("nan")})


def test_a_text_can_neither_break_out_nor_steer_a_terminal() -> None:
    hostile = '\u202e\x1b[2J\u2028</script>"\\'
    written = as_json({"name": hostile})
    assert written.isascii()
    assert all(byte >= 0x20 or byte == 0x0A for byte in written)
    assert json.loads(written)["name"] == hostile
