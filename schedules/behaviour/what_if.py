"""What if? One thing put wrong on purpose, for a class or a check, and every state that then changes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.behaviour.fault_list import Fault, FaultKind
from schedules.behaviour.states import solve_cases
from schedules.network.switching import Change

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.behaviour.states import Level, SolvedCase
    from schedules.connections.points import Conductor, Landing, Point
    from schedules.derived import Derived


def broken_wire(derived: Derived, number: str) -> Fault:
    """A conductor that is open. Raises LookupError for a number that these choices don't bring."""
    conductor = _conductor(derived, number)
    return Fault(
        id=f"open {number}",
        kind=FaultKind.OPEN,
        says=f"wire {number} of {conductor.cable} is open",
        subjects=(number,),
        enclosures=tuple(_landing(derived, point).enclosure for point in (conductor.a, conductor.b)),
        change=Change(opened=(number,)),
    )


def swapped_ends(derived: Derived, one: tuple[str, Point], two: tuple[str, Point]) -> Fault:
    """Two ends, each a conductor's number and the terminal that it is on, put on each other's terminals.

    Any two may be asked for, however unlikely. Raises LookupError for an end that isn't there.
    """
    first, second = _end(derived, *one), _end(derived, *two)
    return Fault(
        id=f"swap {one[0]} at {one[1]} and {two[0]} at {two[1]}",
        kind=FaultKind.SWAPPED,
        says=f"wire {one[0]} is on {two[1]}, wire {two[0]} on {one[1]}",
        subjects=(one[0], two[0]),
        enclosures=tuple(dict.fromkeys(_landing(derived, point).enclosure for _, point in (one, two))),
        change=Change(moved=((one[0], first, two[1]), (two[0], second, one[1]))),
    )


def joined_points(derived: Derived, a: Point, b: Point) -> Fault:
    """Two terminals joined by a strand or a jumper. Raises LookupError for one that isn't there."""
    return Fault(
        id=f"touch {a} {b}",
        kind=FaultKind.TOUCHING,
        says=f"{a} and {b} touch",
        subjects=(str(a), str(b)),
        enclosures=tuple(dict.fromkeys(_landing(derived, point).enclosure for point in (a, b))),
        change=Change(touching=((a, b),)),
    )


def changed_levels(
    derived: Derived, fault: Fault, sound: tuple[SolvedCase, ...]
) -> Mapping[tuple[str, str], Level]:
    """What each effect is with the fault, by state and effect, where that is not as in these states without it."""
    cases = [replace(item.case, signals=item.case.signals | fault.signals) for item in sound]
    seen = solve_cases(derived, derived.network.changed(fault.change), cases)
    return {
        (before.case.id, effect): level
        for before, after in zip(sound, seen, strict=True)
        for effect, level in after.levels.items()
        if level is not before.levels[effect]
    }


def _conductor(derived: Derived, number: str) -> Conductor:
    conductor = derived.connections.conductors.get(number)
    if conductor is None:
        raise LookupError(f"no wire {number} with these choices")
    return conductor


def _end(derived: Derived, number: str, point: Point) -> int:
    conductor = _conductor(derived, number)
    if point not in (conductor.a, conductor.b):
        raise LookupError(f"wire {number} is on {conductor.a} and {conductor.b}, not on {point}")
    return 0 if point == conductor.a else 1


def _landing(derived: Derived, point: Point) -> Landing:
    landing = derived.connections.landings.get(point)
    if landing is None:
        raise LookupError(f"no terminal {point} with these choices")
    return landing
