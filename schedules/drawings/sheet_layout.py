"""How a view to scale goes on paper: its scale, the rows of numbers round it, its tables beside, below or on sheets
of their own, and where it is too long for one sheet, its parts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.drawings.metrics import wrap
from schedules.drawings.paper import EDGE, sheet_size
from schedules.drawings.scaled_sheet import Type
from schedules.drawings.scales import SCALES, Mapping

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.drawings.picture import Paper
    from schedules.drawings.running_dimensions import Row
    from schedules.drawings.scales import Scale
    from schedules.drawings.sheet_tables import SheetTable

SMALL = Type(8.0)
LINE_PT = 10.5
"""From one line of small type to the next [pt]."""
BETWEEN_PT = 16.0
HEAD_PT = 52.0
"""Title, subtitle and datum [pt]."""

_BESIDE_PT = 36.0
_ROW_ENDS_PT = 3.0
_BELOW_ROWS_PT = 8.0


@dataclass(frozen=True, slots=True)
class View:
    """What is laid on one sheet: a part of the building, the rows of numbers round it, the notes at the foot.

    first_in, last_in: from where to where along; low_in, high_in: up, or out where one looks down [in]. above_pt,
    below_pt: paper kept free over and under it. down: its upright measures run down the sheet.
    """

    first_in: float
    last_in: float
    low_in: float
    high_in: float
    along: tuple[Row, ...]
    up: tuple[Row, ...]
    notes: tuple[str, ...]
    above_pt: float = 30.0
    below_pt: float = 0.0
    down: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """A view on a sheet of one size at one scale, and the tables that share the sheet [pt]."""

    width: float
    height: float
    scale: Scale
    view: View
    tables: tuple[SheetTable, ...]

    @property
    def mapping(self) -> Mapping:
        """From the building to the sheet."""
        view, ppi = self.view, self.scale.points_per_in
        left = EDGE + sum(row.room for row in view.up) + BETWEEN_PT - view.first_in * ppi
        top = EDGE + HEAD_PT + view.above_pt
        zero = top - view.low_in * ppi if view.down else top + view.high_in * ppi
        return Mapping(left, zero, ppi, view.down)

    @property
    def bottom(self) -> float:
        """The view's lower edge on the sheet."""
        view = self.view
        high = (view.high_in - view.low_in) * self.scale.points_per_in
        return EDGE + HEAD_PT + view.above_pt + high + view.below_pt

    def along_top(self, number: int) -> float:
        """Height of the line of a row of numbers under the view."""
        return self.bottom + BETWEEN_PT + sum(row.room for row in self.view.along[:number])

    def up_left(self, number: int) -> float:
        """Where the line of a row of numbers left of the view stands."""
        ppi = self.scale.points_per_in
        left = self.mapping.left + self.view.first_in * ppi
        return left - BETWEEN_PT - sum(row.room for row in self.view.up[:number])

    @property
    def places(self) -> tuple[tuple[float, float], ...] | None:
        """Where the tables stand beside and below the view, None where not all of it fits."""
        view, ppi = self.view, self.scale.points_per_in
        right = self.mapping.left + view.last_in * ppi
        bottom = self.along_top(len(view.along)) + _BELOW_ROWS_PT
        width, limit = self.width - EDGE, self.height - EDGE - foot_room(view.notes, self.width)
        if right > width or bottom > limit or not self._numbers_fit:
            return None
        return _beside_and_below(self.tables, right + _BESIDE_PT, bottom, width, limit)

    @property
    def _numbers_fit(self) -> bool:
        view, ppi = self.view, self.scale.points_per_in
        across = (view.last_in - view.first_in) * ppi
        high = (view.high_in - view.low_in) * ppi - _ROW_ENDS_PT
        return all(row.fits(across) for row in view.along) and all(row.fits(high) for row in view.up)


def lay_out(
    parts: Callable[[int], tuple[View, ...]],
    tables: tuple[SheetTable, ...],
    paper: Paper,
    *,
    clear_pt_per_in: float,
    most_parts: int,
) -> tuple[Layout, ...] | None:
    """The sheets of a view, None where it fits this paper at no scale of the rule.

    Each at the largest scale: whole with its tables on one sheet; else the tables on sheets of their own; else in as
    few parts as fit. Only what fits nowhere at a clear scale is drawn smaller. parts: the view in so many parts.
    """
    clear = [scale for scale in SCALES if scale.points_per_in >= clear_pt_per_in]
    small = [scale for scale in SCALES if scale.points_per_in < clear_pt_per_in]
    orders = (
        *((scale, 1, tables) for scale in clear),
        *((scale, 1, ()) for scale in clear),
        *((scale, count, ()) for count in range(2, most_parts + 1) for scale in clear),
        *((scale, 1, shown) for scale in small for shown in (tables, ())),
    )
    views = {count: parts(count) for count in range(1, most_parts + 1)}
    found = (_at_scale(views[count], shown, paper, scale) for scale, count, shown in orders)
    return next((layouts for layouts in found if layouts), None)


