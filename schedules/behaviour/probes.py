"""What an electrician can look at or measure while a fault is sought, and what that takes."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.leads import in_reach
from schedules.behaviour.leads import pairs as commissioned_pairs
from schedules.behaviour.loops import far_ends
from schedules.behaviour.neighbours import neighbours
from schedules.behaviour.states import at_rest, cast_of, in_use
from schedules.connections.points import Point
from schedules.sheet.breakers import MAINS
from schedules.sheet.hardware import Coil, Contact, Load, Resistor

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.trial import Bench
    from schedules.derived import Derived


class ProbeKind(StrEnum):
    """How something is found out: one effect, all of one state, a breaker or plug; with a meter; wires lifted first."""

    SEE = "see"
    STATE = "state"
    LOOK = "look"
    VOLTS = "volts"
    OHMS = "ohms"
    RING = "ring"
    CONTACT = "contact"
    ELEMENT = "element"
    BETWEEN = "between"
    LOOP = "loop"


COSTS = {
    ProbeKind.SEE: 1.0,
    ProbeKind.STATE: 1.0,
    ProbeKind.LOOK: 1.0,
    ProbeKind.OHMS: 2.0,
    ProbeKind.VOLTS: 4.0,
    ProbeKind.RING: 4.0,
    ProbeKind.CONTACT: 4.0,
    ProbeKind.ELEMENT: 4.0,
    ProbeKind.BETWEEN: 4.0,
    ProbeKind.LOOP: 4.0,
}
"""Effort times hazard, nominal.

