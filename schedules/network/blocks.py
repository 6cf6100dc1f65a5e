"""One part of a network that meets the rest only at nets of given voltage, and its solution for each switching.

The service bars are stiff, so what hangs on one breaker does not feel what hangs on another: every such part is solved
by itself, and only when its own contacts or sources change.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from schedules.network.nodal import potentials

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.network.netlist import Branch, Netlist
    from schedules.network.nodal import Potentials

PICK_UP = 0.85
"""Share of its rated voltage at which a coil is sure to pull in (NEMA ICS 2, IEC 60947-4-1; from memory)."""

HOLD = 0.5
"""Share below which a pulled-in coil is taken to drop out; standards allow 0.2 to 0.75 (IEC 60947-4-1, from memory)."""

OVERLOAD = 1.35
"""Share of its rating above which a breaker, or a power-limited supply, gives up (UL 489 calibration, from memory)."""

REGULATED_FROM = 0.5
"""Share of its input's rated voltage from which a dc supply is taken to hold its output, nominal."""

Emfs = tuple[complex, ...]


class Block:
    """Nets joined by branches, bounded by held nets."""

    def __init__(self, netlist: Netlist, nets: Iterable[int], branches: Iterable[Branch]) -> None:
        self.netlist = netlist
        self.nets = tuple(nets)
        self.branches = {branch.key: branch for branch in branches}
        self.windings = [netlist.windings[key] for key in self.branches if key in netlist.windings]
        self.users = [netlist.users[key] for key in self.branches if key in netlist.users]
        self.sources = [netlist.sources[key] for key in self.branches if key in netlist.sources]
        self.breakers = [
            netlist.switches[key]
            for key in self.branches
            if key in netlist.switches and netlist.switches[key].breaker
        ]
        primaries = {item.fed_by for item in netlist.sources.values()}
        self.primaries = tuple(user.key for user in self.users if user.key in primaries)
        self.contacts = 0
        for branch in self.branches.values():
            self.contacts |= branch.contact
        self._lines = tuple(self.branches.values())
        self._live = tuple(
            item for item in self._lines if netlist.held.get(item.a) or netlist.held.get(item.b)
        )
        self._solved: dict[tuple[int, Emfs], Solved] = {}

    def solve(self, closed: int, emfs: Emfs) -> Solved:
        """Solve for the contacts that are closed and what each source gives [V], in the order of `sources`."""
        key = (closed & self.contacts, emfs)
        solved = self._solved.get(key)
        if solved is None:
            solved = self._solved[key] = Solved(self, *key)
        return solved

    def conducting(self, closed: int) -> list[Branch]:
        """The branches that conduct with these contacts closed."""
        return [item for item in self._lines if not item.contact or item.contact & closed]

    def is_fed(self, closed: int) -> bool:
        """Whether a conducting branch ends on a held net that is not at 0 V."""
        return any(not item.contact or item.contact & closed for item in self._live)


@dataclass(frozen=True, slots=True)
class Outputs:
    """What a solved block does to the rest.

    pulls, holds: coils that pull in, that stay in. feeds: each primary's voltage as a share of its rated voltage.
    overloads: breakers and supplies that carry too much.
    """

    pulls: int
    holds: int
    feeds: tuple[complex, ...]
    overloads: tuple[str, ...]


