"""The order of work as an iCalendar file (RFC 5545): one all-day entry for each step."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, time
from typing import TYPE_CHECKING

from schedules.text import printable
from schedules.version import __version__
from schedules.work.order_of_work import day_of
from schedules.work.site_work import order_of

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.work.order_of_work import OrderOfWork, Slot

_EPSILON = 1e-9


def work_calendar(plan: Plan) -> bytes | None:
    """A plan's order of work as a calendar; None while the job has no first day."""
    start = plan.derived.job.work.start
    if start is None:
        return None
    order = order_of(plan.derived.selection, plan.derived.job)
    return calendar_bytes(order, start, plan.derived.job.job.name)


def calendar_bytes(order: OrderOfWork, start: date, title: str) -> bytes:
    """Every step at its earliest days by its likely duration, working days only, from the start.

    The same order and start give the same bytes: the time stamp is the start's own, not the clock's.
    """
    # Deferred: only this writer pays for the library.
    from icalendar import Calendar, Event  # noqa: PLC0415

    name = printable(title)
    calendar = Calendar()
    calendar.add("prodid", f"-//hoodwright//order of work {__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", name)
    for slot in order.slots:
        event = Event()
        event.add("uid", f"{slot.step.id}.{start.isoformat()}.order-of-work@hoodwright.invalid")
        event.add("dtstamp", datetime.combine(start, time(), UTC))
        first, past = _days(slot, start)
        event.add("dtstart", first)
        event.add("dtend", past)
        event.add("summary", f"{slot.step.trade}: {slot.step.work}")
        event.add("description", _description(slot, name))
        event.add("categories", [slot.step.trade])
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    text: bytes = calendar.to_ical()
    return text


def _days(slot: Slot, start: date) -> tuple[date, date]:
    """First day, and the day after the last one, as the standard wants it; part of a day takes the whole."""
    last = max(slot.early_start, math.ceil(slot.early_finish - _EPSILON) - 1)
    return day_of(start, slot.early_start), date.fromordinal(day_of(start, last).toordinal() + 1)


def _description(slot: Slot, title: str) -> str:
    step = slot.step
    lines = [
        title,
        f"waits for: {', '.join(step.needs) or 'nothing'}",
        f"takes {step.low_days:g} to {step.high_days:g} working days, likely {step.likely_days:g}",
        "can't slip" if slot.critical else f"can slip {slot.slack_days:g} working days",
    ]
    if step.hold:
        lines.append(f"hold before the next: {step.hold}")
    return "\n".join(lines)
