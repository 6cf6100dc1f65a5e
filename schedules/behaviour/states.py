"""Every state that the installation is to be seen in, solved: the sheet's own, and those that every hood must stand.

Added to the sheet's states, unless it has them: every breaker off; armed and idle; each cause of a release; after each
release the power going and coming back, and the reset; each supply lost, and each cause of a release with it lost.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.network.settling import Situation, settle
from schedules.sheet.breakers import off_signal

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.derived import Derived
    from schedules.network.switching import Network, Solution

ON_FROM = 0.8
"""Share of its rated voltage from which a load does what it is for, nominal."""

OFF_BELOW = 0.05
"""Share below which nothing is seen of a load, nominal: a lamp or element in series with it stays under this."""


class Level(StrEnum):
    """What is seen of an effect; `part`: it has some voltage, not enough to run."""

    OFF = "off"
    PART = "part"
    ON = "on"


def level_of(share: float) -> Level:
    """Level of a load by its voltage as a share of its rated voltage."""
    return Level.ON if share >= ON_FROM else Level.PART if share >= OFF_BELOW else Level.OFF


@dataclass(frozen=True, slots=True)
class Case:
    """One state to be solved. signals: set from outside. of_sheet: the sheet names it; else it is one of ours."""

    id: str
    name: str
    signals: frozenset[str]
    circuits_off: frozenset[str]
    after: str | None
    reset: frozenset[str]
    of_sheet: bool

    @property
    def outside(self) -> frozenset[str]:
        """Every signal that is set from outside, breakers switched off included."""
        return self.outside_with(self.signals)

    def outside_with(self, signals: frozenset[str]) -> frozenset[str]:
        """The same with other signals set in place of its own."""
        return signals | {off_signal(tag) for tag in self.circuits_off}


@dataclass(frozen=True, slots=True)
class SolvedCase:
    """One state solved: where it came to rest, the level of each effect, whether a release stands in it."""

    case: Case
    situation: Situation
    levels: Mapping[str, Level]
    burning: bool


@dataclass(frozen=True, slots=True)
class Cast:
    """Who sets which signal.

    fire: causes of a release. calls: a person's switches. acts: what a hand sets and seals in. left: outside signals
    that no state of the sheet has, such as a service key.
    """

    fire: tuple[str, ...]
    calls: tuple[str, ...]
    acts: tuple[str, ...]
    left: tuple[str, ...]


def cast_of(derived: Derived) -> Cast:
    """Tell the outside signals apart: an act leaves a coil pulled in when it is over, a call doesn't.

    A signal that no contact of this selection follows takes no part: what would set it wasn't bought.
    """
    followed = followed_signals(derived.network)
    outside = [
        signal for signal in derived.sheet.signal if signal.set_by == "outside" and signal.id in followed
    ]
    used = {name for state in derived.sheet.state for name in state.signals}
    fire = tuple(signal.id for signal in outside if signal.fire)
    named = [signal.id for signal in outside if not signal.fire and (signal.id in used or not used)]
    idle = settle(derived.network, ()).coils
    acts = tuple(
        name for name in named if settle(derived.network, (), settle(derived.network, {name})).coils & ~idle
    )
    return Cast(
        fire=fire,
        calls=tuple(name for name in named if name not in acts),
        acts=acts,
        left=tuple(signal.id for signal in outside if not signal.fire and signal.id not in named),
    )


def followed_signals(network: Network) -> frozenset[str]:
    """The signals that some contact follows."""
    mask = 0
    for switch in network.netlist.switches.values():
        mask |= switch.needs | switch.either | switch.bars
    return network.netlist.names(mask)


def solve_states(derived: Derived) -> tuple[SolvedCase, ...]:
    """Solve every state of an installation, in order."""
    return solve_cases(derived, derived.network, cases_of(derived))


def solve_cases(derived: Derived, network: Network, cases: Iterable[Case]) -> tuple[SolvedCase, ...]:
    """Solve these states on a network; each may come after an earlier one."""
    fire = {signal.id for signal in derived.sheet.signal if signal.fire} & followed_signals(network)
    rested: dict[str, Situation] = {}
    solved = []
    for case in cases:
        before = rested.get(case.after) if case.after is not None else None
        situation = rested[case.id] = settle(network, case.outside, before, case.reset)
        burning = bool(situation.signals & network.netlist.bits(fire))
        solved.append(SolvedCase(case, situation, levels_in(situation.solution), burning))
    return tuple(solved)


def levels_in(solution: Solution) -> dict[str, Level]:
    """The level of each effect: that of the load which runs best of those that show it."""
    return {effect: level_of(share) for effect, share in solution.best.items()}


def cases_of(derived: Derived, cast: Cast | None = None) -> tuple[Case, ...]:
    """The states to solve, each after the one that it follows. cast: where it is known already."""
    return tuple(_Cases(derived, cast or cast_of(derived)).every())


def _quiet(cases: Iterable[Case], cast: Cast) -> list[Case]:
    return [
        case
        for case in cases
        if not case.circuits_off and not case.reset and case.signals.isdisjoint(cast.fire)
    ]


def at_rest(cases: Iterable[Case], cast: Cast) -> Case:
    """The state that is armed with nothing in use."""
    return next(case for case in _quiet(cases, cast) if not case.signals)


def in_use(cases: Iterable[Case], cast: Cast) -> Case:
    """The state with the most in use before anything has happened."""
    return max(_quiet(cases, cast), key=lambda case: len(case.signals - {*cast.acts}))


@dataclass(slots=True)
class _Cases:
    derived: Derived
    cast: Cast
    cases: list[Case] = field(default_factory=list)

    def every(self) -> Iterator[Case]:
        choices = self.derived.selection.choices
        self.cases = [
            Case(
                state.id,
                state.name,
                frozenset(state.signals),
                frozenset(state.circuits_off),
                state.after,
                frozenset(state.reset),
                of_sheet=True,
            )
            for state in self.derived.sheet.state
            if state.when.holds(choices)
        ]
        self._add_rest()
        use = self._in_use()
        self._add_fires(use)
        self._add_losses(use)
        self._add_returns()
        yield from self.cases

    @property
    def _circuits(self) -> frozenset[str]:
        return frozenset(circuit.tag for circuit in self.derived.selection.circuits)

    def _add(
        self,
        name: str,
        words: str,
        signals: frozenset[str],
        *,
        off: frozenset[str] = frozenset(),
        after: str | None = None,
        reset: frozenset[str] = frozenset(),
    ) -> Case:
        # A plus sign stands in no name of a sheet, so ours never meets one of its.
        case = Case(f"+{name}", words, signals, off, after, reset, of_sheet=False)
        self.cases.append(case)
        return case

    def _add_rest(self) -> None:
        """Every breaker off, and armed with nothing in use."""
        if not any(case.circuits_off >= self._circuits for case in self.cases):
            self._add("panel-off", "Every breaker off", frozenset(), off=self._circuits)
        if any(not case.signals for case in _quiet(self.cases, self.cast)):
            return
        last = None
        for act in self.cast.acts:
            last = self._add(f"act-{act}", f"By hand: {self._say(act)}", frozenset({act}), after=last).id
        self._add("idle", "Armed, nothing in use", frozenset(), after=last)

    def _in_use(self) -> Case:
        most = in_use(self.cases, self.cast)
        if self.cast.calls and not most.signals & {*self.cast.calls}:
            idle = at_rest(self.cases, self.cast)
            return self._add("in-use", "Everything in use", frozenset(self.cast.calls), after=idle.id)
        return most

    def _add_fires(self, use: Case) -> None:
        for cause in self.cast.fire:
            if not any(cause in case.signals and not case.circuits_off for case in self.cases):
                self._add(cause, f"{self._say(cause)}, in use", use.signals | {cause}, after=use.id)

    def _add_losses(self, use: Case) -> None:
        for circuit in self.derived.selection.circuits:
            off = frozenset({circuit.tag})
            lost = next(
                (
                    case
                    for case in self.cases
                    if case.circuits_off == off and case.signals.isdisjoint(self.cast.fire)
                ),
                None,
            ) or self._add(
                f"lost-{circuit.tag.lower()}",
                f"{circuit.tag} off, in use",
                use.signals,
                off=off,
                after=use.id,
            )
            for cause in self.cast.fire:
                if not any(cause in case.signals and case.circuits_off == off for case in self.cases):
                    self._add(
                        f"lost-{circuit.tag.lower()}-{cause}",
                        f"{self._say(cause)} with {circuit.tag} off",
                        lost.signals | {cause},
                        off=off,
                        after=lost.id,
                    )

    def _add_returns(self) -> None:
        """After each release: power gone and back, then reset, with every switch as it was."""
        latched = frozenset(
            signal.id for signal in self.derived.sheet.signal if signal.fire and signal.latched
        )
        for fire in [case for case in self.cases if not case.signals.isdisjoint(self.cast.fire)]:
            if fire.circuits_off:
                continue
            name, out = fire.id.lstrip("+"), fire.signals - {*self.cast.fire}
            dark = self._add(
                f"{name}-dark", f"{fire.name}; every breaker off", out, off=self._circuits, after=fire.id
            )
            back = self._add(f"{name}-back", f"{fire.name}; power back", out, after=dark.id)
            self._add(f"{name}-reset", f"{fire.name}; reset", out, after=back.id, reset=latched)

    def _say(self, signal: str) -> str:
        return next(item.name for item in self.derived.sheet.signal if item.id == signal)
