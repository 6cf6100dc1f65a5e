"""A plan as JSON for other programs: `hoodwright-plan`, version 1, described by schemas/plan-1.json.

Every key carries its unit (`margin_in`, `torque_lbf_in`). The same plan gives the same bytes on every machine: lists
stand in the plan's own order, keys sorted, everything beyond ASCII escaped.
"""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING, Any

from schedules.cautions import CAUTION
from schedules.rows.every import SCHEDULES
from schedules.workings import workings

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.findings import Edit, Finding
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from schedules.working import Input, Source, Working

FORMAT = "hoodwright-plan"
VERSION = 1


def plan_data(plan: Plan, schedules: Iterable[Schedule[Any]] | None = None) -> dict[str, Any]:
    """The document of a plan, as plain dicts, lists and values.

    schedules: the tables to hold; all of them where None is given.
    """
    chosen = tuple(make(plan) for make in SCHEDULES.values()) if schedules is None else tuple(schedules)
    derived = plan.derived
    return {
        "format": FORMAT,
        "version": VERSION,
        "cautions": [CAUTION, *derived.sheet.sheet.cautions],
        "job": _fields(derived.job.job),
        "sheet": {
            "id": derived.sheet.sheet.id,
            "name": derived.sheet.sheet.name,
            "revision": derived.sheet.sheet.revision,
            "source": derived.sheet.sheet.source,
        },
        "choices": sorted(derived.job.choices),
        "sound": plan.sound,
        "findings": [_finding(finding) for finding in plan.findings],
        "schedules": {schedule.id: _schedule(schedule) for schedule in chosen},
        "workings": [{"subject": item.subject, "working": _working(item.working)} for item in workings(plan)],
    }


def plan_json(plan: Plan, schedules: Iterable[Schedule[Any]] | None = None) -> bytes:
    """The document of a plan as JSON text, with a line end."""
    return as_json(plan_data(plan, schedules))


def as_json(document: object) -> bytes:
    """JSON of a document: keys sorted, everything beyond ASCII escaped, so that no text in it can act on a terminal.

    Raises ValueError for a number that is not finite.
    """
    return json.dumps(document, indent=2, sort_keys=True, ensure_ascii=True, allow_nan=False).encode() + b"\n"


def _fields(title: Any) -> dict[str, Any]:
    """The job's title block, and its path to the sheet as written."""
    return {
        "name": title.name,
        "sheet": title.sheet,
        "revision": title.revision,
        "date": title.date,
        "code_edition": title.code,
        "prepared_by": title.prepared_by,
        "note": title.note,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    answer = finding.answer
    return {
        "code": finding.code,
        "severity": str(finding.severity),
        "meaning": finding.severity.meaning,
        "subject": finding.subject,
        "says": finding.says,
        "numbers": [_input(item) for item in finding.numbers],
        "rule": finding.rule,
        "source": _source(finding.source),
        "answer": None if answer is None else dict(zip(("table", "row", "field"), answer, strict=True)),
        "remedies": [
            {"words": remedy.words, "edits": [_edit(edit) for edit in remedy.edits]}
            for remedy in finding.remedies
        ],
        "acknowledgement": _acknowledgement(finding),
    }


def _acknowledgement(finding: Finding) -> dict[str, Any] | None:
    """What the job records under a finding; `void` says why it doesn't count, empty where it does."""
    found = finding.acknowledgement
    return None if found is None else dataclasses.asdict(found)


def _edit(edit: Edit) -> dict[str, Any]:
    return {"table": edit.table, "row": edit.row, "field": edit.field, "value": edit.value}


def _schedule(schedule: Schedule[Any]) -> dict[str, Any]:
    return {
        "title": schedule.title,
        "note": schedule.note,
        "rows": [_row(row) for row in schedule.rows],
    }


def _row(row: Any) -> dict[str, Any]:
    """A row's fields; several values of one field are an array, as JSON has it."""
    return {
        key: list(value) if isinstance(value, tuple) else value
        for key, value in dataclasses.asdict(row).items()
    }


def _working(working: Working) -> dict[str, Any]:
    return {
        "name": working.name,
        "formula": working.formula,
        "inputs": [_input(item) for item in working.inputs],
        "result": working.result,
        "source": _source(working.source),
        "note": working.note,
        "steps": [_working(step) for step in working.steps],
    }


def _input(item: Input) -> dict[str, str]:
    return {"name": item.name, "value": item.value, "origin": item.origin}


def _source(source: Source) -> dict[str, Any]:
    return {
        "citation": source.citation,
        "confidence": str(source.confidence),
        "caveat": source.confidence.caveat,
        "amended": list(source.amended),
    }
