"""What disconnects the hood and each cooking appliance in this kitchen, judged as far as the job speaks of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.disconnects import Sight, by_plug, wired_in
from schedules.sheet.hardware import Load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.job.records import Job, Place
    from schedules.sheet.wiring import Circuit


@dataclass(frozen=True, slots=True)
class Disconnect:
    """How the loads of one circuit are disconnected.

    load_va: what they take [VA]. plug: they are plugged in. verdict: None where nobody says what disconnects them.
    """

    circuit: Circuit
    load_va: float
    plug: bool
    verdict: Verdict | None


def plan_disconnects(
    job: Job, selection: Selection, connections: Connections, branches: tuple[CircuitPlan, ...]
) -> tuple[Disconnect, ...]:
    """Judge every circuit that feeds the hood or cooking appliances; a hood's own plug goes with its cord."""
    return tuple(_every(job, selection, connections, branches))


def _every(
    job: Job, selection: Selection, connections: Connections, branches: tuple[CircuitPlan, ...]
) -> Iterator[Disconnect]:
    means = {change.circuit: change.disconnect for change in job.circuit}
    for planned in branches:
        circuit, cooking = planned.circuit, planned.circuit.serves == "cooking"
        if not (planned.hood or cooking) or planned.need.drawn_a <= 0:
            continue
        load_va, said = planned.need.drawn_a * planned.need.volts, means.get(circuit.tag)
        if circuit.connection == "cord":
            reachable = circuit.receptacle_accessible
            if not planned.hood and reachable is not None:
                plug = by_plug(reachable=reachable, range_plug=cooking, edition=job.adopted)
                yield Disconnect(circuit, load_va, plug=True, verdict=plug)
        elif said is not None:
            wired = wired_in(
                load_va=load_va,
                motor=_motor(connections, planned),
                means=said,
                sight=_sight(job, selection, connections, planned),
                edition=job.adopted,
            )
            yield Disconnect(circuit, load_va, plug=False, verdict=wired)
        # A cooking circuit of which nobody says how it ends is asked about that first.
        elif planned.hood or circuit.connection is not None:
            yield Disconnect(circuit, load_va, plug=False, verdict=None)


def _motor(connections: Connections, planned: CircuitPlan) -> bool:
    specs = (connections.inside[key].spec for key in planned.need.feeds)
    return any(isinstance(spec, Load) and spec.motor for spec in specs)


def _sight(job: Job, selection: Selection, connections: Connections, planned: CircuitPlan) -> Sight:
    """From the panel to the furthest thing that the circuit feeds, as far as both are measured along one wall."""
    places = {place.enclosure: place for place in job.place}
    panel = next((item.tag for item in selection.enclosures if item.kind == "panel"), None)
    here = places.get(panel) if panel is not None else None
    if here is None:
        return Sight(same_room=True, distance_in=None)
    fed = {connections.landings[connections.inside[key].a].enclosure for key in planned.need.feeds}
    away = [
        distance
        for tag in sorted(fed)
        if tag in places and (distance := _distance_in(here, places[tag])) is not None
    ]
    return Sight(here.stands in ("wall", "free"), max(away, default=None))


def _distance_in(one: Place, other: Place) -> float | None:
    if one.wall != other.wall:
        return None
    here, there = (one.along, one.out, one.up), (other.along, other.out, other.up)
    if None in here or None in there:
        return None
    return math.dist([value or 0.0 for value in here], [value or 0.0 for value in there])
