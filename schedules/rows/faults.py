"""Single faults: what each does, whether that is safe, who notices it and when."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.faults import try_faults
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.behaviour.faults import Outcome
    from schedules.plan import Plan

_NOTE = (
    "One thing wrong at a time, tried on the solved installation in every state of the interlock matrix that has no "
    "other supply lost. Noticed: by what a person sees of the equipment; no ground-fault or arc-fault device is "
    "counted on."
)
_SHOWN = 4
"""So many differences are told in a row; its data hold them all."""


@dataclass(frozen=True, slots=True)
class FaultRow:
    """One fault."""

    fault: str
    kind: str
    says: str
    enclosures: tuple[str, ...]
    effects: tuple[str, ...]
    safe: bool
    dangers: tuple[str, ...]
    noticed: str
    hidden: bool


def faults(plan: Plan) -> Schedule[FaultRow]:
    """One row per single fault; dangerous ones that nobody notices come first, then dangerous, then safe ones."""
    return fault_table(try_faults(plan.derived))


def fault_table(outcomes: tuple[Outcome, ...]) -> Schedule[FaultRow]:
    """The same table of faults that have been tried already."""
    rows = sorted(map(_row, outcomes), key=_rank)
    return Schedule(
        id="faults",
        title="Single faults",
        columns=(
            Column("fault", "Fault", lambda row: row.says),
            Column("effects", "What is different", _effects),
            Column("dangers", "Danger", lambda row: "; ".join(row.dangers) or "none"),
            Column("noticed", "Noticed", lambda row: row.noticed),
            Column("kind", "Kind", lambda row: row.kind, rank=3),
        ),
        rows=tuple(rows),
        group=_group,
        note=_NOTE,
        enclosures=lambda row: row.enclosures,
    )


def _row(outcome: Outcome) -> FaultRow:
    told: dict[str, list[str]] = {}
    for deviation in outcome.deviations:
        told.setdefault(deviation.says, []).append(deviation.state)
    return FaultRow(
        fault=outcome.fault.id,
        kind=str(outcome.fault.kind),
        says=outcome.fault.says,
        enclosures=outcome.fault.enclosures,
        effects=tuple(f"{says} ({_states(states)})" for says, states in told.items()),
        safe=outcome.safe,
        dangers=outcome.dangers,
        noticed=str(outcome.notice),
        hidden=outcome.hidden,
    )


def _states(states: list[str]) -> str:
    return states[0] if len(states) == 1 else f"{states[0]} and {len(states) - 1} more states"


def _effects(row: FaultRow) -> str:
    more = len(row.effects) - _SHOWN
    return "; ".join(row.effects[:_SHOWN]) + (f"; {more} more" if more > 0 else "") or DASH


def _rank(row: FaultRow) -> int:
    return (not row.dangers) * 2 + (not row.hidden if row.dangers else 0)


def _group(row: FaultRow) -> str:
    return ("Dangerous and not noticed in use", "Dangerous, noticed", "Not dangerous", "Not dangerous")[
        _rank(row)
    ]
