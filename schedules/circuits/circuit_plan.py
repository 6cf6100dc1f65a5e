"""Each branch circuit by the rules of the code: rating, conductors, drop, breaker, receptacle, company, contacts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import resting_on
from schedules.circuits.branch_circuits import individual_circuit, receptacle_circuit
from schedules.circuits.circuit_drops import circuit_drop
from schedules.circuits.circuit_protection import feeds_receptacle, protection_of
from schedules.circuits.circuit_wires import CircuitLoad, wires_of
from schedules.circuits.cooking_circuits import receptacle_ratings
from schedules.circuits.cooking_load import cooking_load
from schedules.circuits.hood_supply import HoodCord, hood_circuit, hood_cord
from schedules.circuits.overcurrent import Rating
from schedules.circuits.wire_paths import wire_paths
from schedules.sheet.hardware import Load
from schedules.tables import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.answers import Judgement, Verdict
    from schedules.circuits.circuit_drops import CircuitDrop
    from schedules.circuits.circuit_protection import Protection
    from schedules.circuits.circuit_wires import CableWires
    from schedules.circuits.cooking_circuits import ReceptacleRatings
    from schedules.circuits.cooking_load import CookingLoad
    from schedules.circuits.feeds import CircuitNeed
    from schedules.circuits.installation import Installation
    from schedules.circuits.wire_paths import WirePath
    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.sheet.wiring import Circuit
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class CircuitPlan:
    """One branch circuit.

    carries: what its conductors carry. cooking: its cooking appliances. rating: the least standard rating for the
    load; None where no load is known. wires: each power cable. paths: each load's way. drop: None where a way isn't
    measured. receptacle: ratings that its receptacles may have. company: whether the hood may be on it so, None where
    it feeds no hood or nobody says what else is on it. cord: the hood's cord, None where there is none or what it
    depends on is missing.
    """

    need: CircuitNeed
    carries: CircuitLoad
    cooking: CookingLoad | None
    rating: Rating | None
    wires: tuple[CableWires, ...]
    paths: tuple[WirePath, ...]
    drop: CircuitDrop | None
    protection: Protection
    receptacle: ReceptacleRatings | None
    hood: bool
    company: Verdict | None
    cord: Verdict | None

    @property
    def circuit(self) -> Circuit:
        """The circuit as this job has it."""
        return self.need.circuit

    @property
    def judgements(self) -> Iterator[Judgement]:
        """Every question that the code leaves to somebody."""
        for wires in self.wires:
            yield from wires.judgements
        yield from self.protection.judgements
        if self.company is not None and not self.circuit.individual:
            yield from self.company.judgements

    @property
    def _conductors(self) -> Working:
        """What each of its cables needs; how that came about stands with the cable."""
        return Working(
            name=f"conductors of {self.circuit.tag}",
            formula="each cable of the circuit by itself, where it runs",
            inputs=tuple(
                Input(wires.cable, wires.working.result, f"see {wires.cable}; installed {wires.live}")
                for wires in self.wires
            ),
            result="thick enough" if all(wires.thick_enough for wires in self.wires) else "too thin",
            source=resting_on(
                self.wires[0].working.source.citation, *(wires.working.source for wires in self.wires)
            ),
        )

    @property
    def workings(self) -> Iterator[Working]:
        """How each of its numbers came about."""
        yield self.need.working
        if self.cooking is not None and self.cooking.demand is not None:
            yield self.cooking.demand.working
        if self.rating is not None:
            yield self.rating.working
        if self.cooking is not None and self.cooking.neutral is not None:
            yield self.cooking.neutral.working
        if self.wires:
            yield self._conductors
        if self.drop is not None:
            yield self.drop.working
        yield from self.protection.workings
        for verdict in (self.receptacle, self.company, self.cord):
            if verdict is not None:
                yield verdict.working
        if self.cooking is not None and self.cooking.receptacle is not None:
            yield self.cooking.receptacle.working


def plan_circuits(
    installed: Installation,
    selection: Selection,
    needs: tuple[CircuitNeed, ...],
    shares: Mapping[str, float],
) -> tuple[CircuitPlan, ...]:
    """Apply the code's rules to every circuit of the selection. shares: as in `circuit_drop`."""
    edition, connections = installed.edition, installed.connections
    changes = {item.circuit: item for item in installed.job.circuit}
    hoods = {item.tag for item in selection.enclosures if item.kind in ("equipment", "by-others")}
    plans = []
    for need in needs:
        cooking = cooking_load(need, connections, edition)
        carries = carried(need, cooking, connections)
        paths = wire_paths(need.circuit, need.feeds, connections, installed.joins)
        hood = _feeds_hood(need, connections, hoods)
        plans.append(
            CircuitPlan(
                need=need,
                carries=carries,
                cooking=cooking,
                rating=_rating(need, carries, cooking, edition),
                wires=wires_of(installed, need.circuit, carries),
                paths=paths,
                drop=circuit_drop(installed, paths, shares),
                protection=protection_of(need, changes.get(need.circuit.tag), connections, edition),
                receptacle=_receptacle(need.circuit, edition),
                hood=hood,
                company=_company(need, edition) if hood else None,
                cord=_cord(need.circuit, edition) if hood else None,
            )
        )
    return tuple(plans)


