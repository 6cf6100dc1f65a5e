"""Where contacts and coils come to rest: a fixed point over the solved network, with latches, delays and breakers.

Time runs in instants. In each, contacts follow signals and coils drive signals until nothing changes; then a breaker or
supply that is overloaded gives up; then the delayed contact that is due first moves. A ring that never ends is told.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.network.netlist import Switch
    from schedules.network.switching import Network, Solution


@dataclass(frozen=True, slots=True)
class Step:
    """One solved instant on the way: which contacts were closed, what it came to."""

    closed: int
    solution: Solution


@dataclass(frozen=True, slots=True)
class Situation:
    """Where a network came to rest.

    In bits: outside signals, coils that are pulled in, latched signals, delayed contacts that have moved, breakers that
    tripped, all signals that are set, closed contacts. given_up: overloaded supplies. after_s: time until rest [s].
    chase: the signals of each step of a ring that never ends, empty where it came to rest; in a ring, `closed` holds
    the contacts that stay closed all round it.
    """

    network: Network
    outside: int
    coils: int
    latched: int
    moved: int
    tripped: int
    signals: int
    closed: int
    given_up: frozenset[str]
    after_s: float
    chase: tuple[int, ...]
    steps: tuple[Step, ...]

    @property
    def settled(self) -> bool:
        """Whether it came to rest."""
        return not self.chase

    @property
    def solution(self) -> Solution:
        """The last step's voltages."""
        return self.steps[-1].solution

    @property
    def chasing(self) -> tuple[str, ...]:
        """The signals that come and go without end."""
        always, ever = -1, 0
        for signals in self.chase:
            always &= signals
            ever |= signals
        return tuple(sorted(self.network.netlist.names(ever & ~always))) if self.chase else ()

    @property
    def closed_keys(self) -> frozenset[str]:
        """Keys of the contacts that are closed."""
        return frozenset(
            key for key, switch in self.network.netlist.switches.items() if switch.bit & self.closed
        )

    def share(self, user: str) -> float:
        """A load's voltage as a share of its rated voltage."""
        return self.solution.shares.get(user, 0.0)


def settle(
    network: Network,
    outside: Iterable[str],
    before: Situation | None = None,
    released: Iterable[str] = (),
) -> Situation:
    """Let a network come to rest.

    outside: the signals that people, heat or fire set, and those of breakers switched off. before: where it rested just
    before; its coils start pulled in, its latched signals stay, its tripped breakers too unless they are switched off
    now. released: latched signals that a hand resets once all else has come to rest; one whose cause is still there
    sets in again.
    """
    netlist = network.netlist
    now = netlist.bits(outside)
    start = now, 0, 0, 0, 0, netlist.bits(released)
    if before is not None:
        start = now, before.coils, before.latched, before.moved, before.tripped & ~now, start[-1]
    rest = network.rested.get(start)
    if rest is None:
        rest = network.rested[start] = _Run(network, *start[:-1]).to_rest(start[-1])
    return rest


@dataclass(slots=True)
class _Run:
    network: Network
    outside: int
    coils: int = 0
    latched: int = 0
    moved: int = 0
    tripped: int = 0
    given_up: frozenset[str] = frozenset()
    time_s: float = 0.0
    due_s: dict[int, float] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    passed: dict[tuple[int, int, int, int, frozenset[str]], int] = field(default_factory=dict)
    signals_at: list[int] = field(default_factory=list)

    def to_rest(self, released: int) -> Situation:
        at_rest = self._comes_to_rest()
        if at_rest and released & self.latched:
            self.latched &= ~released
            self.passed.clear()
            at_rest = self._comes_to_rest()
        if at_rest:
            return self._situation(())
        return self._situation(tuple(self.signals_at[self.passed[self._state()] :]))

    def _comes_to_rest(self) -> bool:
        while self._follow_coils():
            if not self._give_up() and not self._move_delayed():
                return True
        return False

    def _state(self) -> tuple[int, int, int, int, frozenset[str]]:
        return self.coils, self.latched, self.moved, self.tripped, self.given_up

    def _signals(self) -> int:
        return self.outside | self.latched | self.tripped | self.network.relays.driven(self.coils)

    def _follow_coils(self) -> bool:
        """Let coils and contacts follow each other at one instant; False where they run in a ring."""
        while True:
            state = self._state()
            if state in self.passed:
                return False
            self.passed[state] = len(self.steps)
            signals = self._signals()
            self.latched |= signals & self.network.netlist.latching
            operated = self._operated(signals)
            closed = self.network.closed(operated)
            solution = self.network.solve(closed, self.given_up)
            self.steps.append(Step(closed, solution))
            self.signals_at.append(signals)
            self.coils = solution.pulls | (solution.holds & self.coils)
            if self._state() == state:
                return True

    def _operated(self, signals: int) -> int:
        """Contacts out of shelf state: a delayed one leaves it only when its time is up, and goes back at once."""
        wanted = self.network.relays.operated(signals)
        self.moved &= wanted
        return wanted & ~(self.network.relays.delayed_bits & ~self.moved)

    def _give_up(self) -> bool:
        """Trip what is overloaded; tell whether anything was that can."""
        before = self.tripped, self.given_up
        switches = self.network.netlist.switches
        for key in self.steps[-1].solution.overloads:
            if key in switches:
                self.tripped |= switches[key].breaker
            else:
                self.given_up |= {key}
        return before != (self.tripped, self.given_up)

    def _move_delayed(self) -> bool:
        """Move the delayed contact that is due first; tell whether there was one."""
        waiting = self._waiting()
        self.due_s = {
            switch.bit: self.due_s.get(switch.bit, self.time_s + switch.delay_s) for switch in waiting
        }
        if not waiting:
            return False
        bit = min(self.due_s, key=lambda each: self.due_s[each])
        self.time_s = self.due_s.pop(bit)
        self.moved |= bit
        return True

    def _waiting(self) -> list[Switch]:
        wanted = self.network.relays.operated(self.signals_at[-1])
        return [switch for switch in self.network.relays.delayed if switch.bit & wanted & ~self.moved]

    def _situation(self, chase: tuple[int, ...]) -> Situation:
        closed = self.steps[-1].closed
        for step in self.steps[len(self.steps) - len(chase) :] if chase else ():
            closed &= step.closed
        return Situation(
            network=self.network,
            outside=self.outside,
            coils=self.coils,
            latched=self.latched,
            moved=self.moved,
            tripped=self.tripped,
            signals=self.signals_at[-1],
            closed=closed,
            given_up=self.given_up,
            after_s=self.time_s,
            chase=chase,
            steps=tuple(self.steps),
        )
