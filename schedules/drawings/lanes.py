"""Every line's way from end to end: which channels it crosses, in which lane, through which gap past a column.

A channel is the space between two columns; in it each line has one vertical lane of its own. A line that passes
a column does so in a track: level, in a gap between two blocks, at a height that no row nearby uses.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import accumulate
from typing import TYPE_CHECKING

from schedules.drawings.style import CLEAR, LANE, LEVEL
from schedules.drawings.tracks import track_heights
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.stacking import Stack
    from schedules.drawings.tracks import Gap

_PASSES = 8
# What one run of two lines into each other costs, in crossings.
_COLLISION = 1000


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

    @property
    def level(self) -> bool:
        """Whether it runs straight across and needs no lane."""
        return self.side_in != self.side_out and abs(self.y_in - self.y_out) < LEVEL

    def stubs(self, side: int) -> tuple[float, ...]:
        """Heights at which the line leaves the channel to a side."""
        return tuple(y for end, y in ((self.side_in, self.y_in), (self.side_out, self.y_out)) if end == side)


@dataclass(frozen=True, slots=True)
class Routes:
    """hops: of each line that leaves its block, in order from end a. lane: of each (line, channel).

    lanes: how many each channel has. links, link_lanes: the same for lines that stay in one block, whose lanes
    lie inside its frame, counted from the words outwards, by (block, face). collisions: how many lines no order
    of lanes keeps from running into another.
    """

    hops: dict[int, tuple[Hop, ...]]
    lane: dict[tuple[int, int], int]
    lanes: tuple[int, ...]
    links: dict[int, int]
    link_lanes: dict[tuple[int, int], int]
    collisions: int


def route(picture: Picture, standing: Stack, passed: dict[int, tuple[Gap, ...]], *, levelled: bool) -> Routes:
    """Lay every line. passed: the gaps by which lines pass columns; levelled: as for their heights there."""
    track_y = track_heights(standing, passed, levelled=levelled)
    hops = {
        index: _hops(index, standing, passed.get(index, ()), track_y)
        for index, line in enumerate(picture.lines)
        if line.a.block != line.b.block
    }
    channels: list[list[Hop]] = [[] for _ in range(len(standing.columns) + 1)]
    for mine in hops.values():
        for hop in mine:
            channels[hop.channel].append(hop)
    lane: dict[tuple[int, int], int] = {}
    lanes, collisions = [], 0
    for channel, inside in enumerate(channels):
        cost = _costs(inside)
        order = _ordered(inside, cost)
        collisions += _collisions(order, cost)
        placed = _pack(inside, order, cost)
        lane.update({(inside[n].line, channel): place for n, place in placed.items()})
        lanes.append(max(placed.values(), default=-1) + 1)
    links, link_lanes = _links(picture, standing)
    return Routes(hops, lane, tuple(lanes), links, link_lanes, collisions)


def _hops(
    index: int, standing: Stack, way: tuple[Gap, ...], track_y: dict[tuple[int, int], float]
) -> tuple[Hop, ...]:
    a, b = (index, "a"), (index, "b")
    start, goal = standing.column(a), standing.column(b)
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
                bisect_left(left, (y - CLEAR, -1)) : bisect_right(left, (y + CLEAR, len(hops)))
            ]:
                cost[n][other] += _COLLISION
        cost[n][n] = 0
    return cost


def _ordered(hops: list[Hop], cost: list[list[int]]) -> list[int]:
    """Order from the left with few crossings: each hop goes where it costs least, until none wants to move."""
    order: list[int] = []
    change = [
        [cost[other][n] - crossings for other, crossings in enumerate(mine)] for n, mine in enumerate(cost)
    ]
    for n in _without_collisions(hops, cost):
        order.insert(_best_place(order, change[n]), n)
    for _ in range(_PASSES):
        moved = False
        for n in range(len(hops)):
            here = order.index(n)
            order.pop(here)
            place = _best_place(order, change[n], here)
            moved = moved or place != here
            order.insert(place, n)
        if not moved:
            break
    return order


def _without_collisions(hops: list[Hop], cost: list[list[int]]) -> list[int]:
    """A turn for each hop such that those it must lie right of come first; from the top where they are free.

    Put in by these turns, each hop finds a place where it runs into none of those before it.
    """
    after: dict[int, list[int]] = {n: [] for n in range(len(hops))}
    waits = dict.fromkeys(range(len(hops)), 0)
    for n, mine in enumerate(cost):
        for other, crossings in enumerate(mine):
            if crossings >= _COLLISION:
                after[other].append(n)
                waits[n] += 1
    free: list[tuple[float, int, int]] = []
    for n in [n for n in waits if not waits[n]]:
        heappush(free, (hops[n].low + hops[n].high, hops[n].line, n))
    turns = []
    while free:
        n = heappop(free)[2]
        turns.append(n)
        for other in after[n]:
            waits[other] -= 1
            if not waits[other]:
                heappush(free, (hops[other].low + hops[other].high, hops[other].line, other))
    return turns + sorted(set(waits) - set(turns))


def _collisions(order: list[int], cost: list[list[int]]) -> int:
    return sum(cost[n][other] >= _COLLISION for place, n in enumerate(order) for other in order[place + 1 :])


def _best_place(order: list[int], change: list[int], here: int = 0) -> int:
    """The cheapest place for a hop in the order; `here` where no other is cheaper.

    change: what it costs more to lie right of each other hop than left of it.
    """
    prices = list(accumulate(map(change.__getitem__, order), initial=0))
    least = min(prices)
    return here if prices[here] == least else prices.index(least)


def _pack(hops: list[Hop], order: list[int], cost: list[list[int]]) -> dict[int, int]:
    """Lane of each hop that turns: as far left as the order allows; hops that do not meet share a lane."""
    lane: dict[int, int] = {}
    before: list[tuple[int, float, float]] = []
    for n in (n for n in order if not hops[n].level):
        low, high, mine, place = hops[n].low, hops[n].high, cost[n], 0
        for other, over, under in before:
            if lane[other] >= place:
                apart = low > under + LANE or high < over - LANE
                if not apart or mine[other] != cost[other][n]:
                    place = lane[other] + 1
        lane[n] = place
        before.append((n, low, high))
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
