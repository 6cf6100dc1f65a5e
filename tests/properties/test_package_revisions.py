"""What changed since the last package: marked where it stands, said at the front, and nothing else."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.errors import InputError
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.package.record import NAME, read_record, record_bytes
from schedules.package.revisions import PrintedTable, compare_with, printed_findings, printed_table
from schedules.package.stamp import contents_code, make_stamp
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from schedules.rows.every import SCHEDULES
from schedules.writers.data import plan_json
from schedules.writers.document import Mark
from tests.packages import JOBS, plan_of

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.package.record import Record
    from schedules.plan import Plan

JOB = "galley-gas"


def tables_of(plan: Plan) -> dict[str, PrintedTable]:
    return {name: printed_table(make(plan)) for name, make in SCHEDULES.items()}


def record_of(plan: Plan, folder: Path) -> Record:
    """The record that a package of this plan leaves."""
    stamp = make_stamp(plan, contents_code(plan_json(plan)))
    (folder / NAME).write_bytes(record_bytes(stamp, tables_of(plan), printed_findings(plan.findings), {}))
    return read_record(folder)


def edited(*edits: Edit) -> Plan:
    draft = read_draft(JOBS / f"{JOB}.toml")
    return plan_job(read_sheet_of(draft), draft.edited(edits).job)


def test_the_same_plan_differs_in_nothing(tmp_path: Path) -> None:
    plan = plan_of(JOB)
    revision = compare_with(record_of(plan, tmp_path), tables_of(plan), printed_findings(plan.findings))
    assert revision.changes is not None
    assert revision.changes.lines == ()
    assert not any(revision.marks.values())
    assert not revision.finding_marks


def test_every_row_has_a_key_of_its_own() -> None:
    for name, make in SCHEDULES.items():
        schedule = make(plan_of(JOB))
        assert len(printed_table(schedule).rows) == len(schedule.rows), name


def test_a_longer_way_changes_the_cable_and_is_said_at_the_front(tmp_path: Path) -> None:
    before = edited()
    after = edited(Edit("place", "MU", "along", "18 ft 6 in"))
    assert before != after
    old = record_of(before, tmp_path)
    revision = compare_with(old, tables_of(after), printed_findings(after.findings))
    cables = SCHEDULES["cables"](after)
    marked = {cables.rows[place].cable: mark for place, mark in revision.marks["cables"].items()}
    assert marked["W14"] is Mark.CHANGED
    was, now = (
        next(row for row in SCHEDULES["cables"](plan).rows if row.cable == "W14").cut_in
        for plan in (before, after)
    )
    assert was != now
    assert revision.changes is not None
    said = dict(revision.changes.lines)["Cables"]
    assert any(line.startswith("W14: ") and " (was " in line for line in said)
    assert f"revision {old.revision}" in revision.changes.against
    assert old.code in revision.changes.against


def test_an_option_more_adds_rows_and_one_less_removes_them(tmp_path: Path) -> None:
    draft = read_draft(JOBS / f"{JOB}.toml")
    without = [choice for choice in draft.job.choices if choice != "make-up-contact"]
    assert len(without) == len(draft.job.choices) - 1
    more, less = edited(), edited(Edit("", None, "choices", without))
    added = compare_with(record_of(less, tmp_path), tables_of(more), printed_findings(more.findings))
    rows = SCHEDULES["conductors"](more).rows
    new = {rows[place].number for place, mark in added.marks["conductors"].items() if mark is Mark.NEW}
    gone = {row.number for row in rows} - {row.number for row in SCHEDULES["conductors"](less).rows}
    assert new == gone
    assert gone
    removed = compare_with(record_of(more, tmp_path), tables_of(less), printed_findings(less.findings))
    assert removed.changes is not None
    said = " ".join(dict(removed.changes.lines)["Conductors, both ends"])
    assert all(f"{number}: removed: " in said for number in gone)


@given(
    old=st.dictionaries(st.integers(0, 12), st.sampled_from("abc"), max_size=10),
    new=st.dictionaries(st.integers(0, 12), st.sampled_from("abc"), max_size=10),
)
def test_marks_are_what_differs(old: dict[int, str], new: dict[int, str]) -> None:
    def table(rows: dict[int, str]) -> PrintedTable:
        return PrintedTable("One", {(str(key), "1"): {"head": value} for key, value in rows.items()})

    nothing = PrintedTable("Findings", {})
    record: Any = type("Old", (), {"findings": nothing, "tables": {"one": table(old)}})
    record.revision = record.date = record.code = ""
    revision = compare_with(record, {"one": table(new)}, nothing)
    expected = {
        place: Mark.NEW if key not in old else Mark.CHANGED
        for place, (key, value) in enumerate(new.items())
        if old.get(key) != value
    }
    assert revision.marks["one"] == expected
    assert revision.changes is not None
    lines = dict(revision.changes.lines).get("One", ())
    assert len(lines) == len(expected) + len(old.keys() - new.keys())


def test_the_contents_code_tells_plans_apart() -> None:
    plan = plan_of(JOB)
    other = edited(Edit("job", None, "revision", "another"))
    codes = {contents_code(plan_json(item)) for item in (plan, other, replace(plan, findings=()))}
    assert len(codes) == 3


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (lambda document: document.pop("job"), "lacks something"),
        (lambda document: document.update(format="other"), "another format"),
        (lambda document: document.update(version=2), "another format"),
        (lambda document: document.update(job="a\u001b[31m"), "in another form"),
        (lambda document: document.update(findings=[]), "in another form"),
        (lambda document: document["findings"].update(rows=[{"key": [], "cells": {}}]), "in another form"),
        (lambda document: document.update(files={"a": 1}), "in another form"),
    ],
)
def test_a_record_that_can_not_be_used_is_refused(tmp_path: Path, change: Any, found: str) -> None:
    record_of(plan_of(JOB), tmp_path)
    document = json.loads((tmp_path / NAME).read_bytes())
    change(document)
    (tmp_path / NAME).write_text(json.dumps(document))
    with pytest.raises(InputError, match=found):
        read_record(tmp_path)


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "\x00", "[" * 100_000])
def test_a_file_that_is_no_record_is_refused(tmp_path: Path, text: str) -> None:
    (tmp_path / NAME).write_text(text)
    with pytest.raises(InputError, match=r"package\.json: found"):
        read_record(tmp_path)
