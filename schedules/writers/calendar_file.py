"""The order of work as an iCalendar file (RFC 5545): one all-day entry for each step."""

from __future__ import annotations

import hashlib
import math
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from schedules.text import printable
from schedules.version import __version__
from schedules.work.order_of_work import day_of
from schedules.work.site_work import COUNTING, order_of

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.work.order_of_work import OrderOfWork, Slot

_EPSILON = 1e-9
_JOB_DIGITS = 16


def work_calendar(plan: Plan) -> bytes | None:
    """A plan's order of work as a calendar; None while the job has no first day."""
    start = plan.derived.job.work.start
    if start is None:
        return None
    job = plan.derived.job
    return calendar_bytes(order_of(plan.derived.selection, job), start, job.job.name, job.work.delivered)


def calendar_bytes(order: OrderOfWork, start: date, title: str, delivered: date | None = None) -> bytes:
    """Every step at its earliest days by its likely duration, working days only, from the start.

    delivered: the day on which a delivery that is known comes, and is counted.
    The same order and start give the same bytes: the time stamp is the start's own, not the clock's. An entry's
    identity is of its job and step, so that a moved start moves the entries and two kitchens never share one.
    """
    # Deferred: only this writer pays for the library.
    from icalendar import Calendar, Event  # noqa: PLC0415

    name = printable(title)
    whose = hashlib.sha256(name.encode()).hexdigest()[:_JOB_DIGITS]
    calendar = Calendar()
    calendar.add("prodid", f"-//hoodwright//order of work {__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", name)
    for slot in order.slots:
        event = Event()
        event.add("uid", f"{slot.step.id}.{whose}.order-of-work@hoodwright.invalid")
        event.add("dtstamp", datetime.combine(start, time(), UTC))
        counted = delivered if slot.step.id == COUNTING else None
        first, past = _days(slot, start) if counted is None else (counted, counted + timedelta(days=1))
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
