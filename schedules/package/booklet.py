"""A document laid out for paper: runs of pages of one orientation, for the typesetter."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby
from typing import TYPE_CHECKING, Any

from schedules.drawings.paper import READABLE_PT
from schedules.package.legible import breakable, legible
from schedules.package.links import with_rows_to_lead_to
from schedules.package.paper import SHEETS, lay_out
from schedules.package.widths import BODY_PT, INSET_PT, need, on_end_pt
from schedules.writers.document import Head

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.package.paper import Layout, Sheet
    from schedules.writers.document import Document, Figure, Section, Table

# Bands at the head and the foot of a page [pt]: stamp, cautions, legend.
HEAD_PT = 76.0
FOOT_PT = 64.0
# Margin at both sides of a page that holds one drawing, and on all sides of one that needs every point.
FIGURE_MARGIN_PT = 28.0
_HEADING_PT = 22.0
_OVER_PT, _OVER_CLOSE_PT, _OVER_TO_WRITE_PT = 3.2, 1.6, 6.0
"""Over and under a row's words: the usual, where that spares a page, and where a hand writes between the lines; with
the last, a row is 8 mm high, as much as handwriting takes (own choice)."""

_ALONE = frozenset({"owner"})
_NEW_PAGE: dict[str, Any] = {"is": "new page"}


@dataclass(frozen=True, slots=True)
class _Run:
    """Pages of one kind, and what stands on them. kind: `tables`, `figure`, `bare` (a drawing and thin bands) or
    `whole` (a drawing to scale as large as the sheet)."""

    across: bool
    kind: str
    items: tuple[dict[str, Any], ...]


def booklet(document: Document, paper: str, *, cover: bool = True) -> dict[str, Any]:
    """What the typesetter needs to print a document on a paper, as plain values."""
    sheet = SHEETS[paper]
    stamp = document.stamp
    runs = _merged(_runs(with_rows_to_lead_to(document.sections), sheet))
    return {
        "paper": sheet.name,
        "cover": cover,
        "margin": sheet.margin_pt,
        "figure_margin": FIGURE_MARGIN_PT,
        "head": HEAD_PT,
        "foot": FOOT_PT,
        "body": BODY_PT,
        "inset": INSET_PT,
        "over": _OVER_PT,
        "close": _OVER_CLOSE_PT,
        "stamp": {
            "job": breakable(stamp.job),
            "sheet": breakable(stamp.sheet),
            "edition": stamp.code_edition,
            "date": breakable(stamp.date),
            "revision": breakable(stamp.revision),
            "prepared": breakable(stamp.prepared_by),
            "code": stamp.code,
            "matrix": stamp.matrix,
        },
        "reader": document.reader,
        "findings_last": document.findings_last,
        "verdict": document.verdict,
        "warning": document.warning,
        "sound": not document.verdict.startswith("NOT"),
        "cautions": [breakable(text) for text in document.cautions],
        "caution": document.caution,
        "note": breakable(document.note),
        "missing": [breakable(text) for text in document.missing],
        "legend": [breakable(text) for text in document.legend if text],
        "changes": None
        if document.changes is None
        else {
            "against": breakable(document.changes.against),
            "groups": [
                {"name": breakable(name), "lines": [breakable(line) for line in lines]}
                for name, lines in document.changes.lines
            ],
        },
        "things": need(Head("thing", "Thing"), [problem.subject for problem in document.problems]).least,
        "problems": [
            {
                "severity": problem.severity,
                "meaning": problem.meaning,
                "subject": breakable(problem.subject),
                "says": breakable(problem.says),
                "numbers": breakable(problem.numbers),
                "rule": breakable(problem.rule),
                "remedies": [breakable(text) for text in problem.remedies],
                "answer": breakable(problem.answer),
                "mark": str(problem.mark),
            }
            for problem in document.problems
        ],
        "runs": [{"across": run.across, "kind": run.kind, "items": list(run.items)} for run in runs],
    }


def _runs(sections: Iterable[Section], sheet: Sheet) -> Iterator[_Run]:
    across = alone = False
    for section in sections:
        # What somebody carries off or hangs up has its pages for itself.
        starts, alone = alone or section.new_page, section.id in _ALONE or bool(section.parts)
        whole = _whole(section)
        layout = None if whole is None else lay_out(whole, sheet, before=across and section.id not in _ALONE)
        for run in _section(section, sheet, 1, layout, starts_page=starts or alone):
            across = run.across
            yield run


def _section(
    section: Section, sheet: Sheet, level: int, layout: Layout | None, *, starts_page: bool = False
) -> Iterator[_Run]:
    """A section's pages. layout: of the whole schedule where this is one part of it, so that all parts look alike."""
    heading: tuple[dict[str, Any], ...] = (
        {"is": "heading", "level": level, "text": breakable(section.title)},
    )
    if starts_page:
        heading = (_NEW_PAGE, *heading)
    across = layout.across if layout is not None else False
    items = heading
    for table in section.tables:
        if layout is not None:
            items += tuple(_table(table, layout))
    if layout is not None and layout.together(sheet) and not section.parts:
        new, kept = items[: int(starts_page)], items[int(starts_page) :]
        items = (*new, {"is": "together", "items": list(kept)})
    if section.tables:
        inside = [item for item in section.figures if _readable_inside(item, sheet, across=across)]
        yield _Run(
            across,
            "tables",
            items + tuple(_figure(item, _inside(item, sheet, across=across)) for item in inside),
        )
        heading = ()
    for figure in section.figures:
        if section.tables and figure in inside:
            continue
        kind, lies_across, scale = _whole_page(figure) if figure.to_scale else _own_page(figure, sheet)
        yield _Run(lies_across, kind, (*heading, _figure(figure, scale)))
        heading = ()
    for place, part in enumerate(section.parts):
        yield from _section(part, sheet, level + 1, layout, starts_page=place > 0)


