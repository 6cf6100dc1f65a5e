"""The circuits that the panel must feed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.circuit_wires import MATERIAL
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.job.electrical import CircuitChange
    from schedules.plan import Plan
    from schedules.quantities.sizes import WireSize
    from schedules.sheet.wiring import Circuit


@dataclass(frozen=True, slots=True)
class CircuitRow:
    """One branch circuit.

    needed_a: the least circuit for its load [A], None where the load isn't known. protection: the breaker type that
    the code asks for; planned: what the job has. needed_conductor, needed_ground: the thickest that any of its cables
    needs. drop_8_percent, drop_9_percent, drop_solved_percent: voltage lost by Chapter 9 Table 8 and Table 9 and in the
    solved network [percent], None where a way isn't measured.
    """

    circuit: str
    name: str
    volts: str
    poles: int
    rating_a: float
    needed_a: float | None
    drawn_a: float
    continuous_a: float
    breaker: str
    protection: str
    planned: str
    conductor: str
    needed_conductor: str
    ground: str
    needed_ground: str
    neutral: str
    drop_8_percent: float | None
    drop_9_percent: float | None
    drop_solved_percent: float | None
    connection: str
    disconnect: str
    receptacle: str
    cables: str
    spaces: str
    directory: str
    taken_from: str


def circuits(plan: Plan) -> Schedule[CircuitRow]:
    """One row per circuit, in the sheet's order."""
    rows = tuple(_row(plan, planned) for planned in plan.derived.branches)
    spaces = sum(row.poles for row in rows if row.taken_from == OWN_BREAKER)
    return Schedule(
        id="circuits",
        title="Circuits",
        columns=(
            Column("circuit", "Circuit", lambda row: row.circuit),
            Column("name", "Feeds", lambda row: row.name),
            Column("volts", "Volts", lambda row: row.volts, right=True),
            Column("breaker", "Breaker", lambda row: row.breaker),
            Column("protection", "Protection", lambda row: row.protection),
            Column("drawn", "Load", lambda row: f"{row.drawn_a:.1f} A", right=True),
            Column("conductor", "Wire", lambda row: row.conductor),
            Column("needed_conductor", "Wire at least", lambda row: row.needed_conductor, rank=2),
            Column("ground", "Ground", lambda row: row.ground, rank=2),
            Column("needed_ground", "Ground at least", lambda row: row.needed_ground, rank=3),
            Column("needed", "Circuit at least", lambda row: _amperes(row.needed_a), rank=2, right=True),
            Column("neutral", "Neutral", lambda row: row.neutral, rank=2),
            Column("cables", "Cables", lambda row: row.cables, rank=2),
            Column("drop_8", "Drop, Table 8", lambda row: _percent(row.drop_8_percent), rank=2, right=True),
            Column("drop_9", "Drop, Table 9", lambda row: _percent(row.drop_9_percent), rank=2, right=True),
            Column(
                "drop_solved",
                "Drop, solved",
                lambda row: _percent(row.drop_solved_percent),
                rank=3,
                right=True,
            ),
            Column("connection", "Connected", lambda row: row.connection, rank=3),
            Column("disconnect", "Disconnected by", lambda row: row.disconnect, rank=3),
            Column("receptacle", "Receptacle", lambda row: row.receptacle, rank=3),
            Column("planned", "Breaker planned", lambda row: row.planned, rank=3),
            Column("from", "Taken from", lambda row: row.taken_from, rank=3),
            Column("spaces", "Spaces", lambda row: row.spaces, rank=3),
            Column("directory", "Panel directory", lambda row: row.directory, rank=3),
        ),
        rows=rows,
        note=(
            f"{len(rows)} circuits, {spaces} breaker spaces. Protection, least wire, ground and circuit are what "
            f"NEC {plan.derived.job.job.code} asks for, as amended in the job, all conductors of {MATERIAL}: another "
            "metal takes other sizes and terminals. A licensed electrician decides."
        ),
    )


OWN_BREAKER = "own breaker"


def _row(plan: Plan, planned: CircuitPlan) -> CircuitRow:
    circuit, need, drop = planned.circuit, planned.need, planned.drop
    change = next((item for item in plan.derived.job.circuit if item.circuit == circuit.tag), None)
    trip = ", shunt trip" if circuit.shunt_trip is not None else ""
    own = ", individual" if circuit.individual else ""
    return CircuitRow(
        circuit=circuit.tag,
        name=circuit.name,
        volts="120/240" if circuit.poles == 2 and circuit.neutral else f"{need.volts:g}",
        poles=circuit.poles,
        rating_a=circuit.rating,
        needed_a=planned.rating.rating_a if planned.rating is not None else None,
        drawn_a=need.drawn_a,
        continuous_a=need.continuous_a,
        breaker=f"{circuit.poles}-pole {circuit.rating:g} A{trip}",
        protection=planned.protection.type,
        planned=(change.breaker_type if change and change.breaker_type else DASH),
        conductor=_size(need.conductor),
        needed_conductor=_thickest(item.needed.size for item in planned.wires if item.needed is not None),
        ground=_size(need.ground),
        needed_ground=_thickest(
            item.needed_ground.size for item in planned.wires if item.needed_ground is not None
        ),
        neutral="own" if circuit.neutral else "none",
        drop_8_percent=drop.by_resistance.percent if drop is not None else None,
        drop_9_percent=drop.by_impedance.percent if drop is not None else None,
        drop_solved_percent=drop.solved_percent if drop is not None else None,
        connection=circuit.connection or DASH,
        disconnect=_disconnect(circuit, change),
        receptacle=_receptacle(planned),
        cables=", ".join(need.cables) or DASH,
        spaces=(change.spaces if change and change.spaces else DASH),
        directory=(change.directory if change and change.directory else f"{circuit.name}{own}"),
        taken_from=(change.downstream_of if change and change.downstream_of else OWN_BREAKER),
    )


def _disconnect(circuit: Circuit, change: CircuitChange | None) -> str:
    """What cuts off what is on the circuit: a plug, or what the job says."""
    if circuit.connection == "cord":
        return "plug"
    return change.disconnect if change is not None and change.disconnect is not None else DASH


def _receptacle(planned: CircuitPlan) -> str:
    """The rating as stated; where it isn't, what may be there."""
    if planned.circuit.receptacle is not None:
        return f"{planned.circuit.receptacle:g} A"
    allowed = planned.receptacle
    if allowed is None:
        return DASH
    most = "or more" if allowed.most_a is None else f"to {allowed.most_a}"
    return f"to be {allowed.least_a} {most} A"


def _thickest(sizes: Iterable[WireSize]) -> str:
    return _size(max(sizes, default=None))


def _size(size: WireSize | None) -> str:
    return DASH if size is None else str(size)


def _amperes(value: float | None) -> str:
    return DASH if value is None else f"{value:g} A"


def _percent(value: float | None) -> str:
    return DASH if value is None else f"{value:.2f} %"
