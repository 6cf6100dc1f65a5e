"""How a table goes on paper: upright or across, in how many parts."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from schedules.package.widths import BODY_PT, SMALLER_PT, Need, need, shared, stands_on_end
from schedules.writers.document import Mark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.writers.document import Head, Table

_MARK_PT = 22.0
# About what a line takes, with its share of the space between rows [pt].
_LINE_PT = 15.5
_TURNED_PAGES = 0.5
_FAR_FEWER = 0.7
# A table's title, note and heads [pt]; the share of a page up to which a table stays together.
_HEAD_PT = 60.0
_SHORT_SHARE = 0.7
# Of a page's height, what its bands at head and foot take [pt].
_BANDS_PT = 158.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of paper: its name for the typesetter, its sides and the margins of pages of tables [pt]."""

    name: str
    width_pt: float
    height_pt: float
    margin_pt: float = 40.0

    def room_pt(self, *, across: bool) -> float:
        """Width between the margins [pt]."""
        return (self.height_pt if across else self.width_pt) - 2 * self.margin_pt


# ANSI/ASME Y14.1 A and B, ISO 216 A4 and A3.
SHEETS = {
    "Letter": Sheet("us-letter", 612.0, 792.0),
    "A4": Sheet("a4", 595.28, 841.89),
    "Tabloid": Sheet("us-tabloid", 792.0, 1224.0),
    "A3": Sheet("a3", 841.89, 1190.55),
}


@dataclass(frozen=True, slots=True)
class Part:
    """Columns of a table that stand side by side. places: which ones; widths [pt]; upright: heads set on end."""

    places: tuple[int, ...]
    widths_pt: tuple[float, ...]
    upright: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A table on paper, in type of this size [pt]. marked: a first column says which rows are new or changed.

    lines: of all its rows and groups.
    """

    across: bool
    marked: bool
    parts: tuple[Part, ...]
    lines: int
    size_pt: float

    def together(self, sheet: Sheet) -> bool:
        """Whether it is so short that it is better kept on one page."""
        height = (sheet.width_pt if self.across else sheet.height_pt) - _BANDS_PT
        return len(self.parts) * (self.lines * _LINE_PT + _HEAD_PT) <= _SHORT_SHARE * height


def lay_out(table: Table, sheet: Sheet, *, before: bool = False) -> Layout:
    """Lay a table out, upright or across, whichever takes fewer pages; else with heads on end, else in smaller type,
    else in parts.

    before: whether the pages before lie across; turning the paper counts as half a page. Each part repeats the first
    column.
    """
    usual = _whole(table, sheet, BODY_PT, before=before)
    if usual is not None and not _far_fewer(_fewest(table), usual.lines):
        return usual
    smaller = _whole(table, sheet, SMALLER_PT, before=before)
    if usual is None:
        return smaller or _parted(table, sheet)
    return smaller if smaller is not None and _far_fewer(smaller.lines, usual.lines) else usual


def _whole(table: Table, sheet: Sheet, size_pt: float, *, before: bool) -> Layout | None:
    """The table with all its columns side by side, None where they have no room in type of this size [pt]."""
    needs = _needs(table, size_pt)
    marked = _marked(table)
    rooms = {lies: _room(sheet, across=lies, marked=marked) for lies in (False, True)}

    def fitted(least: list[float], *, across: bool) -> Layout | None:
        if sum(least) > rooms[across]:
            return None
        widths, count = shared(needs, least, rooms[across])
        part = _part(tuple(range(len(needs))), widths, table.heads, size_pt)
        return Layout(across, marked, (part,), count + _groups(table), size_pt)

    def pages(layout: Layout) -> float:
        height = (sheet.width_pt if layout.across else sheet.height_pt) - _BANDS_PT
        return layout.lines * _LINE_PT / height + _TURNED_PAGES * (layout.across != before)

    level = [fitted([item.least for item in needs], across=across) for across in (False, True)]
    best = min((layout for layout in level if layout is not None), key=pages, default=None)
    if best is not None and not _far_fewer(_fewest(table), best.lines):
        return best
    on_end = fitted([item.on_end for item in needs], across=True)
    if best is None:
        return on_end
    return on_end if on_end is not None and _far_fewer(on_end.lines, best.lines) else best


def _far_fewer(lines: int, others: int) -> bool:
    """Whether these lines are so many fewer that rows are easier to follow, though their words are harder to read."""
    return lines < _FAR_FEWER * others


def _fewest(table: Table) -> int:
    """Lines of a table of which no row is wrapped."""
    return len(table.rows) + _groups(table)


def _parted(table: Table, sheet: Sheet) -> Layout:
    """The table in several, one under the other, across the sheet."""
    needs = _needs(table, BODY_PT)
    marked = _marked(table)
    room = _room(sheet, across=True, marked=marked)
    parts = []
    most = 0
    for places in _in_parts(needs, room):
        some = [needs[place] for place in places]
        widths, count = shared(some, [item.least for item in some], room)
        parts.append(_part(places, widths, table.heads, BODY_PT))
        most = max(most, count)
    return Layout(True, marked, tuple(parts), most + _groups(table), BODY_PT)


def _needs(table: Table, size_pt: float) -> list[Need]:
    return [
        need(head, [row.cells[place] for row in table.rows], size_pt)
        for place, head in enumerate(table.heads)
    ]


def _marked(table: Table) -> bool:
    return any(row.mark is not Mark.SAME for row in table.rows)


def _groups(table: Table) -> int:
    """Lines that say under what the rows after them stand."""
    return sum(1 for name, _ in groupby(row.group for row in table.rows) if name)


def _room(sheet: Sheet, *, across: bool, marked: bool) -> float:
    return sheet.room_pt(across=across) - (_MARK_PT if marked else 0.0)


def _in_parts(needs: Sequence[Need], room: float) -> list[tuple[int, ...]]:
    """Columns in as few parts as their least widths allow, of about the same number, the first column in each."""
    for count in range(2, len(needs)):
        size = -(-(len(needs) - 1) // count)
        edges = [1, *range(1 + size, len(needs), size), len(needs)]
        parts = [(0, *range(start, end)) for start, end in pairwise(edges)]
        if all(sum(needs[place].least for place in part) <= room for part in parts):
            return parts
    return [(0, place) for place in range(1, len(needs))]


def _part(places: tuple[int, ...], widths: Sequence[float], heads: Sequence[Head], size_pt: float) -> Part:
    on_end = tuple(
        stands_on_end(heads[place], width, size_pt) for place, width in zip(places, widths, strict=True)
    )
    return Part(places, tuple(round(width, 2) for width in widths), on_end)
