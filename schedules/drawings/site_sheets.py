"""What every drawing to scale has: a head with title, scale and datum, notes at its foot, tables, the proof of all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.cautions import ON_A_DRAWING
from schedules.drawings.errors import DrawingError
from schedules.drawings.paper import EDGE
from schedules.drawings.scaled_sheet import ScaledSheet, Type
from schedules.drawings.sheet_layout import LINE_PT, SMALL, foot_lines, table_sheets
from schedules.drawings.sheet_proof import prove_tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Paper
    from schedules.drawings.sheet_layout import Layout
    from schedules.drawings.sheet_tables import SheetTable
    from schedules.plan import Plan

_UNSOUND = "NOT SOUND, do not build by it"
_TITLE = Type(14.0, bold=True)
_SUBTITLE = Type(9.0)


@dataclass(frozen=True, slots=True)
class SiteDrawing:
    """One proved drawing to scale, on one sheet. name: for a file's name. title: what it is, with its scale.

    width, height: of its sheet [pt]. words: what it shows, for who can't see it.
    """

    name: str
    title: str
    svg: str
    width_pt: float
    height_pt: float
    words: str


TABLES_ELSEWHERE = (
    "Tables that have no room beside the drawing are on the sheet of numbers that goes with it."
)


def common_notes(plan: Plan) -> tuple[str, ...]:
    """What stands at the foot of every sheet."""
    unsound = ("NOT SOUND: do not build from this sheet before the plan's findings are cured.",)
    return (*(() if plan.sound else unsound), ON_A_DRAWING)


def begin(layout: Layout, plan: Plan, prefix: str, title: str, datum: str) -> ScaledSheet:
    """A sheet with its head and its notes, ready for the view."""
    sheet = ScaledSheet(layout.width, layout.height, prefix)
    scale = f"Scale {layout.scale.words} printed at full size, {_size(sheet)}"
    _head(sheet, plan, title, scale, datum)
    _foot(sheet, layout.view.notes)
    for table, (left, top) in zip(layout.tables, layout.places or (), strict=True):
        table.draw(sheet, left, top)
    return sheet


def sheets_of_tables(
    plan: Plan,
    tables: tuple[SheetTable, ...],
    paper: Paper,
    *,
    name: str,
    title: str,
    datum: str,
    prefix: str,
) -> Iterator[SiteDrawing]:
    """The tables of a view that has no room for them, each sheet read back. Raises DrawingError."""
    notes = common_notes(plan)
    laid = table_sheets(tables, paper, notes)
    for number, item in enumerate(laid, start=1):
        own = f"{name}-tables" if len(laid) == 1 else f"{name}-tables-{number}"
        sheet = ScaledSheet(item.width, item.height, f"{prefix}tables-{number}-")
        heading = (
            f"{title}, numbers" if len(laid) == 1 else f"{title}, numbers, sheet {number} of {len(laid)}"
        )
        _head(sheet, plan, heading, "Numbers to the drawing of the same name", datum)
        _foot(sheet, notes)
        for table, left, top in item.tables:
            table.draw(sheet, left, top)
        shown = tuple(table for table, _, _ in item.tables)
        words = f"{heading}. {tables_in_words(shown)}"
        svg = sheet.svg(heading, words)
        failures = prove_tables(shown, svg, sheet.prefix)
        if failures:
            raise DrawingError(failures)
        yield SiteDrawing(own, heading, svg, item.width, item.height, words)


def tables_in_words(tables: tuple[SheetTable, ...]) -> str:
    """Every row of some tables, to be read aloud."""
    parts = []
    for table in tables:
        parts.append(f"{table.title}:")
        parts += [" ".join(filter(None, row)) + "." for row in table.rows]
    return " ".join(parts)


def _head(sheet: ScaledSheet, plan: Plan, title: str, scale: str, datum: str) -> None:
    job = plan.derived.job.job
    shown = title if plan.sound else f"{title}. {_UNSOUND}"
    sheet.write("title", (EDGE, EDGE + 14), shown, _TITLE)
    subtitle = f"{job.name}, revision {job.revision}, {job.date}. {scale}."
    sheet.write("subtitle", (EDGE, EDGE + 28), subtitle, _SUBTITLE)
    sheet.write("datum", (EDGE, EDGE + 40), datum, _SUBTITLE)


def _foot(sheet: ScaledSheet, notes: tuple[str, ...]) -> None:
    lines = foot_lines(notes, sheet.width)
    top = sheet.height - EDGE - LINE_PT * (len(lines) - 1)
    for number, line in enumerate(lines):
        sheet.write(f"foot-{number}", (EDGE, top + number * LINE_PT), line, SMALL)


def _size(sheet: ScaledSheet) -> str:
    return f"{sheet.width / 72:.2f} × {sheet.height / 72:.2f} in"
