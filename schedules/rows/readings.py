"""Commissioning: what the meter should read, step by step, and what was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.commissioning import commissioning, value_words, verdict
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.behaviour.commissioning import Test
    from schedules.connections.points import Point
    from schedules.job.testing import Tested
    from schedules.plan import Plan

_NOTE = (
    "Prove the meter on a live source before and after. Dead shows 0 V on low impedance: find out whatever shows more. "
    "Dead tests first; a live one only by a licensed electrician, with the other hand out of the box. Ohms are never "
    "measured on anything that is live. Solved for nominal supplies, 120/240 V; loads by nameplate; a conductor nobody "
    "has measured counts as 25 ft. over limit: the meter shows open."
)


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One test; numbers in the function's unit [V or ohm], None where open or not read with a meter.

    found, verdict, reason: what was found, what that comes to, why it is accepted without passing; empty where nobody
    has recorded it.
    """

    id: str
    step: str
    order: int
    test: str
    state: str
    function: str
    from_enclosure: str
    from_terminal: str
    to_enclosure: str
    to_terminal: str
    expected: float | None
    low: float | None
    high: float | None
    shown: str
    passes: str
    live: bool
    note: str
    source: str
    found: str
    verdict: str
    reason: str
    initials: str
    date: str


def readings(plan: Plan) -> Schedule[ReadingRow]:
    """One row per reading, and one for each step that needs eyes instead of a meter, grouped by step."""
    taken = {record.test: record for record in plan.derived.job.tested}
    tests = commissioning(plan.derived).tests
    recorded = sum(1 for test in tests if test.id in taken)
    said = f" Recorded in the job: {recorded} of {len(tests)} tests." if recorded else ""
    # What was found outweighs what was planned, as soon as anything was.
    planned, done = (2, 1) if recorded else (1, 3)
    return Schedule(
        id="readings",
        title="Expected readings and commissioning record",
        columns=(
            Column("from", "From", lambda row: f"{row.from_enclosure} {row.from_terminal}".strip() or DASH),
            Column("to", "To", lambda row: f"{row.to_enclosure} {row.to_terminal}".strip() or DASH),
            Column("state", "State", lambda row: row.state),
            Column("expected", "Expected", lambda row: row.shown, rank=planned),
            Column("passes", "Passes", lambda row: row.passes),
            Column("note", "Note", lambda row: row.note or DASH, rank=2),
            Column("found", "Found", _found, rank=done),
            Column("initials", "Initials", lambda row: f"{row.initials} {row.date}".strip(), rank=done),
        ),
        rows=tuple(_row(plan, test, taken.get(test.id)) for test in tests),
        group=lambda row: f"{row.order}  {row.test}",
        note=_NOTE + said,
        enclosures=lambda row: (row.from_enclosure, row.to_enclosure),
    )


def _found(row: ReadingRow) -> str:
    said = f"{row.found}: {row.verdict}" if row.found else ""
    return f"{said}, {row.reason}" if row.reason else said


def _row(plan: Plan, test: Test, record: Tested | None) -> ReadingRow:
    reading = test.reading
    start, end = (None, None) if reading is None else (reading.start, reading.end)
    by_eye = "; ".join(filter(None, (test.how, test.note)))
    return ReadingRow(
        id=test.id,
        step=test.step,
        order=test.order,
        test=test.title,
        state=test.state,
        function="" if reading is None else str(reading.function),
        from_enclosure=_enclosure(plan, start),
        from_terminal=str(start or ""),
        to_enclosure=_enclosure(plan, end),
        to_terminal=str(end or ""),
        expected=None if reading is None else reading.expected,
        low=None if reading is None else reading.low,
        high=None if reading is None else reading.high,
        shown=DASH if reading is None else value_words(reading.expected, reading.function),
        passes=test.passes,
        live=not test.dead or (reading is not None and reading.live),
        note=by_eye if reading is None else test.note,
        source=str(test.source),
        found="" if record is None else record.found,
        verdict="" if record is None else str(verdict(test, record)),
        reason="" if record is None else record.reason or "",
        initials="" if record is None else record.initials,
        date="" if record is None else record.date,
    )


def _enclosure(plan: Plan, point: Point | None) -> str:
    return "" if point is None else plan.derived.connections.landings[point].enclosure