def _whole(section: Section) -> Table | None:
    """The schedule with the rows of all its parts."""
    if not section.tables:
        return None
    rows = [row for part in section.parts for table in part.tables for row in table.rows]
    return replace(section.tables[0], rows=(*section.tables[0].rows, *rows))


def _inside(figure: Figure, sheet: Sheet, *, across: bool) -> float:
    """Scale of a drawing that stands on a page of tables."""
    width, height = _sides(sheet, across=across)
    return _scale(figure, width - 2 * sheet.margin_pt, height - HEAD_PT - FOOT_PT - _HEADING_PT)


def _readable_inside(figure: Figure, sheet: Sheet, *, across: bool) -> bool:
    return figure.smallest_full_pt * _inside(figure, sheet, across=across) >= READABLE_PT


def _whole_page(figure: Figure) -> tuple[str, bool, float]:
    """A drawing to scale takes a sheet of its own size."""
    return "whole", figure.width_pt > figure.height_pt, 1.0


def _own_page(figure: Figure, sheet: Sheet) -> tuple[str, bool, float]:
    """The page on which a drawing is largest: with the usual bands, or with thin ones where only so it can be read."""
    best = max(_on_page(figure, sheet, "figure"), key=lambda item: item[2])
    if figure.smallest_full_pt * best[2] >= READABLE_PT:
        return best
    return max(_on_page(figure, sheet, "bare"), key=lambda item: item[2])


def _on_page(figure: Figure, sheet: Sheet, kind: str) -> Iterator[tuple[str, bool, float]]:
    bands = HEAD_PT + FOOT_PT + _HEADING_PT if kind == "figure" else 2 * FIGURE_MARGIN_PT
    for across in (False, True):
        width, height = _sides(sheet, across=across)
        yield kind, across, _scale(figure, width - 2 * FIGURE_MARGIN_PT, height - bands)


def _scale(figure: Figure, width: float, height: float) -> float:
    return min(width / figure.width_pt, height / figure.height_pt, 1.0)


def _sides(sheet: Sheet, *, across: bool) -> tuple[float, float]:
    return (sheet.height_pt, sheet.width_pt) if across else (sheet.width_pt, sheet.height_pt)


def _figure(figure: Figure, scale: float) -> dict[str, Any]:
    width = figure.width_pt if figure.to_scale else round(figure.width_pt * scale - 0.01, 2)
    shown = width / figure.width_pt
    return {
        "is": "figure",
        "svg": figure.svg,
        "alt": legible(figure.alt),
        "whole": figure.to_scale,
        "width": width,
        "links": [
            {
                "anchor": link.anchor,
                "left": round(link.left * shown, 2),
                "top": round(link.top * shown, 2),
                "width": round(link.width * shown, 2),
                "height": round(link.height * shown, 2),
            }
            for link in figure.links
        ],
    }


def _table(table: Table, layout: Layout) -> Iterator[dict[str, Any]]:
    if table.note:
        yield {"is": "note", "text": breakable(table.note)}
    if table.left_out:
        yield {"is": "note", "text": breakable(table.left_out)}
    if not table.rows:
        return
    for part in layout.parts:
        yield {
            "is": "table",
            "marked": layout.marked,
            "size": layout.size_pt,
            "over": _OVER_TO_WRITE_PT if table.to_write else _OVER_PT,
            "close": _OVER_TO_WRITE_PT if table.to_write else _OVER_CLOSE_PT,
            "widths": list(part.widths_pt),
            "on_end": max(
                (
                    on_end_pt(table.heads[place], width, layout.size_pt)
                    for place, width, upright in zip(part.places, part.widths_pt, part.upright, strict=True)
                    if upright
                ),
                default=0.0,
            ),
            "heads": [
                {
                    "text": breakable(table.heads[place].text),
                    "right": table.heads[place].right,
                    "fill": str(table.heads[place].fill),
                    "upright": upright,
                }
                for place, upright in zip(part.places, part.upright, strict=True)
            ],
            "groups": [
                {
                    "name": breakable(name),
                    "rows": [
                        {
                            "mark": str(row.mark),
                            # Where a drawing leads to is one place, though each part repeats the first column.
                            "anchor": row.anchor if part is layout.parts[0] else "",
                            "cells": [breakable(row.cells[place]) for place in part.places],
                        }
                        for row in rows
                    ],
                }
                for name, rows in groupby(table.rows, lambda row: row.group)
            ],
        }


def _merged(runs: Iterable[_Run]) -> Iterator[_Run]:
    """Runs of tables of one orientation follow each other on the same pages; a drawing keeps its page."""
    waiting: _Run | None = None
    for run in runs:
        if waiting is not None and (run.across, run.kind, "tables") == (
            waiting.across,
            waiting.kind,
            run.kind,
        ):
            waiting = replace(waiting, items=waiting.items + run.items)
            continue
        if waiting is not None:
            yield waiting
        # Turning to another kind of page begins a new one anyway.
        waiting = replace(run, items=run.items[1:]) if run.items[:1] == (_NEW_PAGE,) else run
    if waiting is not None:
        yield waiting