def carried(need: CircuitNeed, cooking: CookingLoad | None, connections: Connections) -> CircuitLoad:
    """What the conductors carry: cooking appliances by their demand, the largest motor like a continuous load."""
    spared = 0.0 if cooking is None else (cooking.plated_w - cooking.counted_w) / need.volts
    continuous = need.continuous_a + max(_motors(need, connections), default=0.0)
    return CircuitLoad(continuous, max(0.0, need.drawn_a - spared - continuous))


def _motors(need: CircuitNeed, connections: Connections) -> Iterator[float]:
    """Currents of motors that are not continuous loads anyway [A]; 430.22 asks the same share for them."""
    for key, amperes in need.currents.items():
        spec = connections.inside[key].spec
        if isinstance(spec, Load) and spec.motor and not spec.continuous:
            yield amperes


def _rating(
    need: CircuitNeed, carries: CircuitLoad, cooking: CookingLoad | None, edition: Code
) -> Rating | None:
    """The least circuit for the load, for what the nameplate marks and, for a range, for its own least."""
    if carries.continuous_a + carries.other_a <= 0:
        return None
    try:
        by_load = individual_circuit(
            continuous_a=carries.continuous_a,
            other_a=carries.other_a,
            marked_circuit_a=need.circuit.least_circuit,
            # A device marked too small for the load is the check's to report, not an answer to refuse.
            marked_device_a=None,
            edition=edition,
        )
    except LookupError:
        return _beyond_standard(
            max(carries.continuous_a + carries.other_a, need.circuit.least_circuit or 0.0), edition
        )
    if feeds_receptacle(need.circuit):
        by_load = receptacle_circuit(by_load, edition=edition)
    if cooking is not None and cooking.rating is not None and cooking.rating.rating_a >= by_load.rating_a:
        return cooking.rating
    return by_load


def _beyond_standard(load_a: float, edition: Code) -> Rating:
    """What a load needs that no standard rating reaches: itself, so that the check can say how far it is out."""
    whole_a = math.ceil(load_a)
    return Rating(
        whole_a,
        Working(
            name="circuit rating for the load",
            formula="the load itself: no standard rating reaches it",
            inputs=(Input("load", f"{load_a:g} A"),),
            result=f"{whole_a} A",
            source=rule("individual_circuit", edition).source,
        ),
    )


def _feeds_hood(need: CircuitNeed, connections: Connections, equipment: set[str]) -> bool:
    """Whether it is a circuit of the hood and its fan, fastened in place, not of cooking appliances or receptacles."""
    if need.circuit.serves in ("cooking", "receptacle"):
        return False
    return any(connections.landings[connections.inside[key].a].enclosure in equipment for key in need.feeds)


def receptacles_on(circuit: Circuit) -> int:
    """How many receptacles it has: as stated, else one on an individual circuit and several on any other."""
    return circuit.receptacles or (1 if circuit.individual else 2)


def _receptacle(circuit: Circuit, edition: Code) -> ReceptacleRatings | None:
    if not feeds_receptacle(circuit):
        return None
    try:
        return receptacle_ratings(int(circuit.rating), receptacles=receptacles_on(circuit), edition=edition)
    except LookupError:
        # The table lists the usual circuits only; the check on standard ratings speaks of any other.
        return None


def _company(need: CircuitNeed, edition: Code) -> Verdict | None:
    circuit = need.circuit
    shares = "nothing" if circuit.individual else circuit.shares_with
    if shares is None or need.drawn_a <= 0:
        return None
    try:
        return hood_circuit(
            hood_a=need.drawn_a,
            circuit_a=circuit.rating,
            connection=circuit.connection or "hardwired",
            shares_with=shares,
            edition=edition,
        )
    except ValueError:
        # A shared circuit of a rating that the rule doesn't speak of: reported by the check on company.
        return None


def _cord(circuit: Circuit, edition: Code) -> Verdict | None:
    cord = circuit.cord
    if circuit.connection != "cord" or cord is None:
        return None
    if circuit.receptacle_accessible is None or circuit.cord_protected is None:
        return None
    return hood_cord(
        HoodCord(
            length_in=cord.length,
            instructions_allow=cord.instructions_allow,
            grounding_plug=cord.grounding_plug,
            double_insulated=cord.double_insulated,
            receptacle_accessible=circuit.receptacle_accessible,
            cord_kept_from_damage=circuit.cord_protected,
            individual_circuit=circuit.individual,
        ),
        edition=edition,
    )