Looking 1; ohms with the leads on terminals 2; twice that where wires are lifted first, or where the leads touch live
parts.
"""

RELEASE_COST = 6.0
"""Of looking while the release is tried, agent disabled: trades have to be there."""

RETURN_COST = 3.0
"""Of looking while power is taken away or the suppression is reset."""


@dataclass(frozen=True, slots=True)
class Probe:
    """One thing to look at or measure. subject: effect, cable, contact, coil, device. cost: effort times hazard."""

    id: str
    kind: ProbeKind
    says: str
    case: str
    subject: str
    start: Point | None
    end: Point | None
    live: bool
    cost: float


def make_probes(bench: Bench) -> tuple[Probe, ...]:
    """Everything that can be looked at or measured in one installation."""
    return tuple(
        itertools.chain(
            _sights(bench),
            _voltages(bench),
            _resistances(bench),
            _rings(bench),
            _elements(bench),
            _neighbours(bench),
            _looks(bench),
            _loops(bench),
        )
    )


def _sights(bench: Bench) -> Iterator[Probe]:
    cast = cast_of(bench.derived)
    names = {effect.id: effect.name for effect in bench.derived.sheet.effect}
    after: set[str] = set()
    for item in bench.whole:
        case = item.case
        if item.burning or (case.after or "") in after:
            after.add(case.id)
        cost = COSTS[ProbeKind.SEE]
        if not case.signals.isdisjoint(cast.fire):
            cost = RELEASE_COST
        elif case.id in after or case.circuits_off or case.reset:
            cost = RETURN_COST
        yield Probe(
            id=f"state {case.id}",
            kind=ProbeKind.STATE,
            says=f"put up the state “{case.name}”: what is not as it should be?",
            case=case.id,
            subject="",
            start=None,
            end=None,
            live=False,
            cost=cost,
        )
        for effect in item.levels:
            yield Probe(
                id=f"see {case.id} {effect}",
                kind=ProbeKind.SEE,
                says=f"state “{case.name}”: {names[effect]}?",
                case=case.id,
                subject=effect,
                start=None,
                end=None,
                live=False,
                cost=cost,
            )


def _looks(bench: Bench) -> Iterator[Probe]:
    """Breakers, each in its place; plugs, each at both ends."""
    idle = at_rest(bench.cases, cast_of(bench.derived)).id
    for circuit in bench.derived.selection.circuits:
        yield _look(idle, circuit.tag, f"breaker {circuit.tag}: on?")
    for cable in bench.derived.selection.cables:
        for end in (cable.origin, cable.target):
            if end.connector is not None:
                yield _look(
                    idle, f"{cable.tag} at {end.enclosure}", f"plug of {cable.tag} at {end.enclosure}: mated?"
                )


def _look(case: str, subject: str, says: str) -> Probe:
    return Probe(
        id=f"look {subject}",
        kind=ProbeKind.LOOK,
        says=says,
        case=case,
        subject=subject,
        start=None,
        end=None,
        live=False,
        cost=COSTS[ProbeKind.LOOK],
    )


def _loops(bench: Bench) -> Iterator[Probe]:
    for key, inside in bench.derived.connections.inside.items():
        if isinstance(inside.spec, Resistor) and key in bench.network.netlist.branches:
            for a, b in far_ends(bench.derived, inside):
                yield _lifted(
                    ProbeKind.LOOP, key, f"into the loop of {key}, its wires lifted at {a} and {b}: ohms"
                )


def _voltages(bench: Bench) -> Iterator[Probe]:
    cast = cast_of(bench.derived)
    for case in dict.fromkeys((at_rest(bench.cases, cast), in_use(bench.cases, cast))):
        for a, b in _pairs(bench.derived):
            yield Probe(
                id=f"volts {case.id} {a} {b}",
                kind=ProbeKind.VOLTS,
                says=f"state “{case.name}”: volts {a} to {b}",
                case=case.id,
                subject="",
                start=a,
                end=b,
                live=True,
                cost=COSTS[ProbeKind.VOLTS],
            )


def _resistances(bench: Bench) -> Iterator[Probe]:
    """With every breaker off; not where another supply keeps the two terminals live."""
    off = next(item for item in bench.whole if _all_off(bench, item.case.circuits_off))
    place = bench.whole.index(off)
    solution = bench.sound[place].solution
    nets = bench.network.netlist.nets
    for a, b in itertools.chain(_pairs(bench.derived), _ways_to_ground(bench.derived)):
        blocks = {bench.network.block_of_net.get(nets[point]) for point in (a, b)}
        solved = [solution.solved[block] for block in blocks if block is not None]
        if not any(item.has_ac or item.has_dc for item in solved):
            yield Probe(
                id=f"ohms {a} {b}",
                kind=ProbeKind.OHMS,
                says=f"every breaker off and locked: ohms {a} to {b}",
                case=off.case.id,
                subject="",
                start=a,
                end=b,
                live=False,
                cost=COSTS[ProbeKind.OHMS],
            )


def _ways_to_ground(derived: Derived) -> Iterator[tuple[Point, Point]]:
    """Each enclosure's metal, where it is bonded, against the panel's grounding bar: by a long lead."""
    nets, bar = derived.network.netlist.nets, Point(MAINS, "PE")
    yield from ((point, bar) for point in derived.connections.bonds if nets[point] != nets[bar])


def _all_off(bench: Bench, off: frozenset[str]) -> bool:
    return off >= {circuit.tag for circuit in bench.derived.selection.circuits}


def _pairs(derived: Derived) -> Iterator[tuple[Point, Point]]:
    """Terminals in one space that leads can be put to: each against ground and neutrals there, and its neighbour.

    What commissioning measures is among them, so that a test which failed can be entered.
    """
    spaces: dict[tuple[str, str | None], list[Point]] = {}
    nets, seen = derived.network.netlist.nets, set[tuple[int, int]]()
    found: list[tuple[Point, Point]] = []
    for point, landing in derived.connections.landings.items():
        if in_reach(landing) and point.device != MAINS:
            spaces.setdefault((landing.enclosure, landing.compartment), []).append(point)
    for points in spaces.values():
        carries = {point: derived.connections.landings[point].carries for point in points}
        grounds = [point for point in points if carries[point] == "ground"][:1]
        neutrals = [point for point in points if carries[point] == "neutral"]
        near = list(itertools.pairwise(points))
        pairs = [(point, other) for point in points for other in (*grounds, *neutrals) if point != other]
        found += (*pairs, *near)
    for a, b in (*found, *commissioned_pairs(derived)):
        key = (min(nets[a], nets[b]), max(nets[a], nets[b]))
        if key[0] != key[1] and key not in seen:
            seen.add(key)
            yield a, b


def _rings(bench: Bench) -> Iterator[Probe]:
    """A cable at a time: each of its wires, found by its colour or number at one end, sought at the other."""
    joined = {conductor.cable for conductor in bench.derived.connections.conductors.values()}
    for cable in bench.derived.selection.cables:
        if cable.tag in joined:
            yield _lifted(
                ProbeKind.RING,
                cable.tag,
                f"{cable.tag} lifted at both ends and rung through: which wire is wrong?",
            )


def _elements(bench: Bench) -> Iterator[Probe]:
    for key, inside in bench.derived.connections.inside.items():
        if isinstance(inside.spec, Contact) and inside.a.device != MAINS:
            operates = inside.spec.operates.in_words()
            says = f"contact {key}, its wires lifted, at rest and operated: ohms; it operates on {operates}"
            yield _lifted(ProbeKind.CONTACT, key, says)
        elif isinstance(inside.spec, Coil | Load) and key in bench.network.netlist.branches:
            yield _lifted(ProbeKind.ELEMENT, key, f"{inside.spec.kind} {key}, its wires lifted: ohms")


def _neighbours(bench: Bench) -> Iterator[Probe]:
    for device in bench.derived.selection.devices:
        if any(neighbours(bench.derived, device)):
            says = f"{device.tag}, its wires lifted: which neighbours are joined?"
            yield _lifted(ProbeKind.BETWEEN, device.tag, says)


def _lifted(kind: ProbeKind, subject: str, says: str) -> Probe:
    return Probe(
        id=f"{kind} {subject}",
        kind=kind,
        says=f"every breaker off and locked: {says}",
        case="",
        subject=subject,
        start=None,
        end=None,
        live=False,
        cost=COSTS[kind],
    )
