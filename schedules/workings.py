"""Every number of a plan that can be explained, by the thing it belongs to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.plan import Plan
    from schedules.working import Working


@dataclass(frozen=True, slots=True)
class Explained:
    """One derived number. subject: the tag of the thing that it belongs to, e.g. `W4`, `R1`, `Q1`."""

    subject: str
    working: Working


def workings(plan: Plan) -> tuple[Explained, ...]:
    """Every working of a plan: cables' lengths, raceways' sizes, openings, circuits' loads."""
    return tuple(_all(plan))


def workings_of(plan: Plan, item: str) -> tuple[Explained, ...]:
    """The workings of one thing, by its tag, or the one of this name; upper and lower case are one."""
    wanted = item.casefold().strip()
    return tuple(
        found
        for found in workings(plan)
        if wanted in (found.subject.casefold(), found.working.name.casefold())
    )


def _all(plan: Plan) -> Iterator[Explained]:
    derived = plan.derived
    for length in derived.lengths:
        if length.working is not None:
            yield Explained(length.cable, length.working)
    for raceway in derived.raceways:
        if raceway.sized is not None:
            yield Explained(raceway.raceway, raceway.sized.working)
    for entry in derived.entries:
        if entry.passage is not None:
            yield Explained(entry.cable, entry.passage.working)
    for need in derived.circuits:
        yield Explained(need.circuit.tag, need.working)
