"""A rough model of a picture, to tell quickly how many lines an arrangement crosses and how far they climb.

Rows instead of points, straight lines instead of lanes.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from schedules.drawings.ordering import Columns, Room
    from schedules.drawings.picture import Picture

_HEADER_ROWS = 3.0
_GAP_ROWS = 2.0

# Prices in crossings: of one row of climb, of passing a column, of a turn back into one's own column.
_CLIMB = 0.12
_PASS = 5.0
_TURN = 1.0

_NOWHERE = -1
_WORK = 80_000


@dataclass(frozen=True, slots=True)
class Bundle:
    """All lines between two blocks. rows: of each line, its row in the one and in the other.

    climbs: what was reckoned already, since blocks stand in the same way to each other again and again.
    """

    a: int
    b: int
    rows: tuple[tuple[float, float], ...]
    climbs: dict[float, float] = field(default_factory=dict)

    def climb(self, down: float) -> float:
        """Rows that the lines climb in all where the second block stands so many rows under the first."""
        if down not in self.climbs:
            self.climbs[down] = sum([abs(down + end - start) for start, end in self.rows])
        return self.climbs[down]

    def part(self, strand: Strand) -> list[tuple[float, float]]:
        """Heights at which each line enters and leaves one channel."""
        _, back, left, right, part, parts = strand
        if back:
            ends = [(left + end, right + start) for start, end in self.rows]
        else:
            ends = [(left + start, right + end) for start, end in self.rows]
        if parts == 1:
            return ends
        return [(y + (goal - y) * part / parts, y + (goal - y) * (part + 1) / parts) for y, goal in ends]


class Strand(NamedTuple):
    """A bundle's part in one channel: how high its blocks stand, and which of so many channels this one is.

    back: from the bundle's second block to its first.
    """

    bundle: int
    back: bool
    left: float
    right: float
    part: int
    parts: int


@dataclass(frozen=True, slots=True)
class Channel:
    """What runs between two columns: pairs of lines that cross, sorted heights on the left and on the right."""

    crossings: int
    left: list[float]
    right: list[float]

    def passed(self, low: float, high: float, *, on_left: bool) -> int:
        """Lines that a line crosses which turns back into its own column."""
        heights = self.left if on_left else self.right
        return bisect_left(heights, high) - bisect_right(heights, low)


@dataclass(frozen=True, slots=True)
class Model:
    """heights: of each block, in rows. bundles: the lines between blocks. room: what they may take.

    seen: channels that were looked at, since most arrangements differ from others in a few channels alone.
    """

    room: Room
    heights: tuple[float, ...]
    bundles: tuple[Bundle, ...]
    seen: dict[tuple[Strand, ...], Channel] = field(default_factory=dict)

    @property
    def work(self) -> int:
        """How many arrangements may be looked at to better one, so that big drawings don't take long."""
        return _WORK // (sum(len(bundle.rows) for bundle in self.bundles) + 20)

    def cost(self, columns: Columns, enough: float = math.inf) -> float:
        """What is unwelcome about an arrangement, in crossings; where it is more than enough, at least so much."""
        column, top, tallest = self._places(columns)
        across: list[list[Strand]] = [[] for _ in range(len(columns) + 1)]
        turning: list[Bundle] = []
        climbed, passed, turned = 0.0, 0, 0
        for index, bundle in enumerate(self.bundles):
            left, right, y, goal = column[bundle.a], column[bundle.b], top[bundle.a], top[bundle.b]
            if _NOWHERE in (left, right):
                continue
            climbed += bundle.climb(goal - y)
            if left == right:
                turning.append(bundle)
                turned += len(bundle.rows)
                continue
            back = left > right
            if back:
                left, right, y, goal = right, left, goal, y
            parts = right - left
            passed += (parts - 1) * len(bundle.rows)
            for part in range(parts):
                across[left + 1 + part].append(Strand(index, back, y, goal, part, parts))
        cost = self.room.price(len(columns), tallest) + _CLIMB * climbed + _PASS * passed + _TURN * turned
        channels = [tuple(strands) for strands in across]
        unseen = [strands for strands in channels if strands not in self.seen]
        cost += sum([self.seen[strands].crossings for strands in channels if strands in self.seen])
        for strands in unseen:
            if cost > enough:
                return cost
            cost += self._channel(strands).crossings
        for bundle in turning:
            on_left = column[bundle.a] < len(columns) - 1
            channel = self._channel(channels[column[bundle.a] + on_left])
            for start, end in bundle.rows:
                low, high = sorted((top[bundle.a] + start, top[bundle.b] + end))
                cost += channel.passed(low, high, on_left=on_left)
        return cost

    def _places(self, columns: Columns) -> tuple[list[int], list[float], float]:
        """Each block's column and top, and the tallest column's height [rows]."""
        column = [_NOWHERE] * len(self.heights)
        top = [0.0] * len(self.heights)
        tallest = 0.0
        for c, members in enumerate(columns):
            tall = sum([self.heights[b] + _GAP_ROWS for b in members])
            tallest = max(tallest, tall)
            y = -tall / 2
            for b in members:
                column[b], top[b] = c, y
                y += self.heights[b] + _GAP_ROWS
        return column, top, tallest

    def _channel(self, strands: tuple[Strand, ...]) -> Channel:
        if strands not in self.seen:
            self.seen[strands] = _channel(
                [line for strand in strands for line in self.bundles[strand.bundle].part(strand)]
            )
        return self.seen[strands]


def _channel(lines: list[tuple[float, float]]) -> Channel:
    lines.sort()
    right: list[float] = []
    crossings = 0
    for n, (_, y) in enumerate(lines):
        place = bisect_right(right, y)
        crossings += n - place
        right.insert(place, y)
    return Channel(crossings, [y for y, _ in lines], right)


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
    bundles: dict[tuple[int, int], list[tuple[float, float]]] = {}
    for line in picture.lines:
        if line.a.block != line.b.block:
            (a, start), (b, goal) = sorted(
                (index[end.block], rows[end.block, end.terminal]) for end in (line.a, line.b)
            )
            bundles.setdefault((a, b), []).append((start, goal))
    found = tuple(Bundle(*blocks, tuple(lines)) for blocks, lines in bundles.items())
    return Model(room, tuple(heights), found)
