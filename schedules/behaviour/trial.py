"""One installation with one thing wrong, seen in every state; only what the fault touches is solved again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.hazards import Hazard, Watch
from schedules.behaviour.states import cases_of, levels_in, solve_cases
from schedules.network.settling import settle

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.states import Case, Level, SolvedCase
    from schedules.derived import Derived
    from schedules.network.settling import Situation
    from schedules.network.switching import Network, Solution


@dataclass(frozen=True, slots=True)
class Seen:
    """One state with the fault in it: levels, hazards, breakers that tripped, whether it comes to rest."""

    solved: SolvedCase
    solution: Solution
    levels: Mapping[str, Level]
    hazards: tuple[Hazard, ...]
    tripped: frozenset[str]
    settled: bool


def _without_lost_supplies(derived: Derived) -> Iterator[Case]:
    """The states in which every breaker is on, or every one off, and no other kind of state came before."""
    circuits = frozenset(circuit.tag for circuit in derived.selection.circuits)
    left_out: set[str] = set()
    for case in cases_of(derived):
        off = case.circuits_off & circuits
        if (off and off < circuits) or case.after in left_out:
            left_out.add(case.id)
        else:
            yield case


class Bench:
    """The states in which single faults are tried: those that have no other supply lost."""

    def __init__(self, derived: Derived) -> None:
        self.derived = derived
        self.network = derived.network
        self.cases = tuple(_without_lost_supplies(derived))
        self.whole = solve_cases(derived, self.network, self.cases)
        self.watch = Watch(self.network.netlist)
        self.sound = tuple(self._seen(item, item.situation) for item in self.whole)
        self._passed = {
            (step.closed, item.situation.given_up): step.solution
            for item in self.whole
            for step in item.situation.steps
        }

    def network_with(self, fault: Fault) -> Network:
        """The network with the fault in it."""
        return self.network.changed(fault.change)

    def try_out(self, fault: Fault) -> tuple[Seen, ...]:
        """See every state with the fault in it, in order."""
        network = self.network_with(fault)
        if not fault.signals and self._runs_alike(network):
            return tuple(
                self._replaced(item, seen, network) for item, seen in zip(self.whole, self.sound, strict=True)
            )
        return self.solve_all(network, fault.signals)

    def _runs_alike(self, network: Network) -> bool:
        """Whether coils, breakers and supplies answer in every instant as they do without the fault.

        Then contacts move as without it, and only the voltages of the touched parts differ.
        """
        if (network.stuck_shut, network.stuck_open) != (self.network.stuck_shut, self.network.stuck_open):
            return False
        for (closed, given_up), sound in self._passed.items():
            other = network.solve(closed, given_up)
            if (other.pulls, other.holds, other.overloads) != (sound.pulls, sound.holds, sound.overloads):
                return False
        return True

    def _replaced(self, item: SolvedCase, sound: Seen, network: Network) -> Seen:
        situation = item.situation
        solution = network.solve(situation.steps[-1].closed, situation.given_up)
        levels = sound.levels if solution.shares == sound.solution.shares else levels_in(solution)
        hazards = tuple(hazard for solved in solution.solved for hazard in self.watch.inside(solved))
        return Seen(item, solution, levels, hazards, sound.tripped, sound.settled)

    def solve_all(self, network: Network, signals: frozenset[str]) -> tuple[Seen, ...]:
        """Let a network come to rest in every state, one after another."""
        rested: dict[str, Situation] = {}
        seen = []
        for item in self.whole:
            case = item.case
            before = rested.get(case.after) if case.after is not None else None
            situation = rested[case.id] = settle(network, case.outside | signals, before, case.reset)
            seen.append(self._seen(item, situation))
        return tuple(seen)

    def _seen(self, item: SolvedCase, situation: Situation) -> Seen:
        names = situation.network.netlist.names(situation.tripped)
        return Seen(
            item,
            situation.solution,
            levels_in(situation.solution),
            self.watch.over(situation),
            names | situation.given_up,
            situation.settled,
        )
