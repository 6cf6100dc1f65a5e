"""What each branch circuit feeds, what it draws, and the conductors that carry it."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from schedules.circuits.wire_paths import walk
from schedules.connections.panel import LEG_VOLTS
from schedules.connections.points import Point
from schedules.sheet.breakers import line_terminals
from schedules.sheet.hardware import Coil, Load
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.circuits.wire_paths import Joins, Steps
    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.connections.points import Inside
    from schedules.quantities.sizes import WireSize
    from schedules.sheet.wiring import Circuit


@dataclass(frozen=True, slots=True)
class CircuitNeed:
    """One branch circuit.

    feeds: keys of the loads and coils on it. drawn_a: their currents added up [A]. continuous_a: the part that runs
    three hours or more [A]. conductor: the thinnest ungrounded or grounded conductor that carries it, ground: its
    equipment grounding conductor; None where none lands.
    """

    circuit: Circuit
    volts: float
    currents: Mapping[str, float]
    drawn_a: float
    continuous_a: float
    conductor: WireSize | None
    ground: WireSize | None
    cables: tuple[str, ...]
    working: Working

    @property
    def feeds(self) -> tuple[str, ...]:
        """Keys of the loads and coils on it."""
        return tuple(self.currents)


def find_circuits(selection: Selection, connections: Connections, joins: Joins) -> tuple[CircuitNeed, ...]:
    """Follow each circuit from its breaker to what it feeds. joins: where current can pass."""
    return tuple(_need(circuit, connections, joins) for circuit in selection.circuits)


def current_of(spec: Load | Coil) -> float:
    """Current that a load or coil draws at its rated voltage [A]: nameplate, else power / (volts · power factor)."""
    if isinstance(spec, Coil):
        return spec.burden / spec.rated
    if spec.current is not None:
        return spec.current
    return (spec.power or 0.0) / (spec.rated * spec.power_factor)


def _need(circuit: Circuit, connections: Connections, joins: Joins) -> CircuitNeed:
    reached = _behind_breaker(circuit, joins)
    fed = sorted(
        (inside for inside in connections.inside.values() if _is_fed(inside, reached)),
        key=lambda item: item.key,
    )
    currents = {inside.key: current_of(inside.spec) for inside in fed if isinstance(inside.spec, Load | Coil)}
    continuous = sum(
        currents[inside.key] for inside in fed if isinstance(inside.spec, Load) and inside.spec.continuous
    )
    carried = [item for item in connections.conductors.values() if item.circuit == circuit.tag]
    live = [item for item in carried if connections.landings[item.a].carries in ("line", "neutral")]
    grounds = [item for item in carried if connections.landings[item.a].carries == "ground"]
    drawn = sum(currents.values())
    return CircuitNeed(
        circuit=circuit,
        volts=LEG_VOLTS * circuit.poles,
        currents=MappingProxyType(currents),
        drawn_a=drawn,
        continuous_a=continuous,
        conductor=min((item.size for item in live), default=None),
        ground=min((item.size for item in grounds), default=None),
        cables=tuple(sorted({item.cable for item in carried}, key=lambda tag: int(tag[1:]))),
        working=Working(
            name=f"load of {circuit.tag}",
            formula="sum of the currents of what it feeds: nameplate, else power / (volts · power factor)",
            inputs=tuple(Input(key, f"{amperes:.2f} A", "sheet") for key, amperes in currents.items()),
            result=f"{drawn:.2f} A of {circuit.rating:g} A",
            source=Source("sheet's loads", Confidence.SHEET),
        ),
    )


def _behind_breaker(circuit: Circuit, joins: Joins) -> Steps:
    """Every point that the circuit can feed: the service bars join all circuits, so its own way to them is cut."""
    feeding = (f"{circuit.tag}.breaker-", f"{circuit.tag}.tap-")
    starts = [Point(circuit.tag, name) for name in line_terminals(circuit)]
    return walk(starts, joins, lambda key: key.startswith(feeding))


def _is_fed(inside: Inside, reached: Steps) -> bool:
    return isinstance(inside.spec, Load | Coil) and (inside.a in reached or inside.b in reached)
