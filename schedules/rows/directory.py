"""What is written into the panel's door: one line for each breaker, specific enough to be found in the dark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.circuits import circuits
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.rows.circuits import CircuitRow


@dataclass(frozen=True, slots=True)
class DirectoryRow:
    """One line of the directory. spaces: of the panel, empty where the job doesn't say."""

    circuit: str
    spaces: str
    breaker: str
    protection: str
    text: str
    feeds: str


def directory(plan: Plan) -> Schedule[DirectoryRow]:
    """One row per breaker of this equipment."""
    return Schedule(
        id="directory",
        title="Panel directory",
        columns=(
            Column("circuit", "Circuit", lambda row: row.circuit),
            Column("spaces", "Spaces", lambda row: row.spaces or DASH),
            Column("breaker", "Breaker", lambda row: row.breaker),
            Column("protection", "Protection", lambda row: row.protection),
            Column("text", "Write in the panel's door", lambda row: row.text),
            Column("feeds", "Cables", lambda row: row.feeds, rank=2),
        ),
        rows=tuple(map(_row, circuits(plan).rows)),
        note=(
            "Each line says what it feeds and where; spaces that are left are marked spare (NEC 408.4(A), from memory)."
        ),
    )


def _row(row: CircuitRow) -> DirectoryRow:
    return DirectoryRow(
        circuit=row.circuit,
        spaces="" if row.spaces == DASH else row.spaces,
        breaker=row.breaker,
        protection=row.protection,
        text=row.name if row.directory == DASH else row.directory,
        feeds=row.cables,
    )
