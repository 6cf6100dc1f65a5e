"""A network of blocks: solved for a set of closed contacts, and changed as a fault or a slip would change it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from schedules.network.blocks import REGULATED_FROM, Block
from schedules.network.impedance import SHORT_OHM
from schedules.network.netlist import Branch
from schedules.network.relays import Relays

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.connections.points import Point
    from schedules.network.blocks import Solved
    from schedules.network.netlist import Netlist, Source
    from schedules.network.settling import Situation

_MOST_ROUNDS = 30


@dataclass(frozen=True, slots=True)
class Change:
    """What is wrong with an installation, or else about it.

    opened: branches that no longer join. moved: a branch's first (0) or second (1) end that lands elsewhere. touching:
    points that touch. stuck_shut, stuck_open: contacts that no longer move.
    """

    opened: tuple[str, ...] = ()
    moved: tuple[tuple[str, int, Point], ...] = ()
    touching: tuple[tuple[Point, Point], ...] = ()
    stuck_shut: tuple[str, ...] = ()
    stuck_open: tuple[str, ...] = ()


class Solution:
    """Every block solved, in the network's order, and what that comes to.

    pulls, holds: the coils that have enough voltage to pull in, to stay pulled in. overloads: breaker poles and
    supplies that carry more than they can.
    """

    def __init__(self, netlist: Netlist, solved: tuple[Solved, ...]) -> None:
        self._netlist = netlist
        self.solved = solved
        self.pulls = self.holds = 0
        self.overloads: tuple[str, ...] = ()
        for item in solved:
            outputs = item.outputs
            self.pulls |= outputs.pulls
            self.holds |= outputs.holds
            self.overloads += outputs.overloads

    @cached_property
    def shares(self) -> Mapping[str, float]:
        """Each load's voltage as a share of its rated voltage; a load that a change took away has none."""
        shares: dict[str, float] = {}
        for item in self.solved:
            shares.update(item.shares)
        return shares

    @cached_property
    def best(self) -> Mapping[str, float]:
        """For each effect the share of the load that runs best of those that show it."""
        shares, best = self.shares, dict[str, float]()
        for key, user in self._netlist.users.items():
            best[user.effect] = max(best.get(user.effect, 0.0), shares.get(key, 0.0))
        return best


Start = tuple[int, int, int, int, int, int]
"""What a network starts from, in bits: outside signals, coils, latched signals, contacts moved, tripped, released."""


class Network:
    """Blocks in feeding order: a transformer's primary before its secondary.

    rested: where it came to rest from each start, kept by `settle`.
    """

    def __init__(
        self,
        netlist: Netlist,
        relays: Relays,
        blocks: Iterable[Block],
        stuck_shut: int = 0,
        stuck_open: int = 0,
    ) -> None:
        self.netlist = netlist
        self.relays = relays
        self.stuck_shut = stuck_shut
        self.stuck_open = stuck_open
        self.blocks = _in_feeding_order(list(blocks))
        self.block_of_net = {net: place for place, block in enumerate(self.blocks) for net in block.nets}
        self.block_of_branch = {
            key: place for place, block in enumerate(self.blocks) for key in block.branches
        }
        self._sources = [source for block in self.blocks for source in block.sources]
        self._emfs = {item.key: complex(item.volts) if item.fed_by is None else 0j for item in self._sources}
        self._order = [(block, [source.key for source in block.sources]) for block in self.blocks]
        self._solutions: dict[tuple[int, frozenset[str]], Solution] = {}
        self.rested: dict[Start, Situation] = {}

    @classmethod
    def of(cls, netlist: Netlist) -> Network:
        """The network as it was designed."""
        return cls(netlist, Relays(netlist), _divide(netlist, netlist.branches.values()))

    def closed(self, operated: int) -> int:
        """The contacts that are closed while these have left shelf state."""
        return ((operated ^ self.netlist.shut) | self.stuck_shut) & ~self.stuck_open

    @property
    def all_closed(self) -> Solution:
        """Every block solved with every contact closed: all that a circuit can feed at once."""
        everything = 0
        for switch in self.netlist.switches.values():
            everything |= switch.bit
        return self.solve(everything, frozenset())

    def solve(self, closed: int, given_up: frozenset[str]) -> Solution:
        """Solve every block with these contacts closed; sources that have given up give nothing."""
        key = (closed, given_up)
        solution = self._solutions.get(key)
        if solution is None:
            solution = self._solutions[key] = self._solve(closed, given_up)
        return solution

    def _solve(self, closed: int, given_up: frozenset[str]) -> Solution:
        emfs = self._emfs | dict.fromkeys(given_up, 0j)
        solved: list[Solved] = []
        # In feeding order one round does, unless a fault joins a secondary to its own primary.
        for _ in range(_MOST_ROUNDS):
            solved, moved = [], False
            for block, sources in self._order:
                here = block.solve(closed, tuple([emfs[key] for key in sources]) if sources else ())
                solved.append(here)
                if block.primaries:
                    moved |= self._feed(block, here, emfs, given_up, len(solved))
            if not moved:
                break
        return Solution(self.netlist, tuple(solved))

    def _feed(
        self, block: Block, solved: Solved, emfs: dict[str, complex], given_up: frozenset[str], done: int
    ) -> bool:
        """Pass on what this block's primaries feed; tell whether a block that is already solved gets something else."""
        behind = False
        for primary, share in zip(block.primaries, solved.outputs.feeds, strict=True):
            for source in self._sources:
                if source.fed_by == primary and source.key not in given_up:
                    emf = _emf(source, share)
                    if emf != emfs[source.key]:
                        emfs[source.key] = emf
                        behind |= self.block_of_branch[source.key] < done
        return behind

    def changed(self, change: Change) -> Network:
        """The network with a change; blocks that it doesn't touch are the same objects, with what they have solved."""
        shut, opened = self.stuck_shut, self.stuck_open
        for key in change.stuck_shut:
            shut |= self.netlist.switches[key].bit
        for key in change.stuck_open:
            opened |= self.netlist.switches[key].bit
        touched = self._touched(change)
        if not touched:
            return Network(self.netlist, self.relays, self.blocks, shut, opened)
        branches = {key: branch for place in touched for key, branch in self.blocks[place].branches.items()}
        apart = _divide(self.netlist, _edited(self.netlist, branches, change))
        whole = [block for place, block in enumerate(self.blocks) if place not in touched]
        return Network(self.netlist, self.relays, [*whole, *apart], shut, opened)

    def _touched(self, change: Change) -> list[int]:
        nets = self.netlist.nets
        ends = [nets[point] for _, _, point in change.moved]
        ends += [nets[point] for pair in change.touching for point in pair]
        places = {self.block_of_net[net] for net in ends if net in self.block_of_net}
        keys = [*change.opened, *(key for key, _, _ in change.moved)]
        places.update(self.block_of_branch[key] for key in keys if key in self.block_of_branch)
        return sorted(places)


