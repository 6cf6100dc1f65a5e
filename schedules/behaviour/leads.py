"""Where a meter's leads go: to terminals in reach, each against what it is measured to beside it."""

from __future__ import annotations

from itertools import islice
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
    """Each landed terminal that may be live, against neutral, ground and its other line or its supply's return."""
    seen: set[frozenset[int]] = set()
    nets, leads = derived.network.netlist.nets, Leads(derived)
    for point, landing in derived.connections.landings.items():
        if landing.carries == "ground" or not derived.connections.landed(point) or not in_reach(landing):
            continue
        for reference in leads.references(point):
            pair = frozenset((nets[point], nets[reference]))
            if pair not in seen:
                seen.add(pair)
                yield point, reference


class Leads:
    """The terminals of one installation that leads can be put to, by enclosure."""

    def __init__(self, derived: Derived) -> None:
        self._connections = derived.connections
        self._network = derived.network
        self._nets = derived.network.netlist.nets
        self._within: dict[str, list[Point]] = {}
        for point, landing in derived.connections.landings.items():
            if in_reach(landing):
                self._within.setdefault(landing.enclosure, []).append(point)

    def references(self, point: Point) -> Iterator[Point]:
        """What a terminal is measured against, on another net: neutral, ground, then its other line, or the return."""
        landing = self._connections.landings[point]
        limited = landing.circuit_class in POWER_LIMITED
        beside = self._returns(point, landing) if limited else self._neutral_and_ground(point, landing)
        return (other for other in beside if self._nets[other] != self._nets[point])

    def far_return(self, point: Point) -> Point | None:
        """A power-limited terminal's return beside it, where the supply itself stands elsewhere: by its potential."""
        landings = self._connections.landings
        place = self._network.block_of_net.get(self._nets[point])
        if place is None or landings[point].circuit_class not in POWER_LIMITED:
            return None
        block = self._network.blocks[place]
        poles = {block.branches[source.key].b for source in block.sources}
        names = {landing.potential for other, landing in landings.items() if self._nets[other] in poles}
        within = self._within.get(landings[point].enclosure, ())
        return next((item for item in within if landings[item].potential in names and item != point), None)

    def _neutral_and_ground(self, point: Point, landing: Landing) -> Iterator[Point]:
        circuits = {item.circuit for item in self._connections.landed(point)}
        near = [other for other in self._within.get(landing.enclosure, ()) if other.device != MAINS]
        near.sort(key=lambda other: other.device != point.device)
        if landing.carries != "neutral":
            yield from islice((item for item in near if self._is_neutral_of(item, circuits)), 1)
        yield from islice((item for item in near if self._connections.landings[item].carries == "ground"), 1)
        yield from (item for item in near if self._is_other_line(item, point, circuits))

    def _is_other_line(self, point: Point, of: Point, circuits: set[str | None]) -> bool:
        """Whether a wire of the same circuit lands on it that comes from the other leg, every contact closed.

        Dead is proved line to line too: with a neutral open, each line to neutral shows nothing.
        """
        carries = {self._connections.landings[item].carries for item in (point, of)}
        if carries != {"line"} or all(
            item.circuit not in circuits for item in self._connections.landed(point)
        ):
            return False
        return self._leg(point) * self._leg(of) < 0

    def _leg(self, point: Point) -> float:
        """A terminal's voltage to neutral with every contact closed: its sign tells the leg [V]."""
        net, netlist = self._nets[point], self._network.netlist
        if net in netlist.held:
            return netlist.held[net].real
        place = self._network.block_of_net.get(net)
        return 0.0 if place is None else self._network.all_closed.solved[place].ac.volts[net].real

    def _is_neutral_of(self, point: Point, circuits: set[str | None]) -> bool:
        """Whether a neutral of one of these circuits lands on the terminal."""
        neutral = self._connections.landings[point].carries == "neutral"
        return neutral and any(item.circuit in circuits for item in self._connections.landed(point))

    def _returns(self, point: Point, landing: Landing) -> Iterator[Point]:
        """A terminal of this enclosure on the second pole of the supply that the point hangs on."""
        place = self._network.block_of_net.get(self._nets[point])
        if place is None:
            return
        block = self._network.blocks[place]
        for source in block.sources:
            pole = block.branches[source.key].b
            yield from [item for item in self._within.get(landing.enclosure, ()) if self._nets[item] == pole][
                :1
            ]
