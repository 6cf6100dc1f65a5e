"""How a table goes on paper: upright or across, in how many parts."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from schedules.package.widths import Need, need, shared, stands_on_end
from schedules.writers.document import Mark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.writers.document import Head, Table

_MARK_PT = 22.0
# About what a line takes, with its share of the space between rows [pt].
_LINE_PT = 14.0
_TURNED_PAGES = 0.5
# A table's title, note and heads [pt]; the share of a page up to which a table stays together.
_HEAD_PT = 60.0
_SHORT_SHARE = 0.7
# Of a page's height, what its bands at head and foot take [pt].
_BANDS_PT = 140.0


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
    """A table on paper. marked: a first column says which rows are new or changed.

    lines: of all its rows and groups.
    """

    across: bool
    marked: bool
    parts: tuple[Part, ...]
    lines: int

    def together(self, sheet: Sheet) -> bool:
        """Whether it is so short that it is better kept on one page."""
        height = (sheet.width_pt if self.across else sheet.height_pt) - _BANDS_PT
        return len(self.parts) * (self.lines * _LINE_PT + _HEAD_PT) <= _SHORT_SHARE * height


def lay_out(table: Table, sheet: Sheet, *, before: bool = False) -> Layout:
    """Lay a table out, upright or across, whichever takes fewer pages; else with heads on end, else in parts.

    before: whether the pages before lie across; turning the paper counts as half a page. Each part repeats the first
    column.
    """
    groups = sum(1 for name, _ in groupby(row.group for row in table.rows) if name)
    marked = any(row.mark is not Mark.SAME for row in table.rows)
    needs = [need(head, [row.cells[place] for row in table.rows]) for place, head in enumerate(table.heads)]
    taken = _MARK_PT if marked else 0.0
    rooms = {lies: sheet.room_pt(across=lies) - taken for lies in (False, True)}
    heights = {False: sheet.height_pt - _BANDS_PT, True: sheet.width_pt - _BANDS_PT}
    everything = tuple(range(len(needs)))
    least = [item.least for item in needs]
    fitting = {lies: shared(needs, least, room) for lies, room in rooms.items() if sum(least) <= room}
    if fitting:
        across = min(
            fitting,
            key=lambda lies: (
                fitting[lies][1] * _LINE_PT / heights[lies] + _TURNED_PAGES * (lies != before),
                lies,
            ),
        )
        widths, count = fitting[across]
        return Layout(across, marked, (_part(everything, widths, table.heads),), count + groups)
    if sum(on_end := [item.on_end for item in needs]) <= rooms[True]:
        widths, count = shared(needs, on_end, rooms[True])
        return Layout(True, marked, (_part(everything, widths, table.heads),), count + groups)
    parts = []
    most = 0
    for places in _in_parts(needs, rooms[True]):
        some = [needs[place] for place in places]
        widths, count = shared(some, [item.least for item in some], rooms[True])
        parts.append(_part(places, widths, table.heads))
        most = max(most, count)
    return Layout(True, marked, tuple(parts), most + groups)


def _in_parts(needs: Sequence[Need], room: float) -> list[tuple[int, ...]]:
    """Columns in as few parts as their least widths allow, of about the same number, the first column in each."""
    for count in range(2, len(needs)):
        size = -(-(len(needs) - 1) // count)
        edges = [1, *range(1 + size, len(needs), size), len(needs)]
        parts = [(0, *range(start, end)) for start, end in pairwise(edges)]
        if all(sum(needs[place].least for place in part) <= room for part in parts):
            return parts
    return [(0, place) for place in range(1, len(needs))]


def _part(places: tuple[int, ...], widths: Sequence[float], heads: Sequence[Head]) -> Part:
    on_end = tuple(stands_on_end(heads[place], width) for place, width in zip(places, widths, strict=True))
    return Part(places, tuple(round(width, 2) for width in widths), on_end)