class Solved:
    """A block's voltages with one set of contacts closed and one set of source voltages."""

    def __init__(self, block: Block, closed: int, emfs: Emfs) -> None:
        self.block = block
        self.closed = closed
        self.emfs = emfs
        kinds = [source.dc for source, emf in zip(block.sources, emfs, strict=True) if emf]
        self.has_ac = False in kinds or block.is_fed(closed)
        self.has_dc = True in kinds
        self._ohms: dict[tuple[int, int], float] = {}

    @cached_property
    def ac(self) -> Potentials:
        """Alternating voltages, as phasors of their root-mean-square values."""
        return self._potentials(dc=False)

    @cached_property
    def dc(self) -> Potentials:
        """Direct voltages."""
        return self._potentials(dc=True)

    def fed(self, *, dc: bool) -> dict[int, complex]:
        """The current that the block's sources feed into each net [A]."""
        fed: dict[int, complex] = {}
        for source, emf in zip(self.block.sources, self.emfs, strict=True):
            if source.dc == dc and emf:
                branch = self.block.branches[source.key]
                amperes = emf * (branch.dc if dc else branch.ac)
                fed[branch.a] = fed.get(branch.a, 0j) + amperes
                fed[branch.b] = fed.get(branch.b, 0j) - amperes
        return fed

    def _potentials(self, *, dc: bool) -> Potentials:
        held = self.block.netlist.held
        return potentials(
            self.block.nets,
            ((item.a, item.b, item.dc if dc else item.ac) for item in self.block.conducting(self.closed)),
            self.fed(dc=dc),
            dict.fromkeys(held, 0j) if dc else held,
        )

    def ac_across(self, a: int, b: int) -> complex:
        """Alternating voltage from one net of the block to another [V]; none where nothing joins them."""
        return _difference(self.ac, a, b) if self.has_ac else 0j

    def dc_across(self, a: int, b: int) -> float:
        """Direct voltage from one net of the block to another [V]."""
        return _difference(self.dc, a, b).real if self.has_dc else 0.0

    def volts(self, a: int, b: int) -> float:
        """Root-mean-square voltage between two nets of the block [V], ac and dc together."""
        return math.hypot(abs(self.ac_across(a, b)), self.dc_across(a, b))

    def amperes(self, key: str) -> float:
        """Root-mean-square current through a branch [A]."""
        branch = self.block.branches[key]
        if branch.contact and not branch.contact & self.closed:
            return 0.0
        emf, dc = 0j, False
        for source, given in zip(self.block.sources, self.emfs, strict=True):
            if source.key == key:
                emf, dc = given, source.dc
        ac = (self.ac_across(branch.a, branch.b) - (0j if dc else emf)) * branch.ac
        direct = (self.dc_across(branch.a, branch.b) - (emf.real if dc else 0.0)) * branch.dc
        return math.hypot(abs(ac), abs(direct))

    def ohms(self, a: int, b: int) -> float:
        """Resistance between two nets of the block, or from one to a held net, every source at rest [ohm]; inf if none.

        Whatever holds their voltages joins the held nets.
        """
        key = (min(a, b), max(a, b))
        known = self._ohms.get(key)
        if known is None:
            at_rest = potentials(
                self.block.nets,
                ((item.a, item.b, item.dc) for item in self.block.conducting(self.closed)),
                {a: 1 + 0j, b: -1 + 0j},
                dict.fromkeys(self.block.netlist.held, 0j),
            )
            joined = at_rest.island[a] == at_rest.island[b]
            known = (at_rest.volts[a] - at_rest.volts[b]).real if joined else math.inf
            self._ohms[key] = known
        return known

    @cached_property
    def shares(self) -> dict[str, float]:
        """Each load's voltage as a share of its rated voltage."""
        return {
            user.key: self._over(user.key) / user.rated_v if self.has_ac or self.has_dc else 0.0
            for user in self.block.users
        }

    def _over(self, key: str) -> float:
        branch = self.block.branches[key]
        return self.volts(branch.a, branch.b)

    @cached_property
    def outputs(self) -> Outputs:
        """What this block does to the rest of the network."""
        if not self.has_ac and not self.has_dc:
            return Outputs(0, 0, (0j,) * len(self.block.primaries), ())
        pulls = holds = 0
        for winding in self.block.windings:
            share = self._over(winding.key) / winding.rated_v
            pulls |= winding.bit if share >= PICK_UP else 0
            holds |= winding.bit if share >= HOLD else 0
        return Outputs(pulls, holds, tuple(map(self._given, self.block.primaries)), self._overloads())

    def _given(self, primary: str) -> complex:
        """A primary's voltage as a share of its rated voltage, with its phase."""
        branch = self.block.branches[primary]
        return self.ac_across(branch.a, branch.b) / self.block.netlist.users[primary].rated_v

    def _overloads(self) -> tuple[str, ...]:
        over = [
            item.key
            for item in self.block.breakers
            if item.rated_a is not None and self.amperes(item.key) > OVERLOAD * item.rated_a
        ]
        over += [
            source.key
            for source, emf in zip(self.block.sources, self.emfs, strict=True)
            if source.limit_va is not None
            and self.amperes(source.key) * abs(emf) > OVERLOAD * source.limit_va
        ]
        return tuple(over)


def _difference(solution: Potentials, a: int, b: int) -> complex:
    if solution.island[a] != solution.island[b]:
        return 0j
    return solution.volts[a] - solution.volts[b]
