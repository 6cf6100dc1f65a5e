"""Do the choices stand together, and does the job speak only of what its sheet has?"""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from schedules.checks.choice_remedies import decide
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.derived import Derived
    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet
    from schedules.site.routes import Answer

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_choices(derived: Derived) -> Iterator[Finding]:
    """Report choices that exclude or miss each other, undecided questions, and names that the sheet doesn't have."""
    groups = {group.id: group for group in derived.sheet.group}
    for conflict in derived.conflicts:
        yield Finding(
            code="choice-open" if conflict.undecided else "choice-conflict",
            # Of what is not decided nothing can be landed: what is missing with it stops the work as well.
            severity=Severity.STOP,
            subject=conflict.subject,
            says=conflict.reason,
            rule="the options bought fit together as the equipment sheet says",
            source=_SHEET,
            answer=("", None, "choices"),
            remedies=(decide(groups[conflict.subject]),) if conflict.undecided else (),
        )
    yield from _unknown_names(derived)


def _unknown_names(derived: Derived) -> Iterator[Finding]:
    sheet, job = derived.sheet, derived.job
    choices = {choice.id for choice in sheet.choices}
    for name in job.choices:
        if name not in choices:
            yield _unknown(
                name, choices, ("", None, "choices"), [item for item in job.choices if item != name]
            )
    cables = {cable.tag for cable in sheet.cable}
    for raceway in job.raceway:
        for tag in raceway.cables:
            if tag not in cables:
                left = [item for item in raceway.cables if item != tag]
                yield _unknown(tag, cables, ("raceway", raceway.tag, "cables"), left)
    for used, known, answer in _single_names(sheet, job):
        if used is not None and used not in known:
            yield _unknown(used, known, answer)


def _single_names(sheet: Sheet, job: Job) -> Iterator[tuple[str | None, set[str], Answer]]:
    """Each name that one answer of the job gives, with the names that the sheet has for it."""
    cables = {cable.tag: cable for cable in sheet.cable}
    openings = {opening.tag for opening in sheet.opening}
    circuits = {item.tag for item in sheet.circuit}
    for run in job.run:
        yield run.cable, set(cables), ("run", run.cable, "cable")
        yield run.from_opening, openings, ("run", run.cable, "from_opening")
        yield run.to_opening, openings, ("run", run.cable, "to_opening")
        parts = {item.part for item in cables[run.cable].extension} if run.cable in cables else set()
        yield run.extension, parts, ("run", run.cable, "extension")
    for place in job.place:
        yield place.enclosure, {item.tag for item in sheet.enclosure}, ("place", place.enclosure, "enclosure")
    for change in job.circuit:
        yield change.circuit, circuits, ("circuit", change.circuit, "circuit")
        yield change.downstream_of, circuits, ("circuit", change.circuit, "downstream_of")
    for built in job.as_built:
        yield built.cable, set(cables), ("as_built", built.cable, "cable")


def _unknown(name: str, known: Iterable[str], answer: Answer, without: list[str] | None = None) -> Finding:
    close = difflib.get_close_matches(name, sorted(known), n=1)
    hint = f"; did you mean {close[0]}?" if close else ""
    table, row, field = answer
    # A row whose own name is unknown is left to a person: only single values are taken out.
    removable = without is not None or field not in ("cable", "enclosure", "circuit")
    remedies = (Remedy(f"take {name} out", (Edit(table, row, field, without),)),) if removable else ()
    return Finding(
        code="name-unknown",
        severity=Severity.FIX,
        subject=name,
        says=f"the job names {name}, which the equipment sheet doesn't have{hint}",
        rule="a job speaks of the choices, cables, openings and circuits of its equipment sheet",
        source=_SHEET,
        answer=answer,
        remedies=remedies,
    )
