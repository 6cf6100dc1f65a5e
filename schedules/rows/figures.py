"""A figure that was worked out, beside what it is held against: the row of mounting, duct, air and gas."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.working import Working


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One figure. limit: what it is held against. good: whether it keeps to it, None where nothing holds it."""

    part: str
    what: str
    value: str
    limit: str
    good: bool | None
    source: str


def figures(name: str, title: str, rows: tuple[FigureRow, ...], note: str) -> Schedule[FigureRow]:
    """A schedule of figures, grouped by part."""
    return Schedule(
        id=name,
        title=title,
        columns=(
            Column("what", "What", lambda row: row.what),
            Column("value", "Value", lambda row: row.value, right=True),
            Column("limit", "Against", lambda row: row.limit or DASH),
            Column("good", "Good", lambda row: DASH if row.good is None else "yes" if row.good else "NO"),
            Column("source", "Source", lambda row: row.source, rank=2),
        ),
        rows=rows,
        group=lambda row: row.part,
        note=note if rows else "",
    )


def figure_row(
    part: str, what: str, value: str, working: Working, *, limit: str = "", good: bool | None = None
) -> FigureRow:
    """One figure with the source of its working."""
    return FigureRow(part, what, value, limit, good, str(working.source))
