"""What was found and done on site, beside what was planned; blank where nobody has written it down yet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.job.records import AsBuilt
    from schedules.plan import Plan
    from schedules.sheet.wiring import Cable


@dataclass(frozen=True, slots=True)
class AsBuiltRow:
    """One cable. planned_in: length to cut or needed; pulled_in: as pulled, None where it isn't recorded [in].

    landed: terminals at which its conductors were landed; ends: how many of them there are in all.
    """

    cable: str
    name: str
    planned_in: float | None
    pulled_in: float | None
    landed: tuple[str, ...]
    ends: int
    initials: str
    date: str
    note: str


def as_built(plan: Plan) -> Schedule[AsBuiltRow]:
    """One row per cable, in the sheet's order."""
    found = {item.cable: item for item in plan.derived.job.as_built}
    rows = tuple(_row(plan, cable, found.get(cable.tag)) for cable in plan.derived.selection.cables)
    recorded = sum(1 for row in rows if row.initials)
    return Schedule(
        id="as-built",
        title="As-built and tested record",
        columns=(
            Column("cable", "Cable", lambda row: row.cable),
            Column("name", "What it is", lambda row: row.name),
            Column("planned", "Planned", lambda row: _length(row.planned_in), right=True),
            Column("pulled", "Pulled", lambda row: _length(row.pulled_in), right=True),
            Column("landed", "Ends landed", lambda row: f"{len(row.landed)} of {row.ends}"),
            Column("initials", "Initials", lambda row: row.initials),
            Column("date", "Date", lambda row: row.date),
            Column("note", "Note", lambda row: row.note),
            Column("where", "Landed at", lambda row: ", ".join(row.landed) or DASH, rank=3),
        ),
        rows=rows,
        note=f"{recorded} of {len(rows)} cables recorded in the job; write the others in by hand, then into the job.",
    )


def _row(plan: Plan, cable: Cable, built: AsBuilt | None) -> AsBuiltRow:
    length = next(item for item in plan.derived.lengths if item.cable == cable.tag)
    conductors = [item for item in plan.derived.connections.conductors.values() if item.cable == cable.tag]
    return AsBuiltRow(
        cable=cable.tag,
        name=cable.name,
        planned_in=length.cut_in if length.cut_in is not None else length.required_in,
        pulled_in=None if built is None else built.length,
        landed=() if built is None else built.landed,
        ends=2 * len(conductors),
        initials="" if built is None else built.initials,
        date="" if built is None else built.date,
        note="" if built is None else built.note or "",
    )


def _length(value: float | None) -> str:
    return "" if value is None else format_length(value, rounding="up")
