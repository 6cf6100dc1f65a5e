"""The edits to a job that record a conductor's end as landed, or take that back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit

if TYPE_CHECKING:
    from schedules.job.records import Job


def landed(job: Job) -> frozenset[tuple[str, str]]:
    """Every end that the job records as landed: cable, and terminal as `DEVICE:TERMINAL`."""
    return frozenset((built.cable, terminal) for built in job.as_built for terminal in built.landed)


def mark_landed(job: Job, cable: str, terminal: str, initials: str, date: str) -> tuple[Edit, ...]:
    """Record one end of a cable's conductor as landed; initials and date are those of the last who marked."""
    ends = [*_landed_of(job, cable), terminal]
    return (
        Edit("as_built", cable, "landed", list(dict.fromkeys(ends))),
        Edit("as_built", cable, "initials", initials),
        Edit("as_built", cable, "date", date),
    )


def take_back(job: Job, cable: str, terminal: str) -> tuple[Edit, ...]:
    """Record one end as not landed after all. An entry that says nothing else goes."""
    ends = [item for item in _landed_of(job, cable) if item != terminal]
    built = next((item for item in job.as_built if item.cable == cable), None)
    if built is not None and not ends and built.length is None and built.note is None:
        return (Edit("as_built", cable, "", None),)
    return (Edit("as_built", cable, "landed", ends),)


def _landed_of(job: Job, cable: str) -> tuple[str, ...]:
    return next((item.landed for item in job.as_built if item.cable == cable), ())
