"""What kind of breaker does each circuit need: poles, disconnect, ground-fault and arc-fault protection?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.branch_circuits import Breaker, breaker
from schedules.circuits.gfci_afci import appliance_gfci, kitchen_afci, kitchen_receptacle_gfci
from schedules.connections.panel import LEG_VOLTS
from schedules.sheet.hardware import Coil, Load

if TYPE_CHECKING:
    from schedules.answers import Judgement, Verdict
    from schedules.circuits.feeds import CircuitNeed
    from schedules.connections.graph import Connections
    from schedules.job.electrical import BreakerType, CircuitChange
    from schedules.sheet.wiring import Circuit
    from schedules.tables.edition import Code
    from schedules.working import Working

_OLDEST = "2020"
"""The edition that asks for what a kitchen receptacle serves and how far the sink is."""


@dataclass(frozen=True, slots=True)
class Protection:
    """The breaker of one circuit.

    ground_fault, arc_fault: each rule that was asked, with its answer. breaker: None where poles and multiwire
    contradict each other. open: what the answer waits for, in words.
    """

    ground_fault: tuple[Verdict, ...]
    arc_fault: Verdict
    breaker: Breaker | None
    open: tuple[str, ...]

    @property
    def gfci(self) -> bool:
        """Whether any rule asks for ground-fault protection."""
        return any(verdict.holds for verdict in self.ground_fault)

    @property
    def afci(self) -> bool:
        """Whether the rule asks for arc-fault protection."""
        return self.arc_fault.holds

    @property
    def type(self) -> BreakerType:
        """The breaker type that gives all of it."""
        if self.gfci and self.afci:
            return "AFCI and GFCI"
        return "GFCI" if self.gfci else "AFCI" if self.afci else "standard"

    @property
    def workings(self) -> tuple[Working, ...]:
        """Every rule asked."""
        own = () if self.breaker is None else (self.breaker.working,)
        return (*own, *(verdict.working for verdict in self.ground_fault), self.arc_fault.working)

    @property
    def judgements(self) -> tuple[Judgement, ...]:
        """What remains to be decided, each question once."""
        asked = [item for verdict in (*self.ground_fault, self.arc_fault) for item in verdict.judgements]
        return tuple({(item.question, item.who_decides): item for item in asked}.values())


def protection_of(
    need: CircuitNeed, change: CircuitChange | None, connections: Connections, edition: Code
) -> Protection:
    """Ask every rule on breakers, ground-fault and arc-fault protection for one circuit of a dwelling's kitchen."""
    circuit = need.circuit
    volts = _volts(need, connections)
    arc = kitchen_afci(
        circuit_a=circuit.rating,
        supply_v=volts,
        extension_without_outlets_in=change.extends if change is not None else None,
        edition=edition,
    )
    ground = [
        appliance_gfci(name, circuit_a=circuit.rating, to_ground_v=LEG_VOLTS, edition=edition)
        for name in _appliances(need, connections)
    ]
    waits: tuple[str, ...] = ()
    if feeds_receptacle(circuit):
        waits = _open(circuit, edition)
        ground.append(
            kitchen_receptacle_gfci(
                supply_v=need.volts,
                to_ground_v=LEG_VOLTS,
                serves_countertop=bool(circuit.countertop),
                to_sink_in=circuit.to_sink,
                edition=edition,
            )
        )
    return Protection(tuple(ground), arc, _breaker(circuit, edition), waits)


def lacking(planned: BreakerType, needed: BreakerType) -> tuple[str, ...]:
    """What a planned breaker type leaves out of what is needed."""
    return tuple(name for name in ("GFCI", "AFCI") if name in needed and name not in planned)


def feeds_receptacle(circuit: Circuit) -> bool:
    """Whether the circuit ends in a receptacle, as far as sheet and job say."""
    return circuit.connection == "cord" or circuit.receptacle is not None or circuit.serves == "receptacle"


def _volts(need: CircuitNeed, connections: Connections) -> float:
    """The circuit's voltage; one with two legs that also feeds something of one leg's voltage counts as that."""
    rated = [
        spec.rated
        for key in need.feeds
        if isinstance(spec := connections.inside[key].spec, Load | Coil) and spec.rated <= need.volts
    ]
    return LEG_VOLTS if need.circuit.poles == 1 or LEG_VOLTS in rated else need.volts


def _appliances(need: CircuitNeed, connections: Connections) -> tuple[str, ...]:
    specs = (connections.inside[key].spec for key in need.feeds)
    named = (spec.appliance for spec in specs if isinstance(spec, Load))
    return tuple(
        dict.fromkeys(name for name in named if name is not None and name not in ("gas range", "other"))
    )


def _open(circuit: Circuit, edition: Code) -> tuple[str, ...]:
    if str(edition) != _OLDEST or circuit.countertop or circuit.to_sink is not None:
        return ()
    return ("the receptacle's distance from the nearest sink, or that it serves the countertop",)


def _breaker(circuit: Circuit, edition: Code) -> Breaker | None:
    if circuit.multiwire and circuit.poles == 1:
        return None
    return breaker(
        legs=circuit.poles,
        multiwire=circuit.multiwire,
        shunt_trip=circuit.shunt_trip is not None,
        edition=edition,
    )