def _emf(source: Source, share: complex) -> complex:
    """A secondary follows its primary by their ratio; a dc supply holds its output while it is fed at all."""
    if source.dc:
        return complex(source.volts) if abs(share) >= REGULATED_FROM else 0j
    return source.volts * share


def _edited(netlist: Netlist, branches: dict[str, Branch], change: Change) -> Iterator[Branch]:
    edited = {key: branch for key, branch in branches.items() if key not in change.opened}
    for key, end, point in change.moved:
        if key in edited:
            net, branch = netlist.nets[point], edited[key]
            edited[key] = replace(branch, a=net) if end == 0 else replace(branch, b=net)
    for a, b in change.touching:
        ends = netlist.nets[a], netlist.nets[b]
        edited[f"{a}={b}"] = Branch(f"{a}={b}", *ends, 1 / SHORT_OHM, 1 / SHORT_OHM)
    return (branch for branch in edited.values() if branch.a != branch.b)


def _divide(netlist: Netlist, branches: Iterable[Branch]) -> list[Block]:
    """Part branches into blocks that share no net but held ones."""
    at: dict[int, list[Branch]] = {}
    blocks = []
    for branch in branches:
        free = [net for net in (branch.a, branch.b) if net not in netlist.held]
        if not free:
            blocks.append(Block(netlist, (), (branch,)))
        for net in free:
            at.setdefault(net, []).append(branch)
    seen: set[int] = set()
    for start in at:
        if start in seen:
            continue
        seen.add(start)
        nets: list[int] = [start]
        found: dict[str, Branch] = {}
        for net in nets:
            for branch in at[net]:
                found[branch.key] = branch
                for end in (branch.a, branch.b):
                    if end not in seen and end not in netlist.held:
                        seen.add(end)
                        nets.append(end)
        blocks.append(Block(netlist, nets, found.values()))
    return blocks


def _in_feeding_order(blocks: list[Block]) -> tuple[Block, ...]:
    """Put a block that feeds a transformer before the block of its secondary; a ring stays as it comes."""
    placed: list[Block] = []
    waiting, fed = list(blocks), set[str]()
    primaries = {key for block in blocks for key in block.primaries}
    while waiting:
        ready = [
            block
            for block in waiting
            if all(
                source.fed_by is None or source.fed_by in fed or source.fed_by not in primaries
                for source in block.sources
            )
        ] or waiting[:1]
        placed += ready
        waiting = [block for block in waiting if block not in ready]
        fed.update(key for block in ready for key in block.primaries)
    return tuple(placed)
