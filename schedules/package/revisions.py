"""What differs from the package that was printed before: each changed row marked, every change in words."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from schedules.comparison import Change, Difference, Kind
from schedules.package.tables import one_line
from schedules.writers.document import Changes, Mark

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.findings import Finding
    from schedules.package.record import Record
    from schedules.rows.schedule import Schedule

_KEYS: Mapping[str, tuple[str, ...]] = {
    "terminations": ("terminal", "number"),
    "openings": ("opening", "cable"),
    "readings": ("from", "to", "state"),
    "receiving": ("name", "part"),
    "work": ("trade", "work"),
    "before-cover": ("check",),
    "labels": ("kind", "at", "line"),
    "owner": ("what",),
}
"""Columns that name the thing a row is about; the first one where a schedule isn't named here."""

_NOT_LISTED = frozenset({"causes", "labels", "readings", "faults"})
"""Their rows follow from others that are listed; they are marked, and only counted at the front."""

Key = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PrintedTable:
    """One schedule as it was printed: each row's key with its cells by head, in order."""

    title: str
    rows: dict[Key, dict[str, str]]


@dataclass(frozen=True, slots=True)
class Revision:
    """How this package differs from the one before; nothing where there is none before."""

    changes: Changes | None = None
    marks: Mapping[str, Mapping[int, Mark]] = field(default_factory=dict)
    finding_marks: Mapping[int, Mark] = field(default_factory=dict)


def printed_table(schedule: Schedule[Any]) -> PrintedTable:
    """A schedule's text, each row under a key of its own."""
    wanted = _KEYS.get(schedule.id, (schedule.columns[0].key,))
    heads = [one_line(column.head) for column in schedule.columns]
    places = [place for place, column in enumerate(schedule.columns) if column.key in wanted]
    rows: dict[Key, dict[str, str]] = {}
    again: Counter[Key] = Counter()
    for row in schedule.rows:
        cells = tuple(one_line(cell) for cell in schedule.cells(row))
        key = (one_line(schedule.group(row)), *(cells[place] for place in places))
        again[key] += 1
        rows[*key, str(again[key])] = dict(zip(heads, cells, strict=True))
    return PrintedTable(one_line(schedule.title), rows)


def printed_findings(findings: Iterable[Finding]) -> PrintedTable:
    """The findings as a table: what differs in severity or words is a change."""
    rows: dict[Key, dict[str, str]] = {}
    again: Counter[Key] = Counter()
    for finding in findings:
        key = (finding.code, one_line(finding.subject))
        again[key] += 1
        rows[*key, str(again[key])] = {
            "severity": str(finding.severity),
            "says": one_line(finding.says),
            "answer": one_line(str(finding.acknowledgement or "")),
        }
    return PrintedTable("Findings", rows)


def compare_with(before: Record, tables: Mapping[str, PrintedTable], findings: PrintedTable) -> Revision:
    """Mark every row that is new or changed since, and say what was removed."""
    lines: list[tuple[str, tuple[str, ...]]] = []
    marks: dict[str, dict[int, Mark]] = {}
    finding_marks = row_marks(before.findings, findings)
    for name, old, new in (
        ("findings", before.findings, findings),
        *((name, before.tables.get(name), new) for name, new in tables.items()),
    ):
        if name != "findings":
            marks[name] = row_marks(old, new)
        said = tuple(str(change) for change in _changes(old, new))
        if name in _NOT_LISTED and said:
            said = (f"{len(said)} rows differ; each is marked where it stands",)
        if said:
            lines.append((new.title, said))
    changes = Changes(
        against=f"revision {before.revision}, {before.date}, contents {before.code}", lines=tuple(lines)
    )
    return Revision(changes, marks, finding_marks)


def row_marks(old: PrintedTable | None, new: PrintedTable) -> dict[int, Mark]:
    """Which rows are new or changed, by their place."""
    if old is None:
        return dict.fromkeys(range(len(new.rows)), Mark.NEW)
    marks = {}
    for place, (key, cells) in enumerate(new.rows.items()):
        if key not in old.rows:
            marks[place] = Mark.NEW
        elif any(_differences(old.rows[key], cells)):
            marks[place] = Mark.CHANGED
    return marks


def _changes(old: PrintedTable | None, new: PrintedTable) -> Iterator[Change]:
    was = {} if old is None else old.rows
    heads = tuple(next(iter(new.rows.values()), {}))
    for key, cells in was.items():
        if key not in new.rows:
            # A record doesn't keep the order of the columns.
            ordered = {head: cells[head] for head in (*heads, *cells) if head in cells}
            yield Change(Kind.REMOVED, _subject(key), f"removed: {_says(ordered)}")
    for key, cells in new.rows.items():
        if key not in was:
            yield Change(Kind.ADDED, _subject(key), f"new: {_says(cells)}")
        elif differences := tuple(_differences(was[key], cells)):
            yield Change(Kind.ALTERED, _subject(key), "", differences)


def _differences(was: dict[str, str], now: dict[str, str]) -> Iterator[Difference]:
    """Respects in which both differ; a column that only one of the two packages has is no change on site."""
    for head, cell in now.items():
        if head in was and was[head] != cell:
            yield Difference(head.lower(), was[head] or "nothing", cell or "nothing")


def _subject(key: Key) -> str:
    parts = [part for part in key[:-1] if part]
    return ", ".join(parts) if key[-1] == "1" else f"{', '.join(parts)} ({key[-1]})"


def _says(cells: dict[str, str]) -> str:
    return "; ".join(f"{head.lower()} {cell}" for head, cell in cells.items() if cell and cell != "–")
