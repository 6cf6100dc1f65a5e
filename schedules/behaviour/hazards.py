"""What must never be found live: metal, neutral terminals, power-limited wiring, grounding conductors under load."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.network.nodal import GROUNDED
from schedules.sheet.hardware import POWER_LIMITED

if TYPE_CHECKING:
    from schedules.connections.points import Point
    from schedules.network.blocks import Block, Solved
    from schedules.network.netlist import Netlist
    from schedules.network.settling import Situation

LIVE_FROM_V = 30.0
"""Voltage to ground from which a touchable part counts as live (30 V ac in product standards, from memory)."""

GROUND_CURRENT_FROM_A = 0.05
"""Current in a grounding conductor that no filter of household equipment explains, nominal."""


class Danger(StrEnum):
    """Which kind of part is where no voltage or current may be."""

    METAL = "metal live"
    NEUTRAL = "neutral terminal live"
    LIMITED = "mains on power-limited wiring"
    GROUND_CURRENT = "grounding conductor carries current"


@dataclass(frozen=True, slots=True)
class Hazard:
    """One part: which, how much [V or A]."""

    danger: Danger
    subject: str
    amount: float

    @property
    def shown(self) -> str:
        """The amount with its unit."""
        return f"{self.amount:.2f} A" if self.danger is Danger.GROUND_CURRENT else f"{self.amount:.0f} V"


@dataclass(frozen=True, slots=True)
class _Watched:
    nets: tuple[tuple[Danger, int, str], ...]
    grounds: tuple[str, ...]


class Watch:
    """The parts of one netlist that are watched; what a solved block shows is remembered."""

    def __init__(self, netlist: Netlist) -> None:
        self._netlist = netlist
        self._parts = tuple(_parts(netlist))
        self._grounds = frozenset(_ground_conductors(netlist))
        self._limit_v = max(
            (
                1.1 * source.volts
                for key, source in netlist.sources.items()
                if _is_limited(netlist, netlist.connections.inside[key].a)
            ),
            default=0.0,
        )
        self._watched: dict[Block, _Watched] = {}
        self._found: dict[Solved, tuple[Hazard, ...]] = {}

    def over(self, situation: Situation) -> tuple[Hazard, ...]:
        """Every hazard in a situation."""
        return tuple(hazard for solved in situation.solution.solved for hazard in self.inside(solved))

    def inside(self, solved: Solved) -> tuple[Hazard, ...]:
        """Every hazard in one solved block."""
        found = self._found.get(solved)
        if found is None:
            found = self._found[solved] = tuple(self._look(solved)) if solved.has_ac or solved.has_dc else ()
        return found

    def _look(self, solved: Solved) -> list[Hazard]:
        watched = self._watched.get(solved.block)
        if watched is None:
            watched = self._watched[solved.block] = self._choose(solved.block)
        found = []
        for danger, net, subject in watched.nets:
            volts = _to_ground(solved, net)
            if volts > (max(LIVE_FROM_V, self._limit_v) if danger is Danger.LIMITED else LIVE_FROM_V):
                found.append(Hazard(danger, subject, volts))
        for key in watched.grounds:
            amperes = solved.amperes(key)
            if amperes > GROUND_CURRENT_FROM_A:
                found.append(Hazard(Danger.GROUND_CURRENT, key, amperes))
        return found

    def _choose(self, block: Block) -> _Watched:
        nets = set(block.nets)
        return _Watched(
            tuple(part for part in self._parts if part[1] in nets),
            tuple(key for key in block.branches if key in self._grounds),
        )


def _parts(netlist: Netlist) -> list[tuple[Danger, int, str]]:
    parts = [(Danger.METAL, net, tag) for tag, net in netlist.metal.items()]
    for point, landing in netlist.connections.landings.items():
        net = netlist.nets[point]
        if landing.carries == "neutral":
            parts.append((Danger.NEUTRAL, net, str(point)))
        if landing.circuit_class in POWER_LIMITED:
            parts.append((Danger.LIMITED, net, str(point)))
    return parts


def _ground_conductors(netlist: Netlist) -> list[str]:
    landings = netlist.connections.landings
    return [
        number
        for number, conductor in netlist.connections.conductors.items()
        if landings[conductor.a].carries == landings[conductor.b].carries == "ground"
    ]


def _is_limited(netlist: Netlist, point: Point) -> bool:
    return netlist.connections.landings[point].circuit_class in POWER_LIMITED


def _to_ground(solved: Solved, net: int) -> float:
    """Voltage of a net to ground [V]; none where nothing joins it to the service."""
    ac = solved.ac.volts[net] if solved.has_ac and solved.ac.island[net] == GROUNDED else 0j
    dc = solved.dc.volts[net].real if solved.has_dc and solved.dc.island[net] == GROUNDED else 0.0
    return float((abs(ac) ** 2 + dc**2) ** 0.5)
