"""How a line that passes a column does so: level, in a gap between two blocks, clear of the rows beside it."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from itertools import pairwise
from math import ceil, floor, inf
from statistics import fmean
from typing import TYPE_CHECKING

from schedules.drawings.rows import far_end
from schedules.drawings.stacking import grid_of
from schedules.drawings.style import CLEAR, LANE, ROW
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from schedules.drawings.stacking import Stack

# (column, rank of the block that the gap lies above; the last gap lies under the last block)
Gap = tuple[int, int]

_MARGIN = 5.0
# A detour of this length costs as much as sharing a gap with one more line [pt].
_CROWD = 1.5


def gaps_passed(standing: Stack) -> dict[int, tuple[Gap, ...]]:
    """For each line that passes columns: the gaps that it takes, with least up and down, from the left."""
    passed: dict[int, tuple[Gap, ...]] = {}
    crowd: Counter[Gap] = Counter()
    for landing in sorted(standing.block_of):
        start, goal = standing.column(landing), standing.column(far_end(landing))
        if goal - start >= 2:
            passed[landing[0]] = _way(standing, landing, range(start + 1, goal), crowd)
            crowd.update(passed[landing[0]])
    return passed


def _way(standing: Stack, landing: tuple[int, str], columns: range, crowd: Counter[Gap]) -> tuple[Gap, ...]:
    ways: list[tuple[float, float, tuple[Gap, ...]]] = [(0.0, standing.row_y[landing], ())]
    for column in columns:
        gaps = [(column, rank) for rank in range(len(standing.columns[column]) + 1)]
        ways = [min(_further(standing, way, gap, crowd[gap]) for way in ways) for gap in gaps]
    goal = standing.row_y[far_end(landing)]
    return min((cost + abs(goal - y), way) for cost, y, way in ways)[1]


def _further(
    standing: Stack, way: tuple[float, float, tuple[Gap, ...]], gap: Gap, crowd: int
) -> tuple[float, float, tuple[Gap, ...]]:
    """A way so far, its cost and height, led on through one more gap."""
    cost, y, gaps = way
    there = _nearest(standing, gap, y)
    return cost + abs(there - y) + _CROWD * crowd, there, (*gaps, gap)


def wanted_gaps(passed: dict[int, tuple[Gap, ...]], *, levelled: bool) -> dict[Gap, float]:
    """Free height wanted for each gap that lines pass through [pt]; on the grid each line takes a whole row."""
    count = Counter(gap for way in passed.values() for gap in way)
    each = ROW / 2 if levelled else ROW
    return {gap: each * (tracks + 1) + 2 * _MARGIN + ROW for gap, tracks in count.items()}


def track_heights(
    standing: Stack, passed: dict[int, tuple[Gap, ...]], *, levelled: bool
) -> dict[tuple[int, int], float]:
    """The height at which each (line, column) passes [pt].

    levelled: level with a row where there is room, clear of all others. Otherwise on the column's own grid, where
    by the grids' making no line can meet another.
    """
    through: dict[Gap, list[int]] = {}
    for index, way in passed.items():
        for gap in way:
            through.setdefault(gap, []).append(index)
    heights: dict[tuple[int, int], float] = {}
    for gap, lines in sorted(through.items()):
        middle = {index: standing.row_y[index, "a"] + standing.row_y[index, "b"] for index in lines}
        lines.sort(key=lambda index: (middle[index], index))
        wished = [_nearest(standing, gap, _wish(standing, index, gap[0], heights)) for index in lines]
        if levelled:
            taken = _taken(standing, gap[0], heights)
            chosen = _spread(list(zip(wished, lines, strict=True)), _opening(standing, gap), taken)
        else:
            chosen = _on_grid(fmean(wished), len(lines), _opening(standing, gap), grid_of(gap[0]))
        heights.update({(index, gap[0]): y for index, y in zip(lines, chosen, strict=True)})
    return heights


def _wish(standing: Stack, index: int, column: int, heights: dict[tuple[int, int], float]) -> float:
    """Level with where the line comes from, on the left."""
    left = min(("a", "b"), key=lambda end: standing.column((index, end)))
    return heights.get((index, column - 1), standing.row_y[index, left])


def _taken(standing: Stack, column: int, heights: dict[tuple[int, int], float]) -> list[tuple[float, int]]:
    """Heights at which lines leave the neighbouring columns towards this one, sorted, with the line."""
    beside = [
        (standing.row_y[landing], landing[0])
        for other, face in ((column - 1, RIGHT), (column + 1, LEFT))
        if 0 <= other < len(standing.columns)
        for b in standing.columns[other]
        for rows in standing.standings[b].faces[face]
        for landing in rows
    ]
    beside.extend((y, line) for (line, other), y in heights.items() if abs(other - column) == 1)
    return sorted(beside)


def _spread(
    wished: list[tuple[float, int]], opening: tuple[float, float], taken: list[tuple[float, int]]
) -> list[float]:
    """Heights near those wished by each line, in their order, a lane apart and clear of what others have taken.

    Where a gap is too narrow to keep clear of all that is taken, the lines stand close but apart; the order of the
    lanes beside the gap may then keep them from meeting.
    """
    low, high = opening
    down: list[float] = []
    for wish, line in wished:
        down.append(_clear(max(wish, down[-1] + LANE if down else low), line, taken, 1))
    up: list[float] = []
    for y, (_, line) in zip(reversed(down), reversed(wished), strict=True):
        up.append(_clear(min(y, up[-1] - LANE if up else high), line, taken, -1))
    up.reverse()
    if up[0] >= low and all(after - before >= LANE for before, after in pairwise(up)):
        return up
    step = min(LANE, (high - low) // len(wished))
    first = min(max(wished[0][0], low), high - step * (len(wished) - 1))
    return [first + step * n for n in range(len(wished))]


def _clear(y: float, line: int, taken: list[tuple[float, int]], way: int) -> float:
    """The nearest height from y on, up or down, that is clear of all that other lines have taken."""
    place = bisect_left(taken, (y - CLEAR, -1)) if way > 0 else bisect_left(taken, (y + CLEAR, -1)) - 1
    while 0 <= place < len(taken) and abs(taken[place][0] - y) < CLEAR:
        if taken[place][1] != line:
            y = taken[place][0] + way * CLEAR
        place += way
    return y


def _on_grid(wish: float, count: int, opening: tuple[float, float], grid: float) -> list[float]:
    """So many heights in a row on the grid, as near to the wished one as the opening allows."""
    low, high = opening
    first = round((wish - grid) / ROW - (count - 1) / 2)
    if low > -inf:
        first = max(first, ceil((low - grid) / ROW))
    if high < inf:
        first = min(first, floor((high - grid) / ROW) - count + 1)
    return [grid + ROW * (first + n) for n in range(count)]


def _opening(standing: Stack, gap: Gap) -> tuple[float, float]:
    """The free heights of a gap; the first and the last gap of a column are open."""
    column, rank = gap
    members = standing.columns[column]
    top = standing.standings[members[rank - 1]].bottom if rank else float("-inf")
    bottom = standing.standings[members[rank]].top if rank < len(members) else float("inf")
    return top + _MARGIN, bottom - _MARGIN


def _nearest(standing: Stack, gap: Gap, y: float) -> float:
    low, high = _opening(standing, gap)
    return min(max(y, low), max(low, high))
