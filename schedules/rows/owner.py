"""The owner's card: what to do in a fire, what the hood then does, what brings it back, which breaker is which."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.interlocks import Does, interlock_matrix
from schedules.rows.circuits import circuits
from schedules.rows.schedule import Column, Schedule
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.interlocks import Matrix
    from schedules.plan import Plan

_DOES = {
    Does.ON: "on",
    Does.OFF: "off",
    Does.FOLLOWS: "as you switch it",
    Does.UNCHANGED: "as it was just before",
}
_THEN = "What the hood does when it releases"
_AFTER = "After a release"
_BREAKERS = "Breakers in the panel"


@dataclass(frozen=True, slots=True)
class OwnerRow:
    """One line of the card. says: empty where somebody writes it in."""

    part: str
    what: str
    says: str
    source: str


def owner(plan: Plan) -> Schedule[OwnerRow]:
    """The card's lines, part by part."""
    matrix = interlock_matrix(plan.derived)
    rows = (*_practice(), *_then(plan, matrix), *_reset(plan, matrix), *_breakers(plan))
    parts = ("In a fire", _THEN, _AFTER, _BREAKERS, "Through the year", "Whom to call")
    return Schedule(
        id="owner",
        title="Owner's card",
        columns=(
            Column("what", "What", lambda row: row.what),
            Column("says", "Do, or know", lambda row: row.says),
            Column("source", "Source", lambda row: row.source, rank=2),
        ),
        rows=tuple(sorted(rows, key=lambda row: parts.index(row.part))),
        group=lambda row: row.part,
        note="Hang it where everybody in the house sees it. The fire department and the maker's manual come first.",
    )


def _practice() -> Iterator[OwnerRow]:
    table = load("owner_card")
    for row in table.rows:
        yield OwnerRow(row.text("part"), row.text("what"), row.text("says"), str(table.source(row)))


def _then(plan: Plan, matrix: Matrix) -> Iterator[OwnerRow]:
    """Each effect over every cause in which a release stands, with nothing else lost."""
    fire = {signal.id for signal in plan.derived.sheet.signal if signal.fire}
    released = [
        cause
        for cause in matrix.causes
        if cause.case.of_sheet and cause.case.signals & fire and not cause.case.circuits_off
    ]
    for place, effect in enumerate(matrix.effects):
        done = {cause.cells[place].does for cause in released}
        if done:
            only = next(iter(done))
            says = (
                _DOES.get(only, "depends: see the interlock matrix")
                if len(done) == 1
                else "depends on the cause"
            )
            yield OwnerRow(_THEN, effect.name, says, "solved from the wiring")


def _reset(plan: Plan, matrix: Matrix) -> Iterator[OwnerRow]:
    names = {signal.id: signal.name for signal in plan.derived.sheet.signal}
    held = {signal for cause in matrix.causes if cause.case.of_sheet for signal in cause.held}
    if held:
        said = "; ".join(sorted(names.get(signal, signal) for signal in held))
        yield OwnerRow(_AFTER, "Set again by hand, by a trained person", said, "solved from the wiring")


def _breakers(plan: Plan) -> Iterator[OwnerRow]:
    for row in circuits(plan).rows:
        spaces = f"space {row.spaces}, " if any(sign.isdigit() for sign in row.spaces) else ""
        yield OwnerRow(
            _BREAKERS, row.name, f"{row.circuit}, {spaces}{row.breaker}", "job and equipment sheet"
        )
