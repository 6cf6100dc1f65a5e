"""Every cable: its ends, its way, what it needs against what it gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.quantities.lengths import format_length
from schedules.rows.schedule import DASH, Column, Schedule
from schedules.site.chance import in_percent
from schedules.site.routes import Unmeasured

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.sheet.wiring import Cable
    from schedules.site.reach import CableLength


@dataclass(frozen=True, slots=True)
class CableRow:
    """One cable. Lengths are inches [in], None where unknown or not applicable. chance: that it reaches, 0 to 1."""

    cable: str
    name: str
    make: str
    type: str
    circuit_class: str
    from_enclosure: str
    to_enclosure: str
    route: str
    required_in: float | None
    supplied_in: float | None
    margin_in: float | None
    worst_in: float | None
    likely_off_in: float | None
    chance: float | None
    cut_in: float | None
    verdict: str
    conductors: int
    raceway: str


def cables(plan: Plan) -> Schedule[CableRow]:
    """One row per cable, in the sheet's order."""
    lengths = {item.cable: item for item in plan.derived.lengths}
    return Schedule(
        id="cables",
        title="Cables",
        columns=(
            Column("cable", "Cable", lambda row: row.cable),
            Column("ends", "From – to", lambda row: f"{row.from_enclosure} – {row.to_enclosure}"),
            Column("required", "Needs", lambda row: _length(row.required_in, "up"), right=True),
            Column("supplied", "Has", lambda row: _length(row.supplied_in, "down"), right=True),
            Column("margin", "To spare", lambda row: _length(row.margin_in, "down"), right=True),
            Column("cut", "Cut", lambda row: _length(row.cut_in, "up"), right=True),
            Column("verdict", "Verdict", lambda row: row.verdict),
            Column("raceway", "Raceway", lambda row: row.raceway or DASH, rank=2),
            Column("name", "What it is", lambda row: row.name, rank=2),
            Column("route", "Route", lambda row: row.route, rank=3),
            Column("type", "Type", lambda row: row.type, rank=3),
            Column("class", "Class", lambda row: row.circuit_class, rank=4),
            Column("worst", "Worst case", lambda row: _length(row.worst_in, "down"), rank=4, right=True),
            Column("chance", "Chance", _chance, rank=4, right=True),
        ),
        rows=tuple(_row(plan, cable, lengths[cable.tag]) for cable in plan.derived.selection.cables),
        enclosures=lambda row: (row.from_enclosure, row.to_enclosure),
        note="Needs: route, entry, free conductor and service loop. No joint lengthens a factory cable.",
    )


def _row(plan: Plan, cable: Cable, length: CableLength) -> CableRow:
    raceways = [item.raceway for item in plan.derived.raceways if cable.tag in item.cables]
    missing = isinstance(length.route, Unmeasured)
    return CableRow(
        cable=cable.tag,
        name=cable.name,
        make=cable.make,
        type=cable.type,
        circuit_class=cable.circuit_class,
        from_enclosure=cable.origin.enclosure,
        to_enclosure=cable.target.enclosure,
        route="not measured" if isinstance(length.route, Unmeasured) else length.route.kind,
        required_in=length.required_in,
        supplied_in=length.supplied_in,
        margin_in=length.margin_in,
        worst_in=length.worst_in,
        likely_off_in=length.likely_off_in,
        chance=length.chance,
        cut_in=length.cut_in,
        verdict="not measured" if missing else str(length.verdict),
        conductors=len(cable.core),
        raceway=", ".join(raceways),
    )


def _chance(row: CableRow) -> str:
    return DASH if row.chance is None else in_percent(row.chance)


def _length(value: float | None, rounding: Literal["up", "down"]) -> str:
    if value is None:
        return DASH
    return format_length(value, rounding=rounding)
