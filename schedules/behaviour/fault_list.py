"""Every single thing that can go wrong with an installation, by hand or by age."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.leads import in_reach
from schedules.behaviour.loops import far_ends
from schedules.behaviour.neighbours import neighbours
from schedules.behaviour.states import cast_of
from schedules.connections.points import Point
from schedules.network.switching import Change
from schedules.sheet.breakers import MAINS, off_signal
from schedules.sheet.hardware import Contact, Resistor, Supply

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.points import Conductor, Landing
    from schedules.derived import Derived


class FaultKind(StrEnum):
    """What kind of thing is wrong."""

    OPEN = "open"
    SWAPPED = "swapped"
    TOUCHING = "touching"
    OTHER_THROW = "on the other throw"
    STUCK_SHUT = "welded"
    STUCK_OPEN = "stuck open"
    COIL_OPEN = "coil open"
    LOAD_OPEN = "load open"
    BREAKER_OFF = "breaker off"
    SUPPLY_LOST = "supply lost"
    RESISTOR_MOVED = "resistor in the wrong place"
    UNPLUGGED = "plug not mated"
    LEFT_SET = "left set"


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault.

    id: unique within an installation. subjects: what is wrong, by key or designation. enclosures: where it is.
    signals: set by it in every state.
    """

    id: str
    kind: FaultKind
    says: str
    subjects: tuple[str, ...]
    enclosures: tuple[str, ...]
    change: Change
    signals: frozenset[str] = frozenset()


def single_faults(derived: Derived) -> tuple[Fault, ...]:
    """Every single fault, in a fixed order: wires, ends, terminals, plugs, contacts, coils, supplies, keys."""
    return tuple(
        itertools.chain(
            _opens(derived),
            _swaps(derived),
            _touches(derived),
            _other_throws(derived),
            _plugs(derived),
            _contacts(derived),
            _coils_and_loads(derived),
            _supplies(derived),
            _resistors(derived),
            _left_set(derived),
        )
    )


_WIRE = {"ground": "grounding conductor", "neutral": "neutral", "line": "wire", "signal": "wire"}


def _opens(derived: Derived) -> Iterator[Fault]:
    landings = derived.connections.landings
    for number, conductor in derived.connections.conductors.items():
        name = _WIRE[landings[conductor.a].carries]
        yield Fault(
            id=f"open {number}",
            kind=FaultKind.OPEN,
            says=f"{name} {number} of {conductor.cable} is open",
            subjects=(number,),
            enclosures=(landings[conductor.a].enclosure, landings[conductor.b].enclosure),
            change=Change(opened=(number,)),
        )


@dataclass(frozen=True, slots=True)
class _End:
    """An end of a conductor that a hand lands: end 0 is the conductor's first."""

    conductor: Conductor
    end: int
    point: Point
    landing: Landing


def _hand_landed(derived: Derived) -> Iterator[_End]:
    """Ends that are put under a terminal on site; pins of plugs are fitted by the maker."""
    for conductor in derived.connections.conductors.values():
        for end, point in enumerate((conductor.a, conductor.b)):
            landing = derived.connections.landings[point]
            if in_reach(landing):
                yield _End(conductor, end, point, landing)


def _swaps(derived: Derived) -> Iterator[Fault]:
    """Two ends in one space that each fit under the other's terminal, on different nets."""
    nets = derived.network.netlist.nets
    spaces: dict[tuple[str, str | None], list[_End]] = {}
    for end in _hand_landed(derived):
        spaces.setdefault((end.landing.enclosure, end.landing.compartment), []).append(end)
    for (enclosure, _), ends in spaces.items():
        for one, two in itertools.combinations(ends, 2):
            if nets[one.point] != nets[two.point] and _fits(one, two) and _fits(two, one):
                numbers = one.conductor.number, two.conductor.number
                yield Fault(
                    id=f"swap {numbers[0]} {numbers[1]} at {enclosure}",
                    kind=FaultKind.SWAPPED,
                    says=f"wires {numbers[0]} and {numbers[1]} are swapped at {enclosure} ({one.point}, {two.point})",
                    subjects=numbers,
                    enclosures=(enclosure,),
                    change=Change(moved=((numbers[0], one.end, two.point), (numbers[1], two.end, one.point))),
                )


def _fits(end: _End, there: _End) -> bool:
    clamp = there.landing.clamp
    return clamp is None or clamp.smallest <= end.conductor.size <= clamp.largest


def _touches(derived: Derived) -> Iterator[Fault]:
    """Neighbours on one device, at least one of them with a field wire on it."""
    for device in derived.selection.devices:
        for a, b in neighbours(derived, device):
            yield Fault(
                id=f"touch {a} {b}",
                kind=FaultKind.TOUCHING,
                says=f"{a} and {b} touch",
                subjects=(str(a), str(b)),
                enclosures=(device.enclosure,),
                change=Change(touching=((a, b),)),
            )


