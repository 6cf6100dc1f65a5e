"""Every line's way from end to end: which channels it crosses, in which lane, through which gap past a column.

A channel is the space between two columns; in it each line has one vertical lane of its own. A line that passes
a column does so in a track: level, in a gap between two blocks, at a height that no row nearby uses.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from schedules.drawings.style import APART, LANE, ROW, TRACK_OFF_ROW
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.stacking import Stack

_PASSES = 8
# What one avoidable run of two lines on top of each other costs, in crossings.
_COLLISION = 1000
_TRACK_MARGIN = 5.0
# A detour of this length costs as much as sharing a gap with one more line [pt].
_CROWD = 1.5


@dataclass(frozen=True, slots=True)
class Hop:
    """One line's passage through one channel, from one height and side to another."""

    line: int
    channel: int
    side_in: int
    y_in: float
    side_out: int
    y_out: float

    @property
    def low(self) -> float:
        """The upper end of its lane."""
        return min(self.y_in, self.y_out)

    @property
    def high(self) -> float:
        """The lower end of its lane."""
        return max(self.y_in, self.y_out)

    def stubs(self, side: int) -> tuple[float, ...]:
        """Heights at which the line leaves the channel to a side."""
        return tuple(y for end, y in ((self.side_in, self.y_in), (self.side_out, self.y_out)) if end == side)


@dataclass(frozen=True, slots=True)
class Routes:
    """hops: of each line that leaves its block, in order from end a. lane: of each (line, channel).

    lanes: how many each channel has. links, link_lanes: the same for lines that stay in one block, whose lanes
    lie inside its frame, counted from the words outwards, by (block, face).
    """

    hops: dict[int, tuple[Hop, ...]]
    lane: dict[tuple[int, int], int]
    lanes: tuple[int, ...]
    links: dict[int, int]
    link_lanes: dict[tuple[int, int], int]


def wanted_gaps(passed: dict[int, list[tuple[int, int]]]) -> dict[tuple[int, int], float]:
    """Free height wanted before the block of that rank in a column [pt], where lines pass between blocks."""
    count = Counter(gap for way in passed.values() for gap in way)
    return {gap: ROW * ceil(tracks / 2) + 2 * _TRACK_MARGIN + ROW for gap, tracks in count.items()}


def route(picture: Picture, standing: Stack, passed: dict[int, list[tuple[int, int]]]) -> Routes:
    """Lay every line. passed: the (column, gap) by which each line passes columns, as of `gaps_passed`."""
    track_y = _tracks(standing, passed)
    hops = {
        index: _hops(index, standing, passed.get(index, []), track_y)
        for index, line in enumerate(picture.lines)
        if line.a.block != line.b.block
    }
    channels: list[list[Hop]] = [[] for _ in range(len(standing.columns) + 1)]
    for mine in hops.values():
        for hop in mine:
            channels[hop.channel].append(hop)
    lane: dict[tuple[int, int], int] = {}
    lanes = []
    for channel, inside in enumerate(channels):
        placed = _pack(inside)
        lane.update({(hop.line, channel): place for hop, place in zip(inside, placed, strict=True)})
        lanes.append(max(placed, default=-1) + 1)
    links, link_lanes = _links(picture, standing)
    return Routes(hops, lane, tuple(lanes), links, link_lanes)


def _column(standing: Stack, landing: tuple[int, str]) -> int:
    return standing.standings[standing.block_of[landing]].column


