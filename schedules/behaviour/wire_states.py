"""Which conductors are live in a situation, which only carry current, which are dead: solved, never measured."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.readings import NEUTRAL_RISE_V
from schedules.network.nodal import GROUNDED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.connections.points import Point
    from schedules.network.blocks import Solved
    from schedules.network.nodal import Potentials
    from schedules.network.settling import Situation
    from schedules.network.switching import Change

LIVE_FROM_V = NEUTRAL_RISE_V
"""Voltage from which a conductor is shown as live: above what a neutral under load may have."""

CARRIES_FROM_A = 0.001
"""Current from which a conductor that is not live is shown to carry some, nominal: under that of any signal."""


class WireKind(StrEnum):
    """What a conductor is at the moment. An open one may be live at either end."""

    DEAD = "dead"
    CARRIES = "carries current"
    LIVE = "live"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class WireState:
    """One conductor in one situation.

    ends: where it lands, which a slip may have moved. volts: at each of them, to ground, or where the supply is
    isolated from ground to the supply's own return [V]. amperes: through it [A].
    """

    kind: WireKind
    ends: tuple[Point, Point]
    volts: tuple[float, float]
    amperes: float

    @property
    def live_ends(self) -> tuple[Point, ...]:
        """The ends at which it is live."""
        return tuple(
            point for point, volts in zip(self.ends, self.volts, strict=True) if volts >= LIVE_FROM_V
        )


def wire_states(situation: Situation, change: Change) -> Mapping[str, WireState]:
    """Every conductor of a solved network, by its number. change: what is wrong in that network."""
    solved = _SolvedNetwork(situation)
    moved = {(key, end): point for key, end, point in change.moved}
    states = {}
    for number, conductor in situation.network.netlist.connections.conductors.items():
        ends = moved.get((number, 0), conductor.a), moved.get((number, 1), conductor.b)
        volts = solved.volts(ends[0]), solved.volts(ends[1])
        amperes = solved.amperes(number)
        states[number] = WireState(
            _kind(volts, amperes, opened=number in change.opened), ends, volts, amperes
        )
    return states


def _kind(volts: tuple[float, float], amperes: float, *, opened: bool) -> WireKind:
    if opened:
        return WireKind.OPEN
    if max(volts) >= LIVE_FROM_V:
        return WireKind.LIVE
    return WireKind.CARRIES if amperes >= CARRIES_FROM_A else WireKind.DEAD


class _SolvedNetwork:
    """The solved blocks of one situation, asked by terminal and by conductor."""

    def __init__(self, situation: Situation) -> None:
        self._network, self._solved = situation.network, situation.solution.solved

    def volts(self, point: Point) -> float:
        """Voltage of a terminal to ground, or to the return of its isolated supply [V]; none where nothing joins it."""
        net = self._network.netlist.nets[point]
        held = self._network.netlist.held
        if net in held:
            return abs(held[net])
        place = self._network.block_of_net.get(net)
        if place is None:
            return 0.0
        block = self._solved[place]
        ac = _to_return(block, block.ac, net, dc=False) if block.has_ac else 0.0
        dc = _to_return(block, block.dc, net, dc=True) if block.has_dc else 0.0
        return math.hypot(ac, dc)

    def amperes(self, number: str) -> float:
        """Current through a conductor [A]; none through one that is open."""
        place = self._network.block_of_branch.get(number)
        return 0.0 if place is None else self._solved[place].amperes(number)


def _to_return(block: Solved, potentials: Potentials, net: int, *, dc: bool) -> float:
    island = potentials.island[net]
    if island == GROUNDED:
        return abs(potentials.volts[net])
    poles = (_return_of(block, source.key) for source in block.block.sources if source.dc == dc)
    pole = next((pole for pole in poles if potentials.island.get(pole) == island), None)
    return 0.0 if pole is None else abs(potentials.volts[net] - potentials.volts[pole])


def _return_of(block: Solved, source: str) -> int:
    return block.block.branches[source].b
