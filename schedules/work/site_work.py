"""One kitchen's order of work, and what must be in its delivery."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.work.delivery import Deadlines, Expected, deadlines, receiving_list
from schedules.work.order_of_work import (
    Change,
    OrderOfWork,
    change,
    day_of,
    plan_work,
    usual_steps,
    with_durations,
)
from schedules.work.working_days import working_days_until

if TYPE_CHECKING:
    from datetime import date

    from schedules.connections.options import Selection
    from schedules.job.records import Job
    from schedules.work.order_of_work import Slot

_SECONDS_PER_DAY = 86_400
COUNTING = "receive"
"""The step that counts and photographs the delivery."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """What must arrive for the options bought; until when damage is reported, None while no day is given."""

    expected: tuple[Expected, ...]
    deadlines: Deadlines | None


@dataclass(frozen=True, slots=True)
class OptionChange:
    """One option that brings work: its title, whether it was bought, what it changes."""

    title: str
    bought: bool
    change: Change


def order_of(selection: Selection, job: Job) -> OrderOfWork:
    """The order of work with what the options bring, this site's own durations, and the delivery's day if known.

    A delivery of a known day is counted on that day, whatever else is ready. A duration for a step that isn't there,
    or one that falls, is left out here and told as a finding.
    """
    start, delivered = job.work.start, job.work.delivered
    steps = usual_steps(brought(selection))
    if delivered is not None:
        steps = tuple(replace(step, needs=()) if step.id == COUNTING else step for step in steps)
    held = (
        {} if start is None or delivered is None else {COUNTING: float(working_days_until(start, delivered))}
    )
    known = {step.id for step in steps}
    own = {
        item.step: (item.low / _SECONDS_PER_DAY, item.likely / _SECONDS_PER_DAY, item.high / _SECONDS_PER_DAY)
        for item in job.step
        if item.step in known and item.low <= item.likely <= item.high
    }
    return plan_work(with_durations(steps, own), not_before=held)


def first_day(slot: Slot, job: Job) -> date | None:
    """The day on which a step can begin, None while the job has no first day. A delivery is counted as it comes."""
    if slot.step.id == COUNTING and job.work.delivered is not None:
        return job.work.delivered
    return None if job.work.start is None else day_of(job.work.start, slot.early_start)


def brought(selection: Selection) -> frozenset[str]:
    """What the options bring that some trade must do."""
    return frozenset(
        what for choice in selection.sheet.choices if choice.id in selection.choices for what in choice.brings
    )


def option_changes(selection: Selection) -> tuple[OptionChange, ...]:
    """What each option that brings work changes in it: with the option against without it, the others as bought."""
    have = brought(selection)
    return tuple(
        OptionChange(choice.title, choice.id in selection.choices, _difference(have, choice.brings))
        for choice in selection.sheet.choices
        if choice.brings
    )


def _difference(have: frozenset[str], brings: tuple[str, ...]) -> Change:
    without, with_ = have - set(brings), have | set(brings)
    return change(plan_work(usual_steps(without)), plan_work(usual_steps(with_)))


def delivery_of(selection: Selection, job: Job) -> Delivery:
    """What must arrive, a cable's extension only where the job orders it."""
    extensions = frozenset(item.part for cable in selection.sheet.cable for item in cable.extension)
    ordered = frozenset(run.extension for run in job.run if run.extension is not None)
    expected = receiving_list(selection.parts, ordered, extensions)
    return Delivery(expected, None if job.work.delivered is None else deadlines(job.work.delivered))
