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


def working_day_after(day: date, count: int) -> date:
    """The count-th working day after a day; for 0 the day itself. Raises ValueError for a negative count."""
    if count < 0:
        raise ValueError(f"working days are 0 or more, not {count}")
    for _ in range(count):
        day = first_working_day(day + _DAY)
    return day
