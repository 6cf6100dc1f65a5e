"""What a class is asked about one plan: ends to fill in, a drawing to label, slips and faults to find; by a seed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.behaviour.diagnose import Finder
from schedules.behaviour.fault_list import single_faults
from schedules.behaviour.planted import seek
from schedules.rows.terminations import conductors, terminations
from schedules.teaching.chance import Chance

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.behaviour.diagnose import Found
    from schedules.behaviour.fault_list import Fault, FaultKind
    from schedules.behaviour.foretelling import Value
    from schedules.behaviour.probes import Probe
    from schedules.plan import Plan
    from schedules.rows.terminations import ConductorRow, Termination

SLIPS = 3
"""Rows of a list of conductors that are made wrong."""

_FEWEST_ENDS = 4
_MOST_READINGS = 8


@dataclass(frozen=True, slots=True)
class Slip:
    """A row made wrong on purpose. row: as it should be; shown: as it is printed; says: what is wrong with it."""

    row: ConductorRow
    shown: ConductorRow
    says: str


@dataclass(frozen=True, slots=True)
class Reading:
    """One thing seen or measured. left: how many single faults, or none at all, explain it and all before it."""

    probe: Probe
    value: Value
    left: int


@dataclass(frozen=True, slots=True)
class Sought:
    """A fault to be found from what was seen and measured. alike: every fault that explains all of it, itself too."""

    fault: Fault
    readings: tuple[Reading, ...]
    alike: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Exercise:
    """One worksheet. ends_at, drawing_at: enclosures; ends: what lands in the first; rows: a list with slips in it."""

    seed: int
    ends_at: str
    ends: tuple[Termination, ...]
    drawing_at: str
    rows: tuple[ConductorRow, ...]
    slips: tuple[Slip, ...]
    sought: tuple[Sought, ...]


def set_exercise(plan: Plan, seed: int, *, faults: int = 3, enclosure: str | None = None) -> Exercise:
    """Set a worksheet: the same seed gives the same one.

    enclosure: whose ends are asked, else one is drawn. Raises LookupError for an enclosure without conductors, or a
    plan without any.
    """
    chance = Chance(seed)
    boxes = _boxes(plan)
    if enclosure is not None and enclosure not in boxes:
        raise LookupError(
            f"no conductor lands in {enclosure} with these choices; there are: {', '.join(boxes)}"
        )
    if not boxes:
        raise LookupError("no conductor lands anywhere with these choices")
    worth = [tag for tag, count in boxes.items() if count >= _FEWEST_ENDS] or list(boxes)
    drawn = chance.some(worth, 2)
    ends_at = enclosure or drawn[0]
    drawing_at = next((tag for tag in reversed(drawn) if tag != ends_at), ends_at)
    rows = conductors(plan).rows
    slips = tuple(_slips(rows, chance))
    shown = {slip.row.number: slip.shown for slip in slips}
    return Exercise(
        seed=seed,
        ends_at=ends_at,
        ends=tuple(row for row in terminations(plan).rows if row.enclosure == ends_at),
        drawing_at=drawing_at,
        rows=tuple(shown.get(row.number, row) for row in rows),
        slips=slips,
        sought=tuple(_sought(plan, chance, faults)) if faults else (),
    )


def _boxes(plan: Plan) -> dict[str, int]:
    """Enclosures in which conductors land, and how many ends each has."""
    counts: dict[str, int] = {}
    for row in terminations(plan).rows:
        counts[row.enclosure] = counts.get(row.enclosure, 0) + 1
    return counts


def _slips(rows: Sequence[ConductorRow], chance: Chance) -> Iterator[Slip]:
    """Pairs of far ends exchanged within a cable, and colours taken from another core of it: each row once."""
    left = {row.number for row in rows}
    for row in chance.some(rows, len(rows)):
        if len(left) <= len(rows) - SLIPS:
            return
        others = [
            other
            for other in rows
            if other.cable == row.cable
            and other.number in left - {row.number}
            and (other.colour, other.mark) != (row.colour, row.mark)
        ]
        if row.number not in left or not others:
            continue
        other = chance.one(others)
        left.discard(row.number)
        if chance.below(2):
            shown = replace(row, to_terminal=other.to_terminal, to_enclosure=other.to_enclosure)
            yield Slip(
                row,
                shown,
                f"to {row.to_enclosure} {row.to_terminal}, not {other.to_enclosure} {other.to_terminal}",
            )
        else:
            shown = replace(row, colour=other.colour, mark=other.mark)
            yield Slip(row, shown, f"{row.colour}, not {other.colour}")


def _sought(plan: Plan, chance: Chance, count: int) -> Iterator[Sought]:
    """Faults of different kinds that show in what can be seen or measured."""
    finder = Finder(plan.derived)
    kinds: set[FaultKind] = set()
    faults = single_faults(plan.derived)
    for fault in chance.some(faults, len(faults)):
        if len(kinds) == count:
            return
        if fault.kind in kinds:
            continue
        found = seek(finder, fault)
        suspects = finder.suspects(found)
        if len(found) <= _MOST_READINGS and all(suspect.fault is not None for suspect in suspects):
            kinds.add(fault.kind)
            yield Sought(fault, tuple(_readings(finder, found)), tuple(suspect.says for suspect in suspects))


def _readings(finder: Finder, found: Sequence[Found]) -> Iterator[Reading]:
    for count, item in enumerate(found, start=1):
        probe = finder.probe(item.probe)
        if probe is not None:
            yield Reading(probe, item.value, len(finder.suspects(found[:count])))
