"""A job's terminations as work goes on: which ends are landed, and one of them told large."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.job.landing import landed
from schedules.rows.schedule import Column
from schedules.rows.terminations import Termination, terminations

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from wizard.session import Snapshot

DONE = "done"


@dataclass(frozen=True, slots=True)
class Ends:
    """The conductor ends of one plan, and which of them the job records as landed."""

    schedule: Schedule[Termination]
    done: frozenset[tuple[str, str]]

    def is_done(self, row: Termination) -> bool:
        """Whether this end is landed."""
        return (row.cable, row.terminal) in self.done

    @property
    def enclosures(self) -> tuple[tuple[str, str], ...]:
        """Tag and name of every enclosure with conductor ends, in the plan's order."""
        return tuple(dict.fromkeys((row.enclosure, row.enclosure_name) for row in self.schedule.rows))

    def at(self, enclosure: str) -> Schedule[Termination]:
        """One enclosure's ends, with a column that tells which are landed."""
        mark: Column[Termination] = Column(DONE, "Done", lambda row: DONE if self.is_done(row) else "")
        here = self.schedule.at(enclosure)
        return replace(here, columns=(*here.columns[:2], mark, *here.columns[2:]), group=lambda _row: "")

    def count(self, enclosure: str) -> tuple[int, int]:
        """How many ends of an enclosure are landed, of how many."""
        rows = self.schedule.at(enclosure).rows
        return sum(map(self.is_done, rows)), len(rows)


def ends_of(snapshot: Snapshot, plan: Plan) -> Ends:
    """The ends of a job as it stands."""
    return Ends(terminations(plan), landed(snapshot.draft.job))


def told(schedule: Schedule[Termination], row: Termination) -> Iterator[tuple[str, str]]:
    """What is known of one end, head and value, without what has no value."""
    for column in schedule.columns:
        value = column.cell(row)
        if value and column.key != DONE:
            yield column.head, value
