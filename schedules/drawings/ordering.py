"""Bettering an arrangement: block by block to wherever fewer lines cross and climb, as long as it helps.

The search is capped by count, never by time, so that it ends the same on every machine.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from schedules.drawings.picture import Paper

if TYPE_CHECKING:
    from collections.abc import Iterable

Columns = tuple[tuple[int, ...], ...]

_COLUMN_ROWS = 21.0
_PAGE_SHAPE = 1.4

# The same as measured on finished drawings, with lanes, titles and legend (own reckoning, on the careful side).
_WIDE_COLUMN_ROWS = 25.0
_WIDE_PAGE_SHAPE = 1.85

# Prices in crossings: of one row more on the page, and of one row more than its paper has room for.
_GROW = 0.2
_OVERFLOW = 5.0

# Rows that fit along each paper's long side where type shrinks no further than it can be read.
_ROWS = {Paper.LETTER: 64.0, Paper.A4: 68.0, Paper.TABLOID: 100.0, Paper.A3: 98.0}

_TOO_MANY = 1e6
_ANY = 1_000

_LEAST_GAIN = 1e-6


class Priced(Protocol):
    """What tells how unwelcome an arrangement is."""

    def cost(self, columns: Columns, enough: float = math.inf) -> float:
        """The price in crossings; where it is more than enough, at least so much."""
        ...


@dataclass(frozen=True, slots=True)
class Room:
    """What a drawing may take: rows along the paper's long side, and columns of blocks.

    column_rows: of one column, with its lanes. page_shape: how many times as wide as high a page is.
    """

    rows: float
    most_columns: int
    column_rows: float = _COLUMN_ROWS
    page_shape: float = _PAGE_SHAPE

    def price(self, columns: int, tallest_rows: float) -> float:
        """The price of a drawing's size, in crossings: little on its paper, much beyond it."""
        size = max(columns * self.column_rows, tallest_rows * self.page_shape)
        too_many = max(0, columns - self.most_columns)
        return _GROW * size + _OVERFLOW * max(0.0, size - self.rows) + _TOO_MANY * too_many


def room_on(paper: Paper, most_columns: int = _ANY) -> Room:
    """The room on a paper."""
    return Room(_ROWS[paper], most_columns)


def wide_room_on(paper: Paper) -> Room:
    """The room on a paper across, with four columns at most, for places that many drawings have to be read in."""
    return Room(_ROWS[paper], _ANY, _WIDE_COLUMN_ROWS, _WIDE_PAGE_SHAPE)


def bettered(columns: Columns, rough: Priced, work: int) -> Columns:
    """The arrangement after moving single blocks as long as that helps. work: arrangements looked at, at most."""
    best = rough.cost(columns)
    moved = True
    while moved:
        moved = False
        for b in [b for members in columns for b in members]:
            for candidate in moves(columns, b):
                if not work:
                    return columns
                work -= 1
                cost = rough.cost(candidate, best)
                if cost < best - _LEAST_GAIN:
                    best, columns, moved = cost, candidate, True
    return columns


def inserted(columns: Columns, new: Iterable[int], rough: Priced) -> Columns:
    """The arrangement with further blocks, each where it does least harm; those that are there do not move."""
    for b in new:
        columns = min(moves(columns, b), key=lambda candidate: (rough.cost(candidate), candidate))
    return columns


def moves(columns: Columns, b: int) -> list[Columns]:
    """Every arrangement that has one block elsewhere, in a column of its own at the side too."""
    without = [tuple(other for other in members if other != b) for members in columns]
    found = [((b,), *without), (*without, (b,))]
    for c, members in enumerate(without):
        for rank in range(len(members) + 1):
            column = (*members[:rank], b, *members[rank:])
            found.append((*without[:c], column, *without[c + 1 :]))
    cleared = (tuple(members for members in candidate if members) for candidate in found)
    return [candidate for candidate in cleared if candidate != columns]
