"""JSON Schemas: of equipment sheets and jobs for editors, of plans for other programs."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from schedules.files.records import Record
from schedules.files.validation import PATTERNS, models_in
from schedules.job.records import Job
from schedules.questions.fields import FIELDS
from schedules.sheet.sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic import BaseModel

    from schedules.questions.field import Field

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_PLAN = Path(__file__).parent / "schemas" / "plan-1.json"

_PLAIN = {"string": str, "integer": int, "number": float, "boolean": bool}

# The unit of a value inside: in a file every value is text with a unit of its own.
_UNIT_INSIDE = re.compile(r" \[[^\]]*\]")
_KEYS = r"[a-z_]+(?:(?:, | and )[a-z_]+)*"
_ENTRY = re.compile(rf"(?:^|(?<=[.;] ))({_KEYS}): ")


def sheet_schema() -> dict[str, Any]:
    """The JSON Schema of an equipment sheet, format 1."""
    return _schema(Sheet, "Equipment sheet, format 1")


def job_schema() -> dict[str, Any]:
    """The JSON Schema of a job, format 1; its keys are described as the wizard asks for them."""
    schema = _schema(Job, "Job, format 1")
    for (table, key), field in FIELDS.items():
        home = _table(schema, table)
        home[key] |= {"title": field.label, "description": field.why, "examples": [_example(field)]}
    return schema


def _example(field: Field) -> object:
    """A field's example as the file writes it; where the sheet gives the options, it is a name already."""
    given_by_sheet = field.reads == "option" and not field.options
    return field.example if given_by_sheet else field.read(field.example)


def plan_schema() -> bytes:
    """The JSON Schema of a plan's document, hoodwright-plan version 1, as it is shipped."""
    return _PLAN.read_bytes()


def _schema(model: type[BaseModel], title: str) -> dict[str, Any]:
    schema = model.model_json_schema(by_alias=True)
    parts = {
        record: schema if record is model else schema["$defs"][record.__name__] for record in _records(model)
    }
    for record, part in parts.items():
        part["properties"] = {key: _as_toml(entry) for key, entry in part["properties"].items()}
        _describe(record, part)
    return {"$schema": DIALECT, **schema, "title": title}


def _records(model: type[BaseModel]) -> set[type[BaseModel]]:
    """A record and every record in it."""
    found: set[type[BaseModel]] = set()
    waiting = [model]
    while waiting:
        record = waiting.pop()
        if record not in found:
            found.add(record)
            waiting += [
                inner for info in record.model_fields.values() for inner in models_in(info.annotation)
            ]
    return found


def _describe(record: type[BaseModel], schema: dict[str, Any]) -> None:
    """Give each key the words that the record's docstring has for it, else those of its kind of text."""
    lead, words = _docstring(record)
    schema["description"] = lead
    for base in record.__mro__[1:]:
        if issubclass(base, Record):
            words = _docstring(base)[1] | words
    for name, info in record.model_fields.items():
        entry = schema["properties"][info.alias or name]
        for said in (words.get(name), *_kinds(entry), *_leads(info.annotation)):
            if said:
                entry.setdefault("description", said)


def _kinds(entry: dict[str, Any]) -> Iterator[str]:
    """What kind of text a key has, where its pattern has words."""
    for part in (entry, entry.get("items", {})):
        words = PATTERNS.get(part.get("pattern", ""))
        if words:
            yield f"{words[:1].upper()}{words[1:]}."


def _leads(annotation: object) -> Iterator[str]:
    """What a key's record is, if it holds only one kind of record."""
    records = models_in(annotation)
    if len(records) == 1:
        yield _docstring(records.pop())[0]


def _as_toml(entry: dict[str, Any]) -> dict[str, Any]:
    """Leave out what TOML can't write: null, and defaults that are values from inside."""
    kept = {key: value for key, value in entry.items() if key not in ("anyOf", "default")}
    kinds = [kind for kind in entry.get("anyOf", ()) if kind != {"type": "null"}]
    kept |= kinds[0] if len(kinds) == 1 else {"anyOf": kinds} if kinds else {}
    default = entry.get("default")
    if type(default) is _PLAIN.get(kept.get("type", "")):
        kept["default"] = default
    return kept


def _docstring(record: type[BaseModel]) -> tuple[str, dict[str, str]]:
    """Take a docstring apart: what the record is, and what it says of each of its keys."""
    text = _UNIT_INSIDE.sub("", " ".join((record.__doc__ or "").split()))
    entries = [
        (match, names)
        for match in _ENTRY.finditer(text)
        if set(names := re.split(r", | and ", match[1])) <= set(record.model_fields)
    ]
    words: dict[str, str] = {}
    end = len(text)
    for match, names in reversed(entries):
        said = text[match.end() : end].strip()
        words |= dict.fromkeys(names, said[:1].upper() + said[1:])
        end = match.start()
    return text[:end].strip(), words


def _table(schema: dict[str, Any], table: str) -> dict[str, Any]:
    """The properties of one table of the job; those of the top where it has no name."""
    if not table:
        return schema["properties"]  # type: ignore[no-any-return]
    entry = schema["properties"][table]
    reference: str = entry.get("$ref") or entry["items"]["$ref"]
    return schema["$defs"][reference.rpartition("/")[2]]["properties"]  # type: ignore[no-any-return]
