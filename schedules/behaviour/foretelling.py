"""What each probe shows if this or that is wrong."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.loops import far_ends
from schedules.behaviour.meter_words import OPEN
from schedules.behaviour.probes import ProbeKind
from schedules.behaviour.states import Level
from schedules.network.nodal import GROUNDED
from schedules.network.switching import Change
from schedules.sheet.breakers import off_signal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.probes import Probe
    from schedules.behaviour.trial import Bench, Seen
    from schedules.network.switching import Network, Solution

Value = float | str
"""What a probe shows: a level (0, 0.5, 1), volts, ohms; words where it shows several things at once."""

RIGHT = "all right"
"""Shown where nothing is wrong."""


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """What may be wrong, None for nothing, and what is then seen in each state."""

    fault: Fault | None
    network: Network
    states: tuple[Seen, ...]


_LEVELS = {Level.OFF: 0.0, Level.PART: 0.5, Level.ON: 1.0}


class Foretelling:
    """What each probe shows under a hypothesis."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._nets = bench.network.netlist.nets
        self._held = bench.network.netlist.held
        self._place = {item.case.id: place for place, item in enumerate(bench.whole)}

    def value(self, probe: Probe, hypothesis: Hypothesis) -> Value:
        """The level seen (0, 0.5, 1), volts, ohms (OPEN where nothing joins the leads), or what is wrong, in words."""
        match probe.kind:
            case ProbeKind.LOOK:
                return self._look(probe, hypothesis)
            case ProbeKind.STATE:
                return self._state(probe, hypothesis)
            case ProbeKind.SEE:
                return _LEVELS[hypothesis.states[self._place[probe.case]].levels[probe.subject]]
            case ProbeKind.VOLTS:
                return self._volts(probe, hypothesis)
            case ProbeKind.OHMS:
                return self._ohms(probe, hypothesis)
            case _:
                return self._lifted(probe, hypothesis.fault)

    def _state(self, probe: Probe, hypothesis: Hypothesis) -> str:
        """Every effect that is not as without a fault, chattering and trips too."""
        place = self._place[probe.case]
        sound, seen = self._bench.sound[place], hypothesis.states[place]
        wrong = [
            f"{effect} {level}" for effect, level in seen.levels.items() if level is not sound.levels[effect]
        ]
        wrong += [f"{name.removesuffix('-off')} trips" for name in sorted(seen.tripped - sound.tripped)]
        wrong += [] if seen.settled else ["chatters"]
        return ", ".join(wrong) or RIGHT

    def _look(self, probe: Probe, hypothesis: Hypothesis) -> float:
        """Whether a breaker is on, a plug mated: 1 or 0."""
        fault = hypothesis.fault
        signal = off_signal(probe.subject)
        tripped = signal in hypothesis.states[self._place[probe.case]].tripped
        off = fault is not None and (signal in fault.signals or fault.id == f"unplug {probe.subject}")
        return 0.0 if tripped or off else 1.0

    def _ends(self, probe: Probe) -> tuple[int, int]:
        if probe.start is None or probe.end is None:
            raise ValueError(f"{probe.id} has no terminals")
        return self._nets[probe.start], self._nets[probe.end]

    def _volts(self, probe: Probe, hypothesis: Hypothesis) -> float:
        solution = hypothesis.states[self._place[probe.case]].solution
        one, two = (self._potential(net, hypothesis.network, solution) for net in self._ends(probe))
        if one[2] != two[2]:
            return 0.0
        return math.hypot(abs(one[0] - two[0]), one[1] - two[1])

    def _potential(
        self, net: int, network: Network, solution: Solution
    ) -> tuple[complex, float, tuple[int, int]]:
        """Alternating and direct voltage of a net [V], and the island that it is in."""
        if net in self._held:
            return self._held[net], 0.0, (GROUNDED, GROUNDED)
        place = network.block_of_net.get(net)
        if place is None:
            return 0j, 0.0, (GROUNDED - 1, net)
        solved = solution.solved[place]
        island = solved.ac.island[net]
        dc = solved.dc.volts[net].real if solved.has_dc else 0.0
        return solved.ac.volts[net], dc, (GROUNDED if island == GROUNDED else place, island)

    def _ohms(self, probe: Probe, hypothesis: Hypothesis) -> float:
        a, b = self._ends(probe)
        network = hypothesis.network
        solution = hypothesis.states[self._place[probe.case]].solution
        places = [network.block_of_net.get(net) for net in (a, b)]
        if places[0] is not None and places[0] == places[1]:
            return solution.solved[places[0]].ohms(a, b)
        # In different parts, the only way from one to the other is by the bars that both hang on.
        bar = next(net for net, volts in self._held.items() if volts == 0)
        total = 0.0
        for net, place in zip((a, b), places, strict=True):
            if net not in self._held:
                total += solution.solved[place].ohms(net, bar) if place is not None else OPEN
        return total

    def _lifted(self, probe: Probe, fault: Fault | None) -> Value:
        """An element measured by itself is as it should be, unless the fault is its own."""
        change = fault.change if fault is not None else Change()
        match probe.kind:
            case ProbeKind.RING:
                return ", ".join(self._wrong_wires(probe.subject, change)) or RIGHT
            case ProbeKind.CONTACT:
                stuck = ("stays shut", change.stuck_shut), ("stays open", change.stuck_open)
                return next((words for words, keys in stuck if probe.subject in keys), RIGHT)
            case ProbeKind.BETWEEN:
                joined = [f"{a} {b}" for a, b in change.touching if a.device == probe.subject]
                return ", ".join(joined) or RIGHT
            case ProbeKind.LOOP:
                return self._loop(probe.subject, change)
            case _:
                return OPEN if probe.subject in change.opened else self._ohms_of(probe.subject)

    def _ohms_of(self, key: str) -> float:
        return (1 / self._bench.network.netlist.branches[key].dc).real

    def _loop(self, resistor: str, change: Change) -> float:
        """Into a loop from its far end: its resistor, or open, or joined before the resistor."""
        moved = {key for key, _, _ in change.moved}
        if resistor in moved or self._loop_wires(resistor) & {*change.opened, *moved}:
            return OPEN
        return 0.0 if self._is_bridged(resistor, change) else self._ohms_of(resistor)

    def _wrong_wires(self, cable: str, change: Change) -> Iterator[str]:
        for number, conductor in self._bench.derived.connections.conductors.items():
            if conductor.cable == cable:
                if number in change.opened:
                    yield f"{number} open"
                yield from (f"{number} at {point}" for key, _, point in change.moved if key == number)

    def _is_bridged(self, resistor: str, change: Change) -> bool:
        """Whether something joins a resistor's two ends on its own side of the lifted far end of its loop."""
        derived, contacts = self._bench.derived, self._bench.network.netlist.branches
        inside = derived.connections.inside[resistor]
        ends = {self._nets[inside.a], self._nets[inside.b]}
        lifted = {point.device for pair in far_ends(derived, inside) for point in pair}
        strands = ((a, b) for a, b in change.touching if a.device not in lifted)
        return any({self._nets[a], self._nets[b]} == ends for a, b in strands) or any(
            {contacts[key].a, contacts[key].b} == ends for key in change.stuck_shut if key in contacts
        )

    def _loop_wires(self, resistor: str) -> frozenset[str]:
        """The conductors between a resistor and the far end of its loop."""
        derived = self._bench.derived
        inside = derived.connections.inside[resistor]
        ends = {point for pair in far_ends(derived, inside) for point in pair}
        near = {self._nets[inside.a], self._nets[inside.b]}
        return frozenset(
            number
            for number, conductor in derived.connections.conductors.items()
            if {self._nets[conductor.a], self._nets[conductor.b]} & near and {conductor.a, conductor.b} & ends
        )
