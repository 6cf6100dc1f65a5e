"""The delivery to tick off, and the order of work by trade."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule
from schedules.work.delivery import BEFORE_SIGNING, DAMAGE_NOTE, PHOTOGRAPHS
from schedules.work.site_work import delivery_of, first_day, option_changes, order_of

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.plan import Plan
    from schedules.work.delivery import Expected
    from schedules.work.order_of_work import Slot
    from schedules.work.site_work import OptionChange


@dataclass(frozen=True, slots=True)
class PartRow:
    """One thing that must be in the delivery, to be ticked off."""

    carton: str
    part: str
    name: str
    quantity: int


@dataclass(frozen=True, slots=True)
class WorkRow:
    """One step. start, finish, slack: working days from the start [d]; low, likely, high: its duration [d].

    begins: the day on which it can begin, empty where the job has no first day.
    """

    step: str
    trade: str
    work: str
    waits_for: str
    begins: str
    start_d: float
    finish_d: float
    slack_d: float
    low_d: float
    likely_d: float
    high_d: float
    hold: str
    before_cover: bool
    critical: bool


@dataclass(frozen=True, slots=True)
class OptionRow:
    """One option that brings work: the steps that it adds, the days that the whole grows by [d]."""

    option: str
    bought: bool
    adds: str
    low_d: float
    likely_d: float
    high_d: float
    critical: str


def receiving(plan: Plan) -> Schedule[PartRow]:
    """What must arrive for the options bought, by carton."""
    delivery = delivery_of(plan.derived.selection, plan.derived.job)
    limits = "" if delivery.deadlines is None else f" Concealed damage: {delivery.deadlines.working.result}."
    return Schedule(
        id="receiving",
        title="Receiving list",
        columns=(
            Column("tick", "Seen", lambda _row: "[ ]"),
            Column("quantity", "Pieces", lambda row: str(row.quantity), right=True),
            Column("name", "What", lambda row: row.name),
            Column("part", "Part", lambda row: row.part, rank=2),
        ),
        rows=tuple(_part(item) for item in delivery.expected),
        group=lambda row: row.carton,
        note=(
            f"{' '.join(BEFORE_SIGNING)} If anything is wrong, write on both copies: {DAMAGE_NOTE}.{limits} "
            f"Photograph {'; '.join(PHOTOGRAPHS)}."
        ),
    )


def work(plan: Plan) -> Schedule[WorkRow]:
    """One row per step, in the order in which they can start."""
    order = order_of(plan.derived.selection, plan.derived.job)
    return Schedule(
        id="work",
        title="Order of work",
        columns=(
            Column("trade", "Trade", lambda row: row.trade),
            Column("work", "Does", lambda row: row.work),
            Column("start", "Day", lambda row: row.begins or f"{row.start_d:g}", right=True),
            Column("days", "Days", lambda row: f"{row.low_d:g}–{row.high_d:g}", right=True),
            Column(
                "slack", "Slack", lambda row: DASH if row.critical else f"{row.slack_d:g}", rank=2, right=True
            ),
            Column("hold", "Hold before the next", lambda row: row.hold or DASH),
            Column("needs", "Waits for", lambda row: row.waits_for or DASH),
            Column("cover", "Before cover", lambda row: "yes" if row.before_cover else "", rank=2),
        ),
        rows=tuple(_step(slot, plan.derived.job) for slot in order.slots),
        note=f"{order.working.result}, common practice. Slack {DASH}: the step can't slip.",
    )


def options(plan: Plan) -> Schedule[OptionRow]:
    """What each option adds to the order of work, against the job without it."""
    return Schedule(
        id="work-options",
        title="What each option adds to the work",
        columns=(
            Column("option", "Option", lambda row: row.option),
            Column("bought", "Bought", lambda row: "yes" if row.bought else "no"),
            Column("adds", "Adds", lambda row: row.adds),
            Column("days", "Days more", lambda row: f"{row.low_d:g}–{row.high_d:g}", right=True),
            Column("critical", "Can't slip then", lambda row: row.critical or DASH, rank=2),
        ),
        rows=tuple(_option(item) for item in option_changes(plan.derived.selection)),
        note="By the trade's durations. A step beside the longest chain adds no day.",
    )


def _option(item: OptionChange) -> OptionRow:
    return OptionRow(
        option=item.title,
        bought=item.bought,
        adds=", ".join(item.change.added),
        low_d=item.change.low_days,
        likely_d=item.change.likely_days,
        high_d=item.change.high_days,
        critical=", ".join(item.change.newly_critical),
    )


def _part(item: Expected) -> PartRow:
    return PartRow(item.carton, item.part, item.name, item.quantity)


def _step(slot: Slot, job: Job) -> WorkRow:
    step, begins = slot.step, first_day(slot, job)
    return WorkRow(
        step=step.id,
        trade=step.trade,
        work=step.work,
        waits_for=", ".join(step.needs),
        begins="" if begins is None else begins.isoformat(),
        start_d=slot.early_start,
        finish_d=slot.early_finish,
        slack_d=slot.slack_days,
        low_d=step.low_days,
        likely_d=step.likely_days,
        high_d=step.high_days,
        hold=step.hold,
        before_cover=step.before_cover,
        critical=slot.critical,
    )