def gaps_passed(picture: Picture, standing: Stack) -> dict[int, list[tuple[int, int]]]:
    """For each line that passes columns: the (column, gap) that it passes them by, with least up and down."""
    passed = {}
    crowd: dict[tuple[int, int], int] = {}
    for index in range(len(picture.lines)):
        a, b = (index, "a"), (index, "b")
        start, goal = _column(standing, a), _column(standing, b)
        if start > goal:
            a, b, start, goal = b, a, goal, start
        if goal - start < 2:
            continue
        ways: list[tuple[float, float, list[tuple[int, int]]]] = [(0.0, standing.row_y[a], [])]
        for column in range(start + 1, goal):
            ways = [
                min(
                    (
                        cost
                        + abs(_nearest(standing, column, gap, y) - y)
                        + _CROWD * crowd.get((column, gap), 0),
                        _nearest(standing, column, gap, y),
                        [*way, (column, gap)],
                    )
                    for cost, y, way in ways
                )
                for gap in range(len(standing.columns[column]) + 1)
            ]
        best = min((cost + abs(standing.row_y[b] - y), way) for cost, y, way in ways)[1]
        for used in best:
            crowd[used] = crowd.get(used, 0) + 1
        passed[index] = best
    return passed


def _opening(standing: Stack, column: int, gap: int) -> tuple[float, float]:
    """The free heights of a gap; the first and the last gap of a column are open."""
    members = standing.columns[column]
    top = standing.standings[members[gap - 1]].bottom if gap else float("-inf")
    bottom = standing.standings[members[gap]].top if gap < len(members) else float("inf")
    return top + _TRACK_MARGIN, bottom - _TRACK_MARGIN


def _nearest(standing: Stack, column: int, gap: int, y: float) -> float:
    low, high = _opening(standing, column, gap)
    return min(max(y, low), max(low, high))


def _tracks(standing: Stack, passed: dict[int, list[tuple[int, int]]]) -> dict[tuple[int, int], float]:
    """The height at which each (line, column) passes."""
    through: dict[tuple[int, int], list[int]] = {}
    for index, way in passed.items():
        for gap in way:
            through.setdefault(gap, []).append(index)
    track_y = {}
    for (column, gap), lines in sorted(through.items()):
        wish = {
            index: _nearest(
                standing, column, gap, (standing.row_y[index, "a"] + standing.row_y[index, "b"]) / 2
            )
            for index in lines
        }
        mean = {index: standing.row_y[index, "a"] + standing.row_y[index, "b"] for index in lines}
        lines.sort(key=lambda index: (mean[index], index))
        heights = _heights(standing, column, gap, sum(wish.values()) / len(wish), len(lines))
        track_y.update({(index, column): y for index, y in zip(lines, heights, strict=True)})
    return track_y


def _heights(standing: Stack, column: int, gap: int, wish: float, count: int) -> list[float]:
    """The nearest free track heights to the wished one: two per row, off every row's line."""
    low, high = _opening(standing, column, gap)
    grid = (column % 2) * ROW / 2 + 9.5
    nearest = round((wish - grid) / ROW)
    free = [
        y
        for row in range(nearest - count - 2, nearest + count + 3)
        for y in (grid + row * ROW - TRACK_OFF_ROW, grid + row * ROW + TRACK_OFF_ROW)
        if low <= y <= high
    ]
    free.sort(key=lambda y: (abs(y - wish), y))
    return sorted(free[:count])


def _hops(
    index: int, standing: Stack, way: list[tuple[int, int]], track_y: dict[tuple[int, int], float]
) -> tuple[Hop, ...]:
    a, b = (index, "a"), (index, "b")
    start, goal = _column(standing, a), _column(standing, b)
    if start == goal:
        side = standing.face[a]
        channel = start + (side == RIGHT)
        inner = LEFT if side == RIGHT else RIGHT
        return (Hop(index, channel, inner, standing.row_y[a], inner, standing.row_y[b]),)
    heights = [track_y[index, column] for column, _ in way]
    if start < goal:
        stops = [standing.row_y[a], *heights, standing.row_y[b]]
        return tuple(
            Hop(index, start + 1 + n, LEFT, stops[n], RIGHT, stops[n + 1]) for n in range(len(stops) - 1)
        )
    stops = [standing.row_y[a], *reversed(heights), standing.row_y[b]]
    return tuple(Hop(index, start - n, RIGHT, stops[n], LEFT, stops[n + 1]) for n in range(len(stops) - 1))


