"""Rows and heights: on which face and in which row each line end stands, and how high each block sits."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from math import inf
from statistics import fmean
from typing import TYPE_CHECKING

from schedules.drawings.levelling import level
from schedules.drawings.rows import far_end
from schedules.drawings.standing import Standing, stand
from schedules.drawings.style import BLOCK_GAP, LINE_IN_ROW, ROW
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.placement import Arrangement
    from schedules.drawings.rows import Landing, Site
    from schedules.drawings.widths import Width

_ALIGN_PASSES = 6


@dataclass(frozen=True, slots=True)
class Stack:
    """All blocks standing. columns: block indices from the top. row_y, face, block_of: of each line end."""

    standings: tuple[Standing, ...]
    columns: tuple[tuple[int, ...], ...]
    row_y: dict[Landing, float]
    face: dict[Landing, int]
    block_of: dict[Landing, int]

    def column(self, landing: Landing) -> int:
        """The column in which a line ends."""
        return self.standings[self.block_of[landing]].column


def faces(picture: Picture, arrangement: Arrangement) -> dict[Landing, int]:
    """Left or right face for each line end, so that a line leaves its block towards its other end."""
    column = {key: c for c, keys in enumerate(arrangement.columns) for key in keys}
    last = len(arrangement.columns) - 1
    face: dict[Landing, int] = {}
    busy: Counter[tuple[str, int]] = Counter()
    turning = []
    for index, line in enumerate(picture.lines):
        a, b = column[line.a.block], column[line.b.block]
        if a == b:
            turning.append((index, line))
            continue
        face[index, "a"], face[index, "b"] = (RIGHT, LEFT) if a < b else (LEFT, RIGHT)
        busy[line.a.block, face[index, "a"]] += 1
        busy[line.b.block, face[index, "b"]] += 1
    for index, line in turning:
        inward = {0: RIGHT, last: LEFT}.get(column[line.a.block]) if line.a.block != line.b.block else None
        load = [busy[line.a.block, side] + busy[line.b.block, side] for side in (LEFT, RIGHT)]
        side = inward if inward is not None else (LEFT if load[LEFT] < load[RIGHT] else RIGHT)
        face[index, "a"] = face[index, "b"] = side
    return face


def stack(
    picture: Picture,
    sites: tuple[Site, ...],
    columns: tuple[tuple[int, ...], ...],
    widths: tuple[Width, ...],
    face: dict[Landing, int],
    *,
    gaps: dict[tuple[int, int], float],
    levelled: bool,
    gathered: bool = False,
) -> Stack:
    """Stand every block up.

    columns: block indices from the top. gaps: free height before the block of that rank in a column [pt], where
    more than the usual is needed. levelled: blocks leave their column's grid where lines then run straight.
    gathered: no column reaches over or under the tallest one, so that the drawing is as low as it can be.
    """
    column_of = {b: c for c, members in enumerate(columns) for b in members}
    standings = tuple(
        stand(picture, site, column_of[site.index], widths[column_of[site.index]].total, face)
        for site in sites
    )
    for c, members in enumerate(columns):
        _pile(standings, members, [0.0] * len(members), c, gaps)
    tallest = max((standings[members[-1]].bottom for members in columns), default=0.0)
    room = tallest if gathered else inf
    for _ in range(2):
        _sort_rows(standings, picture)
        _align(standings, columns, gaps, room)
        _close_up(standings, columns, gaps)
    if levelled:
        level(standings, columns, gaps)
    block_of = {landing: site.index for site in sites for cell in site.cells for landing in cell.landings}
    return Stack(standings, columns, _heights(standings), face, block_of)


def _heights(standings: tuple[Standing, ...]) -> dict[Landing, float]:
    return {
        landing: standing.top + offset
        for standing in standings
        for landing, offset in standing.row_offsets().items()
    }


def _sort_rows(standings: tuple[Standing, ...], picture: Picture) -> None:
    """Order the rows on each terminal by where their lines go, so that they do not cross at once."""
    y = _heights(standings)
    for standing in standings:
        for side in standing.faces:
            for rows in side:
                rows.sort(key=lambda landing: (y[far_end(landing)], picture.lines[landing[0]].cable, landing))


def _align(
    standings: tuple[Standing, ...],
    columns: tuple[tuple[int, ...], ...],
    gaps: dict[tuple[int, int], float],
    room: float,
) -> None:
    """Move blocks up and down until their lines run as level as they can, from 0 to room [pt]."""
    offsets = [standing.row_offsets() for standing in standings]
    block_of = {landing: b for b, mine in enumerate(offsets) for landing in mine}
    pulls = [_pulls(b, standings, offsets, block_of) for b in range(len(standings))]
    for _ in range(_ALIGN_PASSES):
        for column in (*range(len(columns)), *reversed(range(len(columns)))):
            members = columns[column]
            wished = [
                fmean([standings[far].top + down for far, down in pulls[b]])
                if pulls[b]
                else _beside(standings, members, rank)
                for rank, b in enumerate(members)
            ]
            _pile(standings, members, wished, column, gaps, room=room)


def _close_up(
    standings: tuple[Standing, ...],
    columns: tuple[tuple[int, ...], ...],
    gaps: dict[tuple[int, int], float],
) -> None:
    """Take out, in whole rows, every band across the page in which no block stands."""
    wanted = {
        members[rank]: gaps.get((column, rank), BLOCK_GAP)
        for column, members in enumerate(columns)
        for rank in range(len(members))
    }
    bottom, shift = inf, 0.0
    for b in sorted(range(len(standings)), key=lambda b: (standings[b].top, b)):
        standing = standings[b]
        if standing.top > bottom:
            least = max(wanted[other] for other in wanted if standings[other].top >= standing.top)
            shift += max(0.0, (standing.top - bottom - least) // ROW * ROW)
        bottom = standing.bottom if bottom == inf else max(bottom, standing.bottom)
        standing.top -= shift


def _pulls(
    b: int,
    standings: tuple[Standing, ...],
    offsets: list[dict[Landing, float]],
    block_of: dict[Landing, int],
) -> list[tuple[int, float]]:
    """For each line of a block: the block at its other end, and how far under that one's top it would run level.

    Lines to other columns decide; only where there are none do those within the column.
    """
    pulls: tuple[list[tuple[int, float]], list[tuple[int, float]]] = ([], [])
    for landing, offset in offsets[b].items():
        far = block_of[far_end(landing)]
        if far != b:
            same_column = standings[far].column == standings[b].column
            pulls[same_column].append((far, offsets[far][far_end(landing)] - offset))
    return pulls[False] or pulls[True]


def _beside(standings: tuple[Standing, ...], members: tuple[int, ...], rank: int) -> float:
    """The top of a block without lines: as near to its neighbour as may be."""
    if rank:
        return standings[members[rank - 1]].bottom + BLOCK_GAP
    if len(members) > 1:
        return standings[members[1]].top - BLOCK_GAP - standings[members[0]].height
    return standings[members[0]].top


def grid_of(column: int) -> float:
    """Where a column's lines stand, modulo one row [pt].

    Neighbouring columns' grids are half a row apart, so that no line of one can run into a line of the other.
    """
    return (column % 2) * ROW / 2 + LINE_IN_ROW


def _snap(y: float, standing: Standing) -> float:
    """The nearest height at which the block's lines stand on its column's grid."""
    phase = grid_of(standing.column) - LINE_IN_ROW - standing.first_row
    return round((y - phase) / ROW) * ROW + phase


def _pile(
    standings: tuple[Standing, ...],
    members: tuple[int, ...],
    wished: list[float],
    column: int,
    gaps: dict[tuple[int, int], float],
    *,
    room: float = inf,
) -> None:
    """Stand a column's blocks as near to the wished tops as their order and gaps allow (pooled neighbours).

    room: height in which the column stays [pt]; inf for any, above 0 too.
    """
    gap = [gaps.get((column, rank), BLOCK_GAP) for rank in range(len(members))]
    base = [0.0]
    for rank in range(1, len(members)):
        base.append(base[-1] + standings[members[rank - 1]].height + gap[rank])
    pools: list[tuple[float, int]] = []
    for rank in range(len(members)):
        mean, count = wished[rank] - base[rank], 1
        while pools and pools[-1][0] > mean:
            above, n = pools.pop()
            mean, count = (mean * count + above * n) / (count + n), count + n
        pools.append((mean, count))
    shifts = [mean for mean, count in pools for _ in range(count)]
    if room < inf:
        spare = max(0.0, room - base[-1] - standings[members[-1]].height)
        shifts = [min(max(shift, 0.0), spare) for shift in shifts]
    lowest_top = -inf
    for rank, b in enumerate(members):
        standing = standings[b]
        standing.top = _snap(max(shifts[rank] + base[rank], lowest_top), standing)
        if standing.top < lowest_top:
            standing.top += ROW
        lowest_top = standing.bottom + (gap[rank + 1] if rank + 1 < len(members) else 0)
