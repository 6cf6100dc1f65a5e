"""What a meter shows between two terminals: its own input resistance closes the circuit that it measures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.network.impedance import METER_OHM
from schedules.network.nodal import GROUNDED, potentials

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.connections.points import Point
    from schedules.network.blocks import Solved
    from schedules.network.nodal import Join
    from schedules.network.settling import Situation


@dataclass(frozen=True, slots=True)
class Volts:
    """A voltage between two points: alternating and direct [V], each as the meter shows it on that range.

    Where nothing but the meter joins the two points it shows nothing; one of higher resistance may show a ghost.
    """

    ac: float
    dc: float


@dataclass(frozen=True, slots=True)
class _Potential:
    """A net's alternating and direct voltage [V], and the island within which they compare."""

    ac: complex
    dc: float
    island: tuple[int, int]


class Meter:
    """A digital multimeter put to one situation, its leads anywhere."""

    def __init__(self, situation: Situation) -> None:
        self._situation = situation
        self._netlist = situation.network.netlist

    def volts(self, a: Point, b: Point) -> Volts:
        """The voltage between two points as the meter shows it."""
        start, end = self._nets(a, b)
        solved = self._solved(start, end)
        ac = self._across(solved, start, end, dc=False) if any(item.has_ac for item in solved) else 0j
        dc = self._across(solved, start, end, dc=True).real if any(item.has_dc for item in solved) else 0.0
        held = {net for net in (start, end) if net in self._netlist.held}
        if len(held) == 2:
            ac = self._netlist.held[start] - self._netlist.held[end]
        return Volts(abs(ac), dc)

    def open_volts(self, a: Point, b: Point) -> Volts:
        """The same for a meter that draws nothing, off the solved voltages as they stand.

        Many pairs cost a look each. What nothing joins to the other lead shows nothing against it.
        """
        one, two = (self._potential(net) for net in self._nets(a, b))
        if one.island != two.island:
            return Volts(0.0, 0.0)
        return Volts(abs(one.ac - two.ac), one.dc - two.dc)

    def _potential(self, net: int) -> _Potential:
        if net in self._netlist.held:
            return _Potential(self._netlist.held[net], 0.0, (GROUNDED, GROUNDED))
        place = self._situation.network.block_of_net.get(net)
        if place is None:
            return _Potential(0j, 0.0, (GROUNDED - 1, net))
        solved = self._situation.solution.solved[place]
        island = solved.ac.island[net]
        dc = solved.dc.volts[net].real if solved.has_dc else 0.0
        ac = solved.ac.volts[net] if solved.has_ac else 0j
        return _Potential(ac, dc, (GROUNDED, GROUNDED) if island == GROUNDED else (place, island))

    def ohms(self, a: Point, b: Point) -> float | None:
        """Resistance between two points with every source at rest [ohm], None where nothing joins them.

        Loads and coils count with the resistance that their nameplate gives; a motor's or transformer's winding has
        less to direct current.
        """
        start, end = self._nets(a, b)
        if start == end:
            return 0.0
        solved = self._solved(start, end)
        at_rest = potentials(
            self._free(solved, start, end),
            _joins(solved, dc=True),
            {start: 1 + 0j, end: -1 + 0j},
            dict.fromkeys(self._netlist.held, 0j),
        )
        island = at_rest.island
        if island[start] != island[end]:
            return None
        return float((at_rest.volts[start] - at_rest.volts[end]).real)

    def is_live(self, a: Point, b: Point) -> bool:
        """Whether any voltage stands in the parts that the two points belong to, so that ohms can't be measured."""
        return any(item.has_ac or item.has_dc for item in self._solved(*self._nets(a, b)))

    def _nets(self, a: Point, b: Point) -> tuple[int, int]:
        return self._netlist.nets[a], self._netlist.nets[b]

    def _solved(self, *nets: int) -> list[Solved]:
        places = dict.fromkeys(
            self._situation.network.block_of_net[net]
            for net in nets
            if net in self._situation.network.block_of_net
        )
        return [self._situation.solution.solved[place] for place in places]

    def _free(self, solved: list[Solved], a: int, b: int) -> list[int]:
        """Every net of these blocks and of the two leads; a lead may stand on a terminal that nothing joins."""
        leads = [net for net in (a, b) if net not in self._netlist.held]
        return [*(net for item in solved for net in item.block.nets), *leads]

    def _across(self, solved: list[Solved], a: int, b: int, *, dc: bool) -> complex:
        held = self._netlist.held
        metered = potentials(
            self._free(solved, a, b),
            [*_joins(solved, dc=dc), (a, b, 1 / METER_OHM)],
            _fed(solved, dc=dc),
            dict.fromkeys(held, 0j) if dc else held,
        )
        return metered.volts[a] - metered.volts[b]


def _joins(solved: Iterable[Solved], *, dc: bool) -> list[Join]:
    return [
        (branch.a, branch.b, branch.dc if dc else branch.ac)
        for item in solved
        for branch in item.block.conducting(item.closed)
    ]


def _fed(solved: Iterable[Solved], *, dc: bool) -> dict[int, complex]:
    fed: dict[int, complex] = {}
    for item in solved:
        for net, amperes in item.fed(dc=dc).items():
            fed[net] = fed.get(net, 0j) + amperes
    return fed
