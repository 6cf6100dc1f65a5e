"""Bettering an arrangement: block by block to wherever fewer lines cross and climb, as long as it helps.

Works on a rough model (rows instead of points, straight lines instead of lanes). The search is capped by count,
never by time, so that it ends the same on every machine.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right, insort
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from schedules.drawings.picture import Paper

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.picture import Picture

Columns = tuple[tuple[int, ...], ...]

_HEADER_ROWS = 3.0
_GAP_ROWS = 2.0
_COLUMN_ROWS = 21.0
_PAGE_SHAPE = 1.4

# The same as measured on finished drawings, with lanes, titles and legend (own reckoning, on the careful side).
_WIDE_COLUMN_ROWS = 25.0
_WIDE_PAGE_SHAPE = 1.85

# Prices in crossings: of one row of climb, of passing a column, of a turn back into one's own column, of one row
# more on the page, and of one row more than its paper has room for.
_CLIMB = 0.12
_PASS = 5.0
_TURN = 1.0
_GROW = 0.2
_OVERFLOW = 5.0

# Rows that fit along each paper's long side where type shrinks no further than it can be read.
_ROWS = {Paper.LETTER: 64.0, Paper.A4: 68.0, Paper.TABLOID: 100.0, Paper.A3: 98.0}

_TOO_MANY = 1e6
_ANY = 1_000

_LEAST_GAIN = 1e-6
_NOWHERE = -1
_WORK = 80_000


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


@dataclass(frozen=True, slots=True)
class Model:
    """heights: of each block, in rows. lines: block and row in it, of both ends of each line between blocks.

    room: what they may take.
    """

    room: Room
    heights: tuple[float, ...]
    lines: tuple[tuple[int, float, int, float], ...]

    @property
    def work(self) -> int:
        """How many arrangements may be looked at to better one, so that big drawings don't take long."""
        return _WORK // (len(self.lines) + 20)

    def cost(self, columns: Columns, enough: float = math.inf) -> float:
        """What is unwelcome about an arrangement, in crossings; where it is more than enough, at least so much."""
        column = [_NOWHERE] * len(self.heights)
        top = [0.0] * len(self.heights)
        tallest = 0.0
        for c, members in enumerate(columns):
            tall = sum(self.heights[b] + _GAP_ROWS for b in members)
            tallest = max(tallest, tall)
            y = -tall / 2
            for b in members:
                column[b], top[b] = c, y
                y += self.heights[b] + _GAP_ROWS
        across: list[list[tuple[float, float]]] = [[] for _ in range(len(columns) + 1)]
        turns: list[tuple[int, bool, float, float]] = []
        cost = self.room.price(len(columns), tallest)
        for a, row_a, b, row_b in self.lines:
            left, right, y, goal = column[a], column[b], top[a] + row_a, top[b] + row_b
            if _NOWHERE in (left, right):
                continue
            if left > right:
                left, right, y, goal = right, left, goal, y
            cost += _CLIMB * abs(goal - y)
            if left == right:
                side = left < len(columns) - 1
                turns.append((left + side, side, min(y, goal), max(y, goal)))
                cost += _TURN
                continue
            step = (goal - y) / (right - left)
            cost += _PASS * (right - left - 1)
            for channel in range(left + 1, right + 1):
                across[channel].append((y, y + step))
                y += step
        for lines in across:
            if cost > enough:
                return cost
            cost += _inversions(lines)
        return cost + _passed(turns, across)


def _inversions(lines: list[tuple[float, float]]) -> int:
    """Pairs of lines that cross between two columns."""
    seen: list[float] = []
    crossings = 0
    for _, y in sorted(lines):
        crossings += len(seen) - bisect_right(seen, y)
        insort(seen, y)
    return crossings


def _passed(turns: list[tuple[int, bool, float, float]], across: list[list[tuple[float, float]]]) -> int:
    """Lines that a line crosses which turns back into its own column."""
    if not turns:
        return 0
    heights = {
        (channel, side): sorted(line[not side] for line in lines)
        for channel, lines in enumerate(across)
        for side in (False, True)
    }
    return sum(
        bisect_left(heights[channel, side], high) - bisect_right(heights[channel, side], low)
        for channel, side, low, high in turns
    )


def model(picture: Picture, room: Room) -> Model:
    """The rough model of a picture."""
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    ends = [end for line in picture.lines for end in (line.a, line.b)]
    busy: dict[tuple[str, str | None], int] = {}
    for end in ends:
        busy[end.block, end.terminal] = busy.get((end.block, end.terminal), 0) + 1
    rows: dict[tuple[str, str | None], float] = {}
    heights = []
    for block in picture.blocks:
        y, group = _HEADER_ROWS, ""
        for terminal in block.terminals:
            y += terminal.group != group
            group = terminal.group
            rows[block.key, terminal.key] = y
            y += max(1, busy.get((block.key, terminal.key), 0))
        rows[block.key, None] = y
        heights.append(y + busy.get((block.key, None), 0))
    lines = tuple(
        (
            index[line.a.block],
            rows[line.a.block, line.a.terminal],
            index[line.b.block],
            rows[line.b.block, line.b.terminal],
        )
        for line in picture.lines
        if line.a.block != line.b.block
    )
    return Model(room, tuple(heights), lines)


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
