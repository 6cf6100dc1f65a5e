"""Where a meter's leads go: to terminals in reach, each against what it is measured to beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.sheet.breakers import MAINS
from schedules.sheet.hardware import POWER_LIMITED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.points import Landing, Point
    from schedules.derived import Derived


def in_reach(landing: Landing) -> bool:
    """Whether a lead can be put to a terminal: the pins of a plug that is mated can't be reached."""
    return landing.connector is None and (landing.clamp is None or landing.clamp.style != "pin")


def pairs(derived: Derived) -> Iterator[tuple[Point, Point]]:
    """Each landed terminal that may be live, against neutral and ground or its supply's return beside it."""
    seen: set[tuple[int, int]] = set()
    nets = derived.network.netlist.nets
    for point, landing in derived.connections.landings.items():
        if landing.carries == "ground" or not derived.connections.landed(point) or not in_reach(landing):
            continue
        for reference in _references(derived, point, landing):
            pair = (nets[point], nets[reference])
            if pair not in seen and pair[0] != pair[1]:
                seen.add(pair)
                yield point, reference


def _references(derived: Derived, point: Point, landing: Landing) -> Iterator[Point]:
    if landing.circuit_class in POWER_LIMITED:
        yield from _returns(derived, point, landing.enclosure)
        return
    landings = derived.connections.landings
    circuits = {item.circuit for item in derived.connections.landed(point)}
    near = [
        other
        for other, there in landings.items()
        if there.enclosure == landing.enclosure and other.device != MAINS and in_reach(there)
    ]
    near.sort(key=lambda other: other.device != point.device)
    if landing.carries != "neutral":
        yield from [item for item in near if _is_neutral_of(derived, item, circuits)][:1]
    yield from [item for item in near if landings[item].carries == "ground"][:1]


def _is_neutral_of(derived: Derived, point: Point, circuits: set[str | None]) -> bool:
    """Whether a neutral of one of these circuits lands on the terminal."""
    landed = derived.connections.landed(point)
    neutral = derived.connections.landings[point].carries == "neutral"
    return neutral and any(item.circuit in circuits for item in landed)


def _returns(derived: Derived, point: Point, enclosure: str) -> Iterator[Point]:
    """A terminal of this enclosure on the second pole of the supply that the point hangs on."""
    network = derived.network
    nets = network.netlist.nets
    place = network.block_of_net.get(nets[point])
    if place is None:
        return
    for source in network.blocks[place].sources:
        pole = network.blocks[place].branches[source.key].b
        found = [
            other
            for other, there in derived.connections.landings.items()
            if there.enclosure == enclosure and nets[other] == pole and in_reach(there)
        ]
        yield from found[:1]
