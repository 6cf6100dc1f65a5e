"""The solved states of one installation as the screens show them, and what one thing put wrong changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.fault_list import FaultKind, single_faults
from schedules.behaviour.faults import Judge
from schedules.behaviour.interlocks import Interlocks, interlock_matrix
from schedules.behaviour.promises import broken_promises, promised
from schedules.behaviour.what_if import broken_wire, changed_levels, swapped_ends
from schedules.rows.interlocks import sign

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.faults import Outcome
    from schedules.behaviour.interlocks import Cause
    from schedules.behaviour.states import Level, SolvedCase
    from schedules.connections.points import Point
    from schedules.derived import Derived
    from schedules.job.records import Job
    from schedules.sheet.behaviour import Effect, Promise

Place = tuple[str, str]
"""A state and an effect, by their ids."""


@dataclass(frozen=True, slots=True)
class Trial:
    """One thing put wrong: what comes of it, and the level of each effect where it differs."""

    outcome: Outcome
    now: Mapping[Place, Level]


@dataclass(frozen=True, slots=True)
class Behaviour:
    """The interlock matrix, the levels in each state, and what the sheet's maker promises.

    broken: in words what happens instead, where a promise doesn't hold.
    """

    derived: Derived
    effects: tuple[Effect, ...]
    causes: tuple[Cause, ...]
    solved: tuple[SolvedCase, ...]
    broken: Mapping[Place, str]

    def word(self, cause: Cause, place: int) -> str:
        """What a cause does to the effect of this column, in a word."""
        return sign(cause.cells[place])

    def levels(self, state: str) -> Mapping[str, Level]:
        """The level of every effect in a state."""
        return next(item.levels for item in self.solved if item.case.id == state)

    def promise(self, place: Place) -> Promise | None:
        """What the maker promises of an effect in a state."""
        return promised(self.derived, *place)

    def try_out(self, fault: Fault) -> Trial:
        """Put one thing wrong and see every state again."""
        return Trial(Judge(self.derived).outcome(fault), changed_levels(self.derived, fault, self.solved))


def behaviour_of(derived: Derived) -> Behaviour:
    """Solve every state of an installation."""
    matrix, interlocks = interlock_matrix(derived), Interlocks(derived)
    return Behaviour(
        derived,
        matrix.effects,
        matrix.causes,
        interlocks.solved,
        {
            (item.solved.case.id, item.effect.id): item.instead
            for item in broken_promises(derived, interlocks)
        },
    )


def same_installation(one: Derived, other: Derived | None) -> bool:
    """Whether two plans differ at most in what was recorded while work went on."""
    return other is not None and one.sheet is other.sheet and _unrecorded(one.job) == _unrecorded(other.job)


def _unrecorded(job: Job) -> Job:
    lengths = tuple(
        item.model_copy(update={"landed": (), "initials": "-", "date": "-", "note": None})
        for item in job.as_built
        if item.length is not None
    )
    return job.model_copy(update={"as_built": lengths, "acknowledged": (), "tested": ()})


def breakable(derived: Derived) -> tuple[Fault, ...]:
    """Each conductor, open."""
    return tuple(broken_wire(derived, number) for number in derived.connections.conductors)


def stickable(derived: Derived) -> tuple[Fault, ...]:
    """Each contact, welded or stuck open."""
    kinds = (FaultKind.STUCK_SHUT, FaultKind.STUCK_OPEN)
    return tuple(fault for fault in single_faults(derived) if fault.kind in kinds)


End = tuple[str, "Point"]
"""A conductor's number, and a terminal that it is on."""


def ends_in_order(derived: Derived) -> tuple[End, ...]:
    """Every conductor end, by enclosure and terminal."""
    landings = derived.connections.landings
    ends = [
        (number, point)
        for number, item in derived.connections.conductors.items()
        for point in (item.a, item.b)
    ]
    return tuple(sorted(ends, key=lambda end: (landings[end[1]].enclosure, str(end[1]), end[0])))


def swappable_with(derived: Derived, end: End) -> tuple[End, ...]:
    """The ends that a hand could confuse with this one: those in the same enclosure, on other terminals."""
    landings = derived.connections.landings
    return tuple(
        other
        for other in ends_in_order(derived)
        if landings[other[1]].enclosure == landings[end[1]].enclosure
        and other[1] != end[1]
        and other[0] != end[0]
    )


def swap(derived: Derived, one: End, two: End) -> Fault:
    """Two ends on each other's terminals."""
    return swapped_ends(derived, one, two)
