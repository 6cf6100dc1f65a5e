"""Schedules and findings as plain text for a terminal of any width."""

from __future__ import annotations

import itertools
import textwrap
from typing import TYPE_CHECKING, TypeVar

from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from schedules.findings import Finding
    from schedules.rows.schedule import Column, Schedule
    from schedules.working import Working

RowT = TypeVar("RowT")
GAP = "  "
LEAST_WIDTH = 40


def schedule_lines(schedule: Schedule[RowT], width: int) -> Iterator[str]:
    """Lay a schedule out in at most `width` columns: the less important columns give way, then cells wrap."""
    yield for_terminal(schedule.title)
    if not schedule.rows:
        yield "  none"
        return
    cells = [[for_terminal(cell) for cell in schedule.cells(row)] for row in schedule.rows]
    shown = _fitting(schedule.columns, cells, max(width, LEAST_WIDTH))
    widths = _widths(schedule.columns, cells, shown, max(width, LEAST_WIDTH))
    heads = [schedule.columns[place].head for place in shown]
    right = [schedule.columns[place].right for place in shown]
    for group, rows in itertools.groupby(
        zip(schedule.rows, cells, strict=True), lambda pair: schedule.group(pair[0])
    ):
        yield ""
        if group:
            yield for_terminal(group)
        yield from _line(heads, widths, right)
        yield GAP.join("-" * wide for wide in widths)
        for _, row in rows:
            yield from _line([row[place] for place in shown], widths, right)
    if schedule.note:
        yield ""
        yield from textwrap.wrap(for_terminal(schedule.note), width)


def finding_lines(findings: Iterable[Finding], width: int) -> Iterator[str]:
    """Lay findings out: severity, subject, sentence, numbers, rule with source, remedies."""
    for finding in findings:
        head = f"{finding.severity.upper():5} {finding.subject}: {finding.says}"
        yield from _wrapped(head, width, "")
        if finding.numbers:
            yield from _wrapped(
                "; ".join(f"{item.name} {item.value}" for item in finding.numbers), width, "      "
            )
        yield from _wrapped(f"Rule: {finding.rule} [{finding.source}; {finding.code}]", width, "      ")
        for remedy in finding.remedies:
            proved = ", planned again and cured" if remedy.edits else ""
            yield from _wrapped(f"Remedy: {remedy.words}{proved}", width, "      ")


def working_lines(working: Working, width: int, depth: int = 0) -> Iterator[str]:
    """Lay a working out: what it is, the rule, each input with its origin, the result, the source."""
    indent = "  " * depth
    yield from _wrapped(f"{working.name} = {working.result}", width, indent)
    yield from _wrapped(f"rule: {working.formula}", width, indent + "  ")
    for item in working.inputs:
        origin = f" ({item.origin})" if item.origin else ""
        yield from _wrapped(f"{item.name}: {item.value}{origin}", width, indent + "  ")
    yield from _wrapped(f"source: {working.source}", width, indent + "  ")
    if working.note:
        yield from _wrapped(f"note: {working.note}", width, indent + "  ")
    for step in working.steps:
        yield from working_lines(step, width, depth + 1)


def _wrapped(text: str, width: int, indent: str) -> list[str]:
    return textwrap.wrap(
        for_terminal(text), max(width, LEAST_WIDTH), initial_indent=indent, subsequent_indent=indent + "  "
    )


def _fitting(columns: Sequence[Column[RowT]], cells: list[list[str]], width: int) -> list[int]:
    """Leave out the columns of the highest ranks until the rest fits; rank 1 stays whatever happens."""
    shown = list(range(len(columns)))
    while sum(_natural(columns, cells, place) for place in shown) + len(GAP) * (len(shown) - 1) > width:
        worst = max(columns[place].rank for place in shown)
        if worst == 1:
            break
        shown.remove(max(place for place in shown if columns[place].rank == worst))
    return shown


def _natural(columns: Sequence[Column[RowT]], cells: list[list[str]], place: int) -> int:
    return max(len(columns[place].head), *(len(row[place]) for row in cells))


def _widths(
    columns: Sequence[Column[RowT]], cells: list[list[str]], shown: list[int], width: int
) -> list[int]:
    """Give each column its natural width; what is too much is taken from the widest ones, whose cells wrap."""
    widths = [_natural(columns, cells, place) for place in shown]
    least = [min(len(columns[place].head), 6) for place in shown]
    while sum(widths) + len(GAP) * (len(widths) - 1) > width:
        widest = max(range(len(widths)), key=lambda n: widths[n] - least[n])
        if widths[widest] <= least[widest]:
            break
        widths[widest] -= 1
    return widths


def _line(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> Iterator[str]:
    wrapped = [textwrap.wrap(cell, wide) or [""] for cell, wide in zip(cells, widths, strict=True)]
    for parts in itertools.zip_longest(*wrapped, fillvalue=""):
        aligned = (
            part.rjust(wide) if is_right else part.ljust(wide)
            for part, wide, is_right in zip(parts, widths, right, strict=True)
        )
        yield GAP.join(aligned).rstrip()
