"""How a table goes on paper: upright or across, how wide each column, in how many parts."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt
from schedules.writers.document import Fill, Mark

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.writers.document import Head, Table

BODY_PT = 9.0
INSET_PT = 3.0
"""Between a cell's words and its rule."""

_FILL_PT = {Fill.TICK: 30.0, Fill.WRITE: 46.0}
_MARK_PT = 22.0
# Beyond this a column wraps rather than pushing others off the page.
_WIDEST_PT = 210.0
# A column no wider than this is not wrapped while there is room.
_SHORT_PT = 74.0
# A word longer than this is cut.
LONGEST_WORD_PT = 150.0
# A table that would be squeezed more than this on an upright page goes across.
_LEAST_SHARE = 0.62


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


@dataclass(frozen=True, slots=True)
class _Need:
    """What one column wants [pt]: unbroken where its text is short, least, and least with its head on end."""

    natural: float
    unbroken: float
    least: float
    on_end: float


def lay_out(table: Table, sheet: Sheet) -> Layout:
    """Lay a table out: upright where it isn't squeezed, else across, else with heads on end, else in parts.

    Each part repeats the first column.
    """
    marked = any(row.mark is not Mark.SAME for row in table.rows)
    needs = [_need(head, [row.cells[place] for row in table.rows]) for place, head in enumerate(table.heads)]
    taken = _MARK_PT if marked else 0.0
    upright, across = (sheet.room_pt(across=lies) - taken for lies in (False, True))
    everything = tuple(range(len(needs)))
    natural = sum(need.natural for need in needs)
    for lies, room, least in (
        (False, upright, [need.unbroken for need in needs]),
        (True, across, [need.unbroken for need in needs]),
        (True, across, [need.least for need in needs]),
        (True, across, [need.on_end for need in needs]),
    ):
        if sum(least) <= room and (lies or room >= _LEAST_SHARE * natural):
            return Layout(lies, marked, (_part(everything, least, needs, table.heads, room),))
    return Layout(
        True,
        marked,
        tuple(
            _part(places, [needs[place].least for place in places], needs, table.heads, across)
            for places in _in_parts(needs, across)
        ),
    )


def _need(head: Head, cells: Sequence[str]) -> _Need:
    if head.fill is not Fill.PRINTED:
        width = max(_FILL_PT[head.fill], _longest_word(head.text, bold=True) + 2 * INSET_PT + 1.0)
        return _Need(width, width, width, _FILL_PT[head.fill])
    over = 2 * INSET_PT + 1.0
    different = set(cells)
    words = min(max(map(_longest_word, different), default=0.0), LONGEST_WORD_PT) + over
    line = max((width_pt(cell, BODY_PT) for cell in different), default=0.0) + over
    head_word = min(_longest_word(head.text, bold=True), LONGEST_WORD_PT) + over
    on_end = max(words, BODY_PT * 1.3 + over)
    least = max(words, head_word)
    unbroken = max(line, head_word) if line <= _SHORT_PT else least
    return _Need(max(min(line, _WIDEST_PT), unbroken), unbroken, least, on_end)


def _longest_word(text: str, *, bold: bool = False) -> float:
    return max((width_pt(word, BODY_PT, bold=bold) for word in text.split()), default=0.0)


def _in_parts(needs: Sequence[_Need], room: float) -> list[tuple[int, ...]]:
    """Columns in as few parts as their least widths allow, of about the same number, the first column in each."""
    for count in range(2, len(needs)):
        size = -(-(len(needs) - 1) // count)
        edges = [1, *range(1 + size, len(needs), size), len(needs)]
        parts = [(0, *range(start, end)) for start, end in pairwise(edges)]
        if all(sum(needs[place].least for place in part) <= room for part in parts):
            return parts
    return [(0, place) for place in range(1, len(needs))]


def _part(
    places: tuple[int, ...],
    least: Sequence[float],
    needs: Sequence[_Need],
    heads: Sequence[Head],
    room: float,
) -> Part:
    """Give each column its least width, then share what is left by what each still wants; the rest is for hands."""
    wants = [max(needs[place].natural - width, 0.0) for place, width in zip(places, least, strict=True)]
    left = max(room - sum(least), 0.0)
    share = min(left / sum(wants), 1.0) if sum(wants) else 0.0
    widths = [width + want * share for width, want in zip(least, wants, strict=True)]
    by_hand = [n for n, place in enumerate(places) if heads[place].fill is Fill.WRITE]
    spare = max(room - sum(widths), 0.0)
    for n in by_hand:
        widths[n] += min(spare / len(by_hand), 60.0)
    on_end = tuple(
        _longest_word(heads[place].text, bold=True) + 2 * INSET_PT > width + 0.5
        for place, width in zip(places, widths, strict=True)
    )
    return Part(places, tuple(round(width, 2) for width in widths), on_end)
