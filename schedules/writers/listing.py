"""Whole listings for a terminal: what a person reads from the first caution to the last."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any

from schedules.behaviour.fault_list import single_faults
from schedules.cautions import CAUTION
from schedules.findings import Severity
from schedules.quantities.lengths import format_length
from schedules.rows.cables import cables
from schedules.site.reach import Verdict
from schedules.site.routes import Unmeasured
from schedules.text import for_terminal
from schedules.writers.text import finding_lines, schedule_lines, working_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from schedules.site.reach import CableLength
    from schedules.workings import Explained

_COUNTED = {
    Severity.STOP: ("1 finding stops the work", "{} findings stop the work"),
    Severity.FIX: ("1 is to be put right before cover", "{} are to be put right before cover"),
    Severity.CHECK: ("1 is for a licensed person to decide", "{} are for a licensed person to decide"),
    Severity.NOTE: ("1 is for information", "{} are for information"),
}


def check_lines(plan: Plan, width: int) -> Iterator[str]:
    """List what a plan's checks found, between the cautions."""
    yield from _opening(plan, width)
    yield from _wrapped(verdict(plan), width)
    if plan.findings:
        yield ""
        yield from finding_lines(plan.findings, width)
    yield ""
    yield from _wrapped(_untried(plan), width)
    yield from _closing(width)


def _untried(plan: Plan) -> str:
    """Say what a check leaves out: to try every single fault takes many times as long as all else."""
    count = len(single_faults(plan.derived))
    return (
        f"Not tried here: {count} single faults (a wire open, two swapped, a contact welded). “hoodwright faults JOB” "
        "tries each; the package lists those that endanger somebody unnoticed."
    )


def show_lines(plan: Plan, schedules: Iterable[Schedule[Any]], width: int) -> Iterator[str]:
    """List schedules, between the cautions, under the word whether the plan is sound."""
    yield from _opening(plan, width)
    yield from _wrapped(verdict(plan), width)
    for schedule in schedules:
        yield ""
        yield ""
        yield from schedule_lines(schedule, width)
    yield from _closing(width)


def reach_lines(plan: Plan, length: CableLength, width: int, sketch: tuple[str, ...] = ()) -> Iterator[str]:
    """Answer whether one cable reaches: one sentence, a sketch, the cures, then how the number came about."""
    yield from _wrapped(reach_sentence(length), width)
    if sketch:
        yield ""
        yield from sketch
    for finding in plan.findings:
        if finding.subject == length.cable and finding.code in ("cable-short", "cable-tight", "not-measured"):
            yield ""
            yield from finding_lines((finding,), width)
    if length.working is not None:
        yield ""
        yield from working_lines(length.working, width)


def every_reach_lines(plan: Plan, width: int) -> Iterator[str]:
    """Answer whether every cable reaches: one sentence, then the table of cables."""
    yield from _wrapped(_every_reach(plan.derived.lengths), width)
    yield ""
    yield from schedule_lines(cables(plan), width)


def explained_lines(items: Iterable[Explained], width: int) -> Iterator[str]:
    """Lay out workings, one under the other."""
    for place, item in enumerate(items):
        if place:
            yield ""
        yield from working_lines(item.working, width)


def explainable_lines(items: Iterable[Explained], width: int) -> Iterator[str]:
    """List what can be explained: the thing's tag, and each of its numbers with its result."""
    for item in items:
        yield from _wrapped(f"{item.subject:6} {item.working.name} = {item.working.result}", width, " " * 7)


def verdict(plan: Plan) -> str:
    """Say in one sentence whether the plan is sound, and how many findings there are."""
    counts = {
        severity: sum(1 for item in plan.findings if item.severity is severity) for severity in Severity
    }
    words = ", ".join(
        _COUNTED[severity][count > 1].format(count) + _answered(plan, severity)
        for severity, count in counts.items()
        if count
    )
    if plan.sound:
        return f"SOUND: nothing stops the work or is to be put right before cover{f'; {words}' if words else ''}."
    return f"NOT SOUND: {words}."


def _answered(plan: Plan, severity: Severity) -> str:
    """How many findings of one severity somebody answers for: they count as open all the same."""
    count = sum(1 for item in plan.findings if item.severity is severity and item.acknowledged)
    return f" ({count} acknowledged)" if count else ""


def reach_sentence(length: CableLength) -> str:
    """Say in one sentence whether a cable reaches, or what to cut."""
    if isinstance(length.route, Unmeasured):
        return f"{length.cable} is not known: {length.route.in_words()} is missing."
    if length.cut_in is not None:
        return f"{length.cable} is cut on site to {format_length(length.cut_in, rounding='up')}."
    margin, worst = length.margin_in or 0.0, length.worst_in or 0.0
    spare, least = format_length(margin, rounding="down"), format_length(worst, rounding="down")
    if length.verdict is Verdict.SHORT:
        return f"{length.cable} is SHORT by {format_length(-margin, rounding='up')}."
    if length.verdict is Verdict.TIGHT:
        return f"{length.cable} is TIGHT: {spare} to spare, but {least} if every measurement is off."
    return f"{length.cable} reaches: {spare} to spare, {least} if every measurement is off."


def _every_reach(lengths: tuple[CableLength, ...]) -> str:
    factory = [item for item in lengths if item.verdict is not Verdict.CUT_ON_SITE]
    parts = [
        f"{word} {', '.join(tags)}"
        for word, verdict in (
            ("short:", Verdict.SHORT),
            ("tight:", Verdict.TIGHT),
            ("not measured:", Verdict.UNKNOWN),
        )
        if (tags := [item.cable for item in factory if item.verdict is verdict])
    ]
    if parts:
        return f"Not every cable reaches: {'; '.join(parts)}."
    return (
        "Every factory cable reaches, with every measurement at its worst."
        if factory
        else "All cables are cut on site."
    )


def _opening(plan: Plan, width: int) -> Iterator[str]:
    derived = plan.derived
    title, sheet = derived.job.job, derived.sheet.sheet
    yield from textwrap.wrap(CAUTION, width)
    yield ""
    yield from _wrapped(f"Job: {title.name}, revision {title.revision}, {title.date}", width)
    yield from _wrapped(f"Sheet: {sheet.name}, revision {sheet.revision}", width)
    yield from _wrapped(f"Code: NEC {title.code}", width)
    for caution in sheet.cautions:
        yield from _wrapped(f"Maker's caution: {caution}", width)
    yield ""


def _closing(width: int) -> Iterator[str]:
    yield ""
    yield from textwrap.wrap(CAUTION, width)


def _wrapped(text: str, width: int, hanging: str = "  ") -> list[str]:
    return textwrap.wrap(for_terminal(text), width, subsequent_indent=hanging)
