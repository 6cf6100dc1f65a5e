"""What each cause does to each effect: the interlock matrix, solved in every state with switches on and off."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

from schedules.behaviour.states import Level, cases_of, cast_of, levels_in, solve_cases
from schedules.network.settling import settle

if TYPE_CHECKING:
    from schedules.behaviour.states import Case, SolvedCase
    from schedules.derived import Derived
    from schedules.network.settling import Situation
    from schedules.network.switching import Solution
    from schedules.sheet.behaviour import Effect

Four = tuple[Level, Level, Level, Level]
"""An effect's level with a person's switches off before and during a cause, off and on, on and off, on and on."""


class Does(StrEnum):
    """What a cause does to an effect."""

    ON = "on"
    OFF = "off"
    PART = "part"
    FOLLOWS = "follows"
    UNCHANGED = "unchanged"
    DEPENDS = "depends"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: what the cause does to the effect, and what to know of it."""

    does: Does
    note: str


@dataclass(frozen=True, slots=True)
class Cause:
    """One row: a state, the signals that then stay until a hand resets them, the time until all is at rest [s]."""

    case: Case
    held: tuple[str, ...]
    after_s: float
    settled: bool
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Matrix:
    """Causes in rows, effects in columns."""

    effects: tuple[Effect, ...]
    causes: tuple[Cause, ...]


def interlock_matrix(derived: Derived) -> Matrix:
    """Derive the matrix of an installation: nothing in it is declared."""
    interlocks = Interlocks(derived)
    effects = interlocks.effects
    return Matrix(
        effects,
        tuple(
            Cause(
                solved.case,
                tuple(sorted(derived.network.netlist.names(solved.situation.latched))),
                solved.situation.after_s,
                solved.situation.settled,
                tuple(interlocks.cell(solved, effect) for effect in effects),
            )
            for solved in interlocks.solved
        ),
    )


class Interlocks:
    """The states of one installation, and what they come to with a person's switches on and off."""

    def __init__(self, derived: Derived) -> None:
        self._derived = derived
        self._cast = cast_of(derived)
        self._cases = {case.id: case for case in cases_of(derived, self._cast)}
        self._rested: dict[tuple[str, bool, bool], Situation] = {}
        self._levels: dict[tuple[str, bool, bool], dict[str, Level]] = {}
        self._levels_of: dict[Solution, dict[str, Level]] = {}

    @cached_property
    def calls(self) -> frozenset[str]:
        """The switches that a person leaves on or off."""
        return frozenset(self._cast.calls)

    @cached_property
    def acts(self) -> frozenset[str]:
        """What a hand sets that then holds itself."""
        return frozenset(self._cast.acts)

    @cached_property
    def solved(self) -> tuple[SolvedCase, ...]:
        """Every state as it is stated."""
        return solve_cases(self._derived, self._derived.network, self._cases.values())

    @cached_property
    def by_id(self) -> dict[str, SolvedCase]:
        """Every state by its name."""
        return {item.case.id: item for item in self.solved}

    @cached_property
    def effects(self) -> tuple[Effect, ...]:
        """The effects that something bought shows, in the sheet's order."""
        shown = {user.effect for user in self._derived.network.netlist.users.values()}
        return tuple(effect for effect in self._derived.sheet.effect if effect.id in shown)

    def cell(self, solved: SolvedCase, effect: Effect) -> Cell:
        """One cell. A state that only switches something on shows what then runs; a disturbance, what it changes."""
        level = solved.levels[effect.id]
        if not self.is_disturbed(solved):
            return _plain(level, effect)
        return _varied(self.four(solved.case, effect.id), effect)

    def is_disturbed(self, solved: SolvedCase) -> bool:
        """Whether a release, a lost supply, a reset or the return of power stands in this state."""
        before = self._cases.get(solved.case.after or "")
        came_back = before is not None and bool(before.circuits_off - solved.case.circuits_off)
        return solved.burning or bool(solved.case.circuits_off or solved.case.reset) or came_back

    def four(self, case: Case, effect: str) -> Four:
        """The effect's level with a person's switches off and on before and during the state."""
        return (
            self._level(case, effect, before=False, now=False),
            self._level(case, effect, before=False, now=True),
            self._level(case, effect, before=True, now=False),
            self._level(case, effect, before=True, now=True),
        )

    def levels_before(self, case: Case, effect: str, *, on: bool) -> Level | None:
        """The effect's level just before a state, None where nothing came before."""
        before = self._cases.get(case.after or "")
        return None if before is None else self._level(before, effect, before=on, now=on)

    def _level(self, case: Case, effect: str, *, before: bool, now: bool) -> Level:
        key = (case.id, before, now)
        if key not in self._levels:
            solution = self._rest(case, before=before, now=now).solution
            # Many states come to rest at the same solution.
            if solution not in self._levels_of:
                self._levels_of[solution] = levels_in(solution)
            self._levels[key] = self._levels_of[solution]
        return self._levels[key][effect]

    def _rest(self, case: Case, *, before: bool, now: bool) -> Situation:
        # Back to a state whose rest is known, or to the first of all; then on again, each with the switches as they
        # are before.
        chain = [case]
        earlier = self._cases.get(case.after or "")
        while earlier is not None and (earlier.id, before, before) not in self._rested:
            chain.append(earlier)
            earlier = self._cases.get(earlier.after or "")
        came_from = None if earlier is None else self._rested[earlier.id, before, before]
        for each in reversed(chain[1:]):
            came_from = self._settled(each, came_from, on=before)
            self._rested[each.id, before, before] = came_from
        return self._settled(case, came_from, on=now)

    def _settled(self, case: Case, came_from: Situation | None, *, on: bool) -> Situation:
        calls = self.calls if on else frozenset[str]()
        outside = case.outside_with((case.signals - self.calls) | calls)
        return settle(self._derived.network, outside, came_from, case.reset)


def _plain(level: Level, effect: Effect) -> Cell:
    if level is Level.PART:
        return Cell(Does.OFF, "watched through a resistor") if effect.kind == "alarm" else Cell(Does.PART, "")
    return Cell(Does(level.value), "")


def _varied(four: Four, effect: Effect) -> Cell:
    """Say in a word how the effect depends on the switches before and during the cause."""
    idle, called, was_on, kept_on = four
    if len({*four}) == 1:
        return _plain(idle, effect)
    if idle == was_on and called == kept_on:
        return Cell(Does.FOLLOWS, "" if called > idle or called is Level.ON else "the other way round")
    if idle == called and was_on == kept_on:
        return Cell(Does.UNCHANGED, "")
    words = zip(("off", "switched on now", "switched off now", "on"), four, strict=True)
    return Cell(Does.DEPENDS, ", ".join(f"{switches}: {level}" for switches, level in words))
