"""How a table goes on paper: upright or across, in how many parts."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from schedules.package.widths import Need, need, shared, stands_on_end
from schedules.writers.document import Mark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.writers.document import Head, Table

_MARK_PT = 22.0
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
    """A table on paper. marked: a first column says which rows are new or changed."""

    across: bool
    marked: bool
    parts: tuple[Part, ...]


def lay_out(table: Table, sheet: Sheet) -> Layout:
    """Lay a table out, upright or across, whichever takes fewer pages; else with heads on end, else in parts.

    Each part repeats the first column.
    """
    marked = any(row.mark is not Mark.SAME for row in table.rows)
    needs = [need(head, [row.cells[place] for row in table.rows]) for place, head in enumerate(table.heads)]
    taken = _MARK_PT if marked else 0.0
    rooms = {lies: sheet.room_pt(across=lies) - taken for lies in (False, True)}
    heights = {False: sheet.height_pt - _BANDS_PT, True: sheet.width_pt - _BANDS_PT}
    everything = tuple(range(len(needs)))
    least = [item.least for item in needs]
    fitting = {lies: shared(needs, least, room) for lies, room in rooms.items() if sum(least) <= room}
    if fitting:
        across = min(fitting, key=lambda lies: (fitting[lies][1] / heights[lies], lies))
        return Layout(across, marked, (_part(everything, fitting[across][0], table.heads),))
    if sum(on_end := [item.on_end for item in needs]) <= rooms[True]:
        widths, _ = shared(needs, on_end, rooms[True])
        return Layout(True, marked, (_part(everything, widths, table.heads),))
    return Layout(
        True,
        marked,
        tuple(
            _part(places, shared(some, [item.least for item in some], rooms[True])[0], table.heads)
            for places in _in_parts(needs, rooms[True])
            for some in ([needs[place] for place in places],)
        ),
    )


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