def _costs(hops: list[Hop]) -> list[list[int]]:
    """Crossings between two hops when the first one's lane lies left of the second one's."""
    cost = [[0] * len(hops) for _ in hops]
    left = sorted((y, n) for n, hop in enumerate(hops) for y in hop.stubs(LEFT))
    right = sorted((y, n) for n, hop in enumerate(hops) for y in hop.stubs(RIGHT))
    for n, hop in enumerate(hops):
        for _, other in left[bisect_right(left, (hop.low, len(hops))) : bisect_left(left, (hop.high, -1))]:
            cost[n][other] += 1
        for _, other in right[bisect_right(right, (hop.low, len(hops))) : bisect_left(right, (hop.high, -1))]:
            cost[other][n] += 1
        # A stub to the right reaches over every later lane: a stub to the left at its height would lie on it.
        for y in hop.stubs(RIGHT):
            for _, other in left[
                bisect_left(left, (y - APART, -1)) : bisect_right(left, (y + APART, len(hops)))
            ]:
                cost[n][other] += _COLLISION
        cost[n][n] = 0
    return cost


def _ordered(hops: list[Hop], cost: list[list[int]]) -> list[int]:
    """Order from the left with few crossings: each hop goes where it costs least, until none wants to move."""
    order: list[int] = []
    for n in sorted(range(len(hops)), key=lambda n: (hops[n].low + hops[n].high, hops[n].line)):
        order.insert(_best_place(order, n, cost), n)
    for _ in range(_PASSES):
        moved = False
        for n in range(len(hops)):
            here = order.index(n)
            order.pop(here)
            place = _best_place(order, n, cost, here)
            moved = moved or place != here
            order.insert(place, n)
        if not moved:
            break
    return order


def _best_place(order: list[int], n: int, cost: list[list[int]], here: int = 0) -> int:
    """The cheapest place for n in the order; `here` where no other is cheaper."""
    mine = cost[n]
    change = [0]
    for other in order:
        change.append(change[-1] + cost[other][n] - mine[other])
    least = min(change)
    return here if change[here] == least else change.index(least)


def _pack(hops: list[Hop]) -> list[int]:
    """Lane of each hop: as far left as the order allows; hops that do not meet share a lane."""
    cost = _costs(hops)
    lane = [0] * len(hops)
    done: list[int] = []
    for n in _ordered(hops, cost):
        hop = hops[n]
        for other in done:
            met = hops[other]
            apart = hop.low > met.high + LANE or hop.high < met.low - LANE
            if not apart or cost[n][other] != cost[other][n]:
                lane[n] = max(lane[n], lane[other] + 1)
        done.append(n)
    return lane


def _links(picture: Picture, standing: Stack) -> tuple[dict[int, int], dict[tuple[int, int], int]]:
    """Lanes of the lines that stay in their block: short ones next to the words, long ones outside them."""
    by_face: dict[tuple[int, int], list[tuple[float, int]]] = {}
    for index, line in enumerate(picture.lines):
        if line.a.block == line.b.block:
            a, b = standing.row_y[index, "a"], standing.row_y[index, "b"]
            face = standing.block_of[index, "a"], standing.face[index, "a"]
            by_face.setdefault(face, []).append((abs(a - b), index))
    links: dict[int, int] = {}
    link_lanes = {}
    for face, inside in by_face.items():
        spans: list[list[tuple[float, float]]] = []
        for _, index in sorted(inside):
            low, high = sorted((standing.row_y[index, "a"], standing.row_y[index, "b"]))
            links[index] = next(
                (
                    n
                    for n, taken in enumerate(spans)
                    if all(high < lo - LANE or low > hi + LANE for lo, hi in taken)
                ),
                len(spans),
            )
            if links[index] == len(spans):
                spans.append([])
            spans[links[index]].append((low, high))
        link_lanes[face] = len(spans)
    return links, link_lanes
