"""Commissioning: what the meter should read, step by step, with room for what was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.readings import Function, expected_readings
from schedules.rows.schedule import DASH, Column, Schedule
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.readings import Reading
    from schedules.plan import Plan
    from schedules.tables import Row

_NOTE = (
    "Prove the meter on a live source before and after. Dead tests first; a live one only by a licensed electrician, "
    "with the other hand out of the box. Ohms are never measured on anything that is live. Solved for nominal "
    "supplies, 120/240 V; loads by nameplate; a conductor nobody has measured counts as 25 ft. over limit: the meter "
    "shows open."
)


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One expected reading; numbers in the function's unit [V or ohm], None where open or not read with a meter."""

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


def readings(plan: Plan) -> Schedule[ReadingRow]:
    """One row per reading, and one for each step that needs eyes instead of a meter, grouped by step."""
    return Schedule(
        id="readings",
        title="Expected readings and commissioning record",
        columns=(
            Column("from", "From", lambda row: f"{row.from_enclosure} {row.from_terminal}".strip() or DASH),
            Column("to", "To", lambda row: f"{row.to_enclosure} {row.to_terminal}".strip() or DASH),
            Column("state", "State", lambda row: row.state),
            Column("expected", "Expected", lambda row: row.shown),
            Column("passes", "Passes", lambda row: row.passes),
            Column("note", "Note", lambda row: row.note or DASH, rank=2),
            Column("found", "Found", lambda _row: "", rank=3),
            Column("initials", "Initials", lambda _row: "", rank=3),
        ),
        rows=tuple(_rows(plan)),
        group=lambda row: f"{row.order}  {row.test}",
        note=_NOTE,
        enclosures=lambda row: (row.from_enclosure, row.to_enclosure),
    )


def _rows(plan: Plan) -> Iterator[ReadingRow]:
    by_step: dict[str, list[Reading]] = {}
    for reading in expected_readings(plan.derived):
        by_step.setdefault(reading.step, []).append(reading)
    for row in load("commissioning_tests").rows:
        step = row.text("step")
        if step in by_step:
            yield from (_row(plan, row, reading) for reading in by_step[step])
        elif step not in _METER_STEPS:
            yield _by_eye(row)


_METER_STEPS = ("prove-dead", "continuity", "polarity", "contacts", "loop", "loaded")
"""Steps whose rows come from the solved network; without a row there is nothing of the kind in this installation."""


def _row(plan: Plan, row: Row, reading: Reading) -> ReadingRow:
    landings = plan.derived.connections.landings
    return ReadingRow(
        step=reading.step,
        order=row.count("order"),
        test=row.text("test"),
        state=reading.state,
        function=str(reading.function),
        from_enclosure=landings[reading.start].enclosure,
        from_terminal=str(reading.start),
        to_enclosure=landings[reading.end].enclosure,
        to_terminal=str(reading.end),
        expected=reading.expected,
        low=reading.low,
        high=reading.high,
        shown=_value(reading.expected, reading.function),
        passes=_band(reading),
        live=reading.live,
        note=reading.note,
        source=str(reading.source),
    )


def _by_eye(row: Row) -> ReadingRow:
    """A step without a terminal pair: how it is done stands as its note."""
    return ReadingRow(
        step=row.text("step"),
        order=row.count("order"),
        test=row.text("test"),
        state=row.text("state"),
        function="",
        from_enclosure="",
        from_terminal="",
        to_enclosure="",
        to_terminal="",
        expected=None,
        low=None,
        high=None,
        shown=DASH,
        passes=row.text("pass"),
        live=row.text("state").startswith("live"),
        note="; ".join(filter(None, (row.text("how"), row.text("note")))),
        source=str(load("commissioning_tests").source(row)),
    )


def _value(value: float | None, function: Function) -> str:
    if value is None:
        return "over limit"
    if function is Function.OHMS:
        return f"{value:.2f} ohm" if value < 100 else f"{value:.0f} ohm"
    digits = 0 if value >= 100 else 1
    return f"{value:.{digits}f} {function}"


def _band(reading: Reading) -> str:
    if reading.low is None or reading.high is None:
        return "over limit"
    if not reading.high:
        return _value(0.0, reading.function)
    if not reading.low:
        return f"under {_value(reading.high, reading.function)}"
    return f"{_value(reading.low, reading.function).split()[0]} to {_value(reading.high, reading.function)}"