def _other_throws(derived: Derived) -> Iterator[Fault]:
    """A wire under an empty terminal of the same set of contacts."""
    nets, landed = derived.network.netlist.nets, derived.connections.landed
    throws: dict[str, list[Point]] = {}
    for inside in derived.connections.inside.values():
        if isinstance(inside.spec, Contact) and inside.a.device != MAINS:
            throws.setdefault(inside.a.device, []).extend((inside.a, inside.b))
    for end in _hand_landed(derived):
        for other in dict.fromkeys(throws.get(end.point.device, ())):
            if end.point in throws[end.point.device] and not landed(other) and nets[other] != nets[end.point]:
                number = end.conductor.number
                yield Fault(
                    id=f"land {number} on {other}",
                    kind=FaultKind.OTHER_THROW,
                    says=f"wire {number} is landed on {other} instead of {end.point}",
                    subjects=(number,),
                    enclosures=(end.landing.enclosure,),
                    change=Change(moved=((number, end.end, other),)),
                )


def _plugs(derived: Derived) -> Iterator[Fault]:
    for cable in derived.selection.cables:
        numbers = tuple(
            number for number, item in derived.connections.conductors.items() if item.cable == cable.tag
        )
        for end in (cable.origin, cable.target):
            if end.connector is not None and numbers:
                yield Fault(
                    id=f"unplug {cable.tag} at {end.enclosure}",
                    kind=FaultKind.UNPLUGGED,
                    says=f"the plug of {cable.tag} is not mated at {end.enclosure}",
                    subjects=(cable.tag,),
                    enclosures=(end.enclosure,),
                    change=Change(opened=numbers),
                )


def _contacts(derived: Derived) -> Iterator[Fault]:
    tripping = {item.tag for item in derived.selection.circuits if item.shunt_trip is not None}
    for key, inside in derived.connections.inside.items():
        if not isinstance(inside.spec, Contact):
            continue
        breaker = inside.a.device == MAINS
        where = (derived.connections.landings[inside.b].enclosure,)
        if not breaker or inside.b.device in tripping:
            yield Fault(
                id=f"weld {key}",
                kind=FaultKind.STUCK_SHUT,
                says=f"contact {key} no longer opens",
                subjects=(key,),
                enclosures=where,
                change=Change(stuck_shut=(key,)),
            )
        if not breaker:
            yield Fault(
                id=f"stick {key}",
                kind=FaultKind.STUCK_OPEN,
                says=f"contact {key} no longer closes",
                subjects=(key,),
                enclosures=where,
                change=Change(stuck_open=(key,)),
            )


def _coils_and_loads(derived: Derived) -> Iterator[Fault]:
    netlist = derived.network.netlist
    for kind, keys in ((FaultKind.COIL_OPEN, netlist.windings), (FaultKind.LOAD_OPEN, netlist.users)):
        for key in keys:
            yield Fault(
                id=f"{kind} {key}",
                kind=kind,
                says=f"{kind.removesuffix(' open')} {key} is open",
                subjects=(key,),
                enclosures=(derived.connections.landings[derived.connections.inside[key].a].enclosure,),
                change=Change(opened=(key,)),
            )


def _supplies(derived: Derived) -> Iterator[Fault]:
    panel = derived.connections.landings[Point(MAINS, "PE")].enclosure
    for circuit in derived.selection.circuits:
        yield Fault(
            id=f"off {circuit.tag}",
            kind=FaultKind.BREAKER_OFF,
            says=f"breaker {circuit.tag} is off",
            subjects=(circuit.tag,),
            enclosures=(panel,),
            change=Change(),
            signals=frozenset({off_signal(circuit.tag)}),
        )
    for key, inside in derived.connections.inside.items():
        if isinstance(inside.spec, Supply) and inside.a.device != MAINS:
            landing = derived.connections.landings[inside.a]
            yield Fault(
                id=f"lose {key}",
                kind=FaultKind.SUPPLY_LOST,
                says=f"supply {key} of {landing.device_name} gives nothing",
                subjects=(key,),
                enclosures=(landing.enclosure,),
                change=Change(opened=(key,)),
            )


def _resistors(derived: Derived) -> Iterator[Fault]:
    """An end-of-line resistor at the near end of its loop, where it watches nothing."""
    for key, inside in derived.connections.inside.items():
        if isinstance(inside.spec, Resistor):
            for a, b in far_ends(derived, inside):
                yield Fault(
                    id=f"move {key} to {a} {b}",
                    kind=FaultKind.RESISTOR_MOVED,
                    says=f"resistor {key} sits at {a} and {b} instead of beyond the loop's wires",
                    subjects=(key,),
                    enclosures=(derived.connections.landings[a].enclosure,),
                    change=Change(moved=((key, 0, a), (key, 1, b))),
                )


def _left_set(derived: Derived) -> Iterator[Fault]:
    names = {signal.id: signal.name for signal in derived.sheet.signal}
    for signal in cast_of(derived).left:
        yield Fault(
            id=f"left {signal}",
            kind=FaultKind.LEFT_SET,
            says=f"left as it is for service: {names[signal]}",
            subjects=(signal,),
            enclosures=(),
            change=Change(),
            signals=frozenset({signal}),
        )