def _at_scale(
    views: tuple[View, ...], tables: tuple[SheetTable, ...], paper: Paper, scale: Scale
) -> tuple[Layout, ...] | None:
    """All views at one scale, each on a sheet across or upright; None where one doesn't fit."""
    short, long = sheet_size(paper)
    layouts = []
    for view in views:
        turned = (
            Layout(width, height, scale, view, tables) for width, height in ((long, short), (short, long))
        )
        layout = next((item for item in turned if item.places is not None), None)
        if layout is None:
            return None
        layouts.append(layout)
    return tuple(layouts)


@dataclass(frozen=True, slots=True)
class TableSheet:
    """A sheet of tables alone: its size, each table with its left upper corner [pt]."""

    width: float
    height: float
    tables: tuple[tuple[SheetTable, float, float], ...]


def table_sheets(
    tables: tuple[SheetTable, ...], paper: Paper, notes: tuple[str, ...]
) -> tuple[TableSheet, ...]:
    """The tables on as few sheets as they fill, one under the other; a longer one goes on overleaf."""
    short, long = sheet_size(paper)
    across = any(table.width > short - 2 * EDGE for table in tables)
    width, height = (long, short) if across else (short, long)
    top, limit = EDGE + HEAD_PT, height - EDGE - foot_room(notes, width)
    sheets: list[list[tuple[SheetTable, float, float]]] = [[]]
    y = top
    for table in tables:
        rest: SheetTable | None = table
        while rest is not None:
            shown, over = rest.split(limit - y)
            if shown is None or (over is not None and sheets[-1]):
                # A table that goes on overleaf begins a sheet of its own.
                sheets.append([])
                y = top
                shown, over = rest.split(limit - y)
            if shown is None:
                raise ValueError(f"a row of the table {table.title!r} is higher than the sheet")
            sheets[-1].append((shown, EDGE, y))
            y += shown.height + BETWEEN_PT
            rest = over
    return tuple(TableSheet(width, height, tuple(shown)) for shown in sheets if shown)


def foot_lines(notes: tuple[str, ...], width: float) -> tuple[str, ...]:
    """The notes in lines as wide as a sheet of that width has room for [pt]."""
    return tuple(line for note in notes for line in wrap(note, SMALL.pt, width - 2 * EDGE))


def foot_room(notes: tuple[str, ...], width: float) -> float:
    """Height that the notes take at the foot of a sheet of that width [pt]."""
    return (len(foot_lines(notes, width)) + 0.5) * LINE_PT


def _beside_and_below(
    tables: tuple[SheetTable, ...], right: float, bottom: float, width: float, limit: float
) -> tuple[tuple[float, float], ...] | None:
    """Each table beside the view while there is room, the others below it in rows; None where one finds no room."""
    places: list[tuple[float, float]] = []
    beside = EDGE + HEAD_PT
    left, top, tallest = EDGE, bottom, 0.0
    for table in tables:
        if right + table.width <= width and beside + table.height <= limit:
            places.append((right, beside))
            beside += table.height + BETWEEN_PT
            continue
        if left + table.width > width:
            left, top, tallest = EDGE, top + tallest + BETWEEN_PT, 0.0
        # What stands below may not run into what stands beside.
        meets = left + table.width > right and top < beside
        if top + table.height > limit or left + table.width > width or meets:
            return None
        places.append((left, top))
        left += table.width + BETWEEN_PT
        tallest = max(tallest, table.height)
    return tuple(places)


def within(rows: tuple[Row, ...], first_in: float, last_in: float) -> tuple[Row, ...]:
    """Rows with only the marks between two places, those left without any dropped [in]."""
    cut = (
        replace(row, marks=tuple(mark for mark in row.marks if first_in <= mark.at_in <= last_in))
        for row in rows
    )
    return tuple(row for row in cut if row.marks)
