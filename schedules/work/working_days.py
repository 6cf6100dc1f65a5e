"""Working days, Monday to Friday. Public holidays are not known: they differ by place."""

from __future__ import annotations

from datetime import date, timedelta

_WEEKEND = 5
_DAY = timedelta(days=1)


def first_working_day(day: date) -> date:
    """This day, or the next one that is no Saturday or Sunday."""
    while day.weekday() >= _WEEKEND:
        day += _DAY
    return day


def working_days_until(start: date, day: date) -> int:
    """How many working days after the first one from `start` a day lies, the next working day for one that is none.

    0 where it lies no later than that.
    """
    here, there, count = first_working_day(start), first_working_day(day), 0
    while here < there:
        here = first_working_day(here + _DAY)
        count += 1
    return count


def working_day_after(day: date, count: int) -> date:
    """The count-th working day after a day; for 0 the day itself. Raises ValueError for a negative count."""
    if count < 0:
        raise ValueError(f"working days are 0 or more, not {count}")
    for _ in range(count):
        day = first_working_day(day + _DAY)
    return day
