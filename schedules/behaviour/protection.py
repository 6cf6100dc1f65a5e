"""Does each enclosure's metal still reach the panel's grounding bar over grounding conductors?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.connections.points import Point
from schedules.sheet.breakers import MAINS

if TYPE_CHECKING:
    from schedules.network.switching import Change, Network


class Grounding:
    """The grounding paths of one installation, and which metal a fault takes off them."""

    def __init__(self, network: Network) -> None:
        netlist = network.netlist
        landings = netlist.connections.landings
        self._nets = netlist.nets
        self._bar = netlist.nets[Point(MAINS, "PE")]
        self._metal = dict(netlist.metal)
        self._paths = {
            number: (netlist.nets[conductor.a], netlist.nets[conductor.b])
            for number, conductor in netlist.connections.conductors.items()
            if landings[conductor.a].carries == landings[conductor.b].carries == "ground"
        }
        self.grounded = self._reached(self._paths)

    def lost(self, change: Change) -> tuple[str, ...]:
        """Enclosures whose metal the change parts from the bar, in order."""
        moved = {key for key, _, _ in change.moved}
        gone = {key for key in self._paths if key in change.opened or key in moved}
        if not gone:
            return ()
        left = {key: ends for key, ends in self._paths.items() if key not in gone}
        # A conductor that was moved may still ground something, from where it is now.
        for key, end, point in change.moved:
            if key in gone:
                ends = left.get(key, self._paths[key])
                left[key] = (self._nets[point], ends[1]) if end == 0 else (ends[0], self._nets[point])
        return tuple(sorted(self.grounded - self._reached(left)))

    def _reached(self, paths: dict[str, tuple[int, int]]) -> frozenset[str]:
        reached = {self._bar}
        waiting = list(paths.values())
        while True:
            near = [ends for ends in waiting if ends[0] in reached or ends[1] in reached]
            if not near:
                return frozenset(tag for tag, net in self._metal.items() if net in reached)
            reached.update(net for ends in near for net in ends)
            waiting = [ends for ends in waiting if ends not in near]
