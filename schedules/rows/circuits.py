"""The circuits that the panel must feed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.circuits import CircuitNeed
    from schedules.plan import Plan


@dataclass(frozen=True, slots=True)
class CircuitRow:
    """One branch circuit."""

    circuit: str
    name: str
    volts: str
    poles: int
    rating_a: float
    drawn_a: float
    continuous_a: float
    breaker: str
    conductor: str
    ground: str
    neutral: str
    cables: str
    spaces: str
    directory: str
    taken_from: str


def circuits(plan: Plan) -> Schedule[CircuitRow]:
    """One row per circuit, in the sheet's order."""
    return Schedule(
        id="circuits",
        title="Circuits",
        columns=(
            Column("circuit", "Circuit", lambda row: row.circuit),
            Column("name", "Feeds", lambda row: row.name),
            Column("volts", "Volts", lambda row: row.volts, right=True),
            Column("breaker", "Breaker", lambda row: row.breaker),
            Column("drawn", "Load", lambda row: f"{row.drawn_a:.1f} A", right=True),
            Column("conductor", "Wire", lambda row: row.conductor),
            Column("ground", "Ground", lambda row: row.ground, rank=2),
            Column("neutral", "Neutral", lambda row: row.neutral, rank=2),
            Column("cables", "Cables", lambda row: row.cables, rank=2),
            Column("from", "Taken from", lambda row: row.taken_from, rank=3),
            Column("spaces", "Spaces", lambda row: row.spaces, rank=3),
            Column("directory", "Panel directory", lambda row: row.directory, rank=3),
        ),
        rows=tuple(_row(plan, need) for need in plan.derived.circuits),
        note="A licensed electrician decides breaker type and place; GFCI and AFCI follow the adopted code.",
    )


def _row(plan: Plan, need: CircuitNeed) -> CircuitRow:
    circuit = need.circuit
    change = next((item for item in plan.derived.job.circuit if item.circuit == circuit.tag), None)
    trip = ", shunt trip" if circuit.shunt_trip is not None else ""
    own = ", individual" if circuit.individual else ""
    return CircuitRow(
        circuit=circuit.tag,
        name=circuit.name,
        volts="120/240" if circuit.poles == 2 and circuit.neutral else f"{need.volts:g}",
        poles=circuit.poles,
        rating_a=circuit.rating,
        drawn_a=need.drawn_a,
        continuous_a=need.continuous_a,
        breaker=f"{circuit.poles}-pole {circuit.rating:g} A{trip}",
        conductor=str(need.conductor) if need.conductor is not None else DASH,
        ground=str(need.ground) if need.ground is not None else DASH,
        neutral="own" if circuit.neutral else "none",
        cables=", ".join(need.cables) or DASH,
        spaces=(change.spaces if change and change.spaces else DASH),
        directory=(change.directory if change and change.directory else f"{circuit.name}{own}"),
        taken_from=(change.downstream_of if change and change.downstream_of else "own breaker"),
    )
