"""Schedules and findings as plain text for a terminal of any width."""

from __future__ import annotations

import itertools
import textwrap
from typing import TYPE_CHECKING, TypeVar

from schedules.text import for_terminal
from schedules.writers.table_layout import LEAST_WIDTH, TableLayout, lay_out

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.findings import Finding
    from schedules.rows.schedule import Schedule
    from schedules.working import Working

RowT = TypeVar("RowT")


def schedule_lines(schedule: Schedule[RowT], width: int) -> Iterator[str]:
    """Lay a schedule out in at most `width` columns, 40 at least.

    The less important columns give way, then cells wrap; a table that is too wide even so is listed row by row.
    """
    yield for_terminal(schedule.title)
    if not schedule.rows:
        yield "  none"
        return
    layout = lay_out(schedule, width)
    if len(layout.rule) > max(width, LEAST_WIDTH):
        yield from _row_by_row(schedule, width)
    else:
        yield from _as_table(schedule, layout)
    if schedule.note:
        yield ""
        yield from textwrap.wrap(for_terminal(schedule.note), width)


def _as_table(schedule: Schedule[RowT], layout: TableLayout) -> Iterator[str]:
    for group, rows in itertools.groupby(
        zip(schedule.rows, layout.rows, strict=True), lambda pair: schedule.group(pair[0])
    ):
        yield ""
        if group:
            yield for_terminal(group)
        yield from layout.head
        yield layout.rule
        for _, lines in rows:
            yield from lines


def _row_by_row(schedule: Schedule[RowT], width: int) -> Iterator[str]:
    """Give each row a paragraph: its first cell, then every other one after its column's head."""
    for group, rows in itertools.groupby(schedule.rows, schedule.group):
        if group:
            yield ""
            yield for_terminal(group)
        for row in rows:
            first, *others = zip(schedule.columns, schedule.cells(row), strict=True)
            yield ""
            yield from _wrapped(first[1], width, "")
            for column, cell in others:
                yield from _wrapped(f"{column.head}: {cell}", width, "  ")


def finding_lines(findings: Iterable[Finding], width: int) -> Iterator[str]:
    """Lay findings out: severity, subject, sentence, numbers, rule with source, remedies, who answers for it."""
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
        if finding.acknowledgement is not None:
            yield from _wrapped(f"Answer: {finding.acknowledgement}", width, "      ")


def working_lines(working: Working, width: int, depth: int = 0) -> Iterator[str]:
    """Lay a working out: what it is, the rule, each input with its origin, the result, the source."""
    indent = "  " * depth
    yield from _wrapped(f"{working.name} = {working.result}", width, indent)
    yield from _wrapped(f"rule: {working.formula}", width, indent + "  ")
    for item in working.inputs:
        origin = f" ({item.origin})" if item.origin else ""
        value = f": {item.value}" if item.value else ""
        yield from _wrapped(f"{item.name}{value}{origin}", width, indent + "  ")
    yield from _wrapped(f"source: {working.source}", width, indent + "  ")
    if working.note:
        yield from _wrapped(f"note: {working.note}", width, indent + "  ")
    for step in working.steps:
        yield from working_lines(step, width, depth + 1)


def _wrapped(text: str, width: int, indent: str) -> list[str]:
    return textwrap.wrap(
        for_terminal(text), max(width, LEAST_WIDTH), initial_indent=indent, subsequent_indent=indent + "  "
    )
