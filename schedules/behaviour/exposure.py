"""What would show a fault that nobody notices in use, and what would cure it: computed on the faulty network."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.behaviour.fault_list import FaultKind
from schedules.behaviour.faults import Notice
from schedules.behaviour.loops import far_ends
from schedules.findings import Finding, Remedy, Severity
from schedules.network.meter import Meter
from schedules.network.settling import settle
from schedules.network.switching import Change
from schedules.sheet.hardware import Resistor
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.faults import Judge, Outcome
    from schedules.connections.points import Point
    from schedules.derived import Derived

_SOLVED = Source("the installation solved with each fault in it", Confidence.DERIVED)
_RULE = "what is dangerous is noticed in use, or shown by a test before cover and at each inspection"


def fault_findings(derived: Derived, judge: Judge, outcomes: Sequence[Outcome]) -> tuple[Finding, ...]:
    """One finding for each set of hidden faults that lead to the same danger, with what would expose or cure them."""
    alike: dict[tuple[tuple[str, ...], Notice], list[Outcome]] = {}
    for outcome in outcomes:
        if outcome.hidden and not outcome.safe:
            alike.setdefault((outcome.dangers, outcome.notice), []).append(outcome)
    return tuple(_finding(derived, judge, members) for members in alike.values())


def _finding(derived: Derived, judge: Judge, members: Sequence[Outcome]) -> Finding:
    first = members[0]
    words = [
        line
        for outcome in members
        for line in (*exposures(derived, outcome), *cures(derived, judge, outcome))
    ]
    others = f", or {len(members) - 1} like it" if len(members) > 1 else ""
    return Finding(
        code="fault-hidden",
        severity=Severity.CHECK,
        subject=first.fault.id,
        says=f"if {first.fault.says}{others}: {'; '.join(first.dangers)}. Noticed: {first.notice}",
        rule=_RULE,
        source=_SOLVED,
        numbers=tuple(Input("fault", outcome.fault.says, "solved") for outcome in members),
        remedies=tuple(Remedy(line) for line in dict.fromkeys(words)),
    )


def exposures(derived: Derived, outcome: Outcome) -> Iterator[str]:
    """Tests and readings that tell the fault from a sound installation."""
    if outcome.notice in (Notice.IN_FIRE, Notice.ON_RETURN):
        seen = next(deviation for deviation in outcome.deviations if deviation.seen)
        yield f"live test: state “{seen.state}” shows it, {seen.says}"
    for deviation in [item for item in outcome.deviations if not item.seen][:1]:
        yield f"state “{deviation.state}”: none expected, else {deviation.says}"
    yield from _READINGS[outcome.fault.kind](derived, outcome.fault)


def _over_wire(derived: Derived, fault: Fault) -> Iterator[str]:
    for number in fault.change.opened[:1]:
        branch = derived.network.netlist.branches.get(number)
        ohms = (1 / branch.ac).real if branch is not None else 0.0
        yield f"ohms over wire {number}, ends lifted: {ohms:.2f} expected, over limit with the break"


def _ring(_derived: Derived, fault: Fault) -> Iterator[str]:
    yield f"ring wire {' and '.join(fault.subjects)} through, ends lifted: label and terminal must agree"


def _between(derived: Derived, fault: Fault) -> Iterator[str]:
    ((a, b),) = fault.change.touching
    yield f"ohms {a} to {b}, wires lifted: {_apart(derived, a, b)} expected, 0 where they touch"


def _over_shut(_derived: Derived, fault: Fault) -> Iterator[str]:
    yield f"ohms over contact {fault.subjects[0]} in the state in which it is open: over limit expected"


def _over_open(_derived: Derived, fault: Fault) -> Iterator[str]:
    yield f"ohms over contact {fault.subjects[0]} in the state in which it is closed: under 1 expected"


def _over_winding(derived: Derived, fault: Fault) -> Iterator[str]:
    branch = derived.network.netlist.branches.get(fault.subjects[0])
    if branch is not None:
        ohms = abs(1 / branch.ac)
        yield f"ohms over {fault.subjects[0]}, its wires lifted: below {ohms:.0f}, over limit when open"


def _into_loop(_derived: Derived, fault: Fault) -> Iterator[str]:
    yield f"ohms into the loop, its wires lifted at the near end: {fault.subjects[0]} must be read through them"


def _at_supply(_derived: Derived, fault: Fault) -> Iterator[str]:
    yield f"volts at {fault.subjects[0]}, or a lamp across it: present expected"


def _by_eye(_derived: Derived, _fault: Fault) -> Iterator[str]:
    yield "look at it before leaving, and let the check list say so"


_READINGS: Mapping[FaultKind, Callable[[Derived, Fault], Iterator[str]]] = {
    FaultKind.OPEN: _over_wire,
    FaultKind.UNPLUGGED: _over_wire,
    FaultKind.SWAPPED: _ring,
    FaultKind.OTHER_THROW: _ring,
    FaultKind.TOUCHING: _between,
    FaultKind.STUCK_SHUT: _over_shut,
    FaultKind.STUCK_OPEN: _over_open,
    FaultKind.COIL_OPEN: _over_winding,
    FaultKind.LOAD_OPEN: _over_winding,
    FaultKind.RESISTOR_MOVED: _into_loop,
    FaultKind.BREAKER_OFF: _at_supply,
    FaultKind.SUPPLY_LOST: _at_supply,
    FaultKind.LEFT_SET: _by_eye,
}


def _apart(derived: Derived, a: Point, b: Point) -> str:
    """What a meter reads between two sound neighbours with their wires lifted, everything switched off."""
    lifted = tuple(item.number for point in (a, b) for item in derived.connections.landed(point))
    off = {f"{circuit.tag.lower()}-off" for circuit in derived.selection.circuits}
    ohms = Meter(settle(derived.network.changed(Change(opened=lifted)), off)).ohms(a, b)
    return "over limit" if ohms is None else f"{ohms:.0f} ohm"


def cures(derived: Derived, judge: Judge, outcome: Outcome) -> Iterator[str]:
    """A resistor put at the other end of its loop, where the solved network then shows the fault at once."""
    if not outcome.fault.change.opened:
        return
    for key, inside in derived.connections.inside.items():
        if not isinstance(inside.spec, Resistor):
            continue
        for a, b in far_ends(derived, inside):
            moved = replace(
                outcome.fault.change, moved=(*outcome.fault.change.moved, (key, 0, a), (key, 1, b))
            )
            changed = replace(outcome.fault, change=moved)
            alone = replace(outcome.fault, change=Change(moved=((key, 0, a), (key, 1, b))))
            shown = judge.outcome(changed).deviations
            if (
                len(shown) > len(judge.outcome(alone).deviations)
                and judge.outcome(changed).notice is Notice.AT_ONCE
            ):
                yield f"put {key} at {a} and {b}: then the fault shows at once"
