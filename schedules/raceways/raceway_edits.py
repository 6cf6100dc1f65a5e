"""The edits to a job that put a cable into a raceway, move it to another one, or take it out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit
from schedules.job.job_tables import TABLES

if TYPE_CHECKING:
    from schedules.job.records import Job

NEW = "new "
"""Begins the name of a choice that makes a raceway of a kind: `new EMT`."""
NONE = "none"


def raceway_of(job: Job, cable: str) -> str | None:
    """The raceway that a cable is in, by the job's word."""
    return next((item.tag for item in job.raceway if cable in item.cables), None)


def put_into(job: Job, cable: str, choice: str) -> tuple[Edit, ...]:
    """Put a cable into a raceway. choice: a raceway's tag, `new` and a kind, or `none`.

    It is in no other one afterwards; a raceway that is left empty goes.
    """
    edits: list[Edit] = []
    for raceway in job.raceway:
        if cable in raceway.cables and raceway.tag != choice:
            left = [item for item in raceway.cables if item != cable]
            field, value = ("cables", left) if left else ("", None)
            edits.append(Edit("raceway", raceway.tag, field, value))
    if choice.startswith(NEW):
        tag = free_tag(job, "raceway")
        edits += [
            Edit("raceway", tag, "kind", choice.removeprefix(NEW)),
            Edit("raceway", tag, "cables", [cable]),
        ]
    elif choice != NONE and cable not in _cables_in(job, choice):
        edits.append(Edit("raceway", choice, "cables", [*_cables_in(job, choice), cable]))
    return tuple(edits)


def free_tag(job: Job, table: str) -> str:
    """The first tag of a table's letter and a number that no entry of the job has."""
    entries = {name: getattr(job, name) for name in TABLES if TABLES[name].letter}
    taken = {entry.tag for several in entries.values() for entry in several}
    letter = TABLES[table].letter
    return next(tag for tag in (f"{letter}{number}" for number in range(1, 10_000)) if tag not in taken)


def _cables_in(job: Job, tag: str) -> tuple[str, ...]:
    return next((item.cables for item in job.raceway if item.tag == tag), ())
