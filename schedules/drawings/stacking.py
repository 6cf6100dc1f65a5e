"""Rows and heights: on which face and in which row each line end stands, and how high each block sits."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from math import inf
from statistics import median
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.style import (
    BLOCK_FOOT,
    BLOCK_GAP,
    HEADER_LINE,
    HEADER_PAD,
    HEADER_PT,
    LINE_IN_ROW,
    ROW,
)
from schedules.drawings.widths import LEFT, RIGHT, Width

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.placement import Arrangement
    from schedules.drawings.rows import Landing, Site

_ALIGN_PASSES = 6


@dataclass(slots=True)
class Standing:
    """One block, standing: its column, its faces' rows, its top and the height of each part [pt]."""

    site: Site
    column: int
    header: tuple[str, ...]
    faces: tuple[list[list[Landing]], list[list[Landing]]]
    slots: list[int]
    group_over: list[str]
    top: float = 0.0

    @property
    def header_height(self) -> float:
        """Height of the band with the block's name [pt]."""
        return HEADER_PAD + HEADER_LINE * len(self.header)

    @property
    def height(self) -> float:
        """Height of the whole block [pt]."""
        rows = sum(self.slots) + sum(1 for group in self.group_over if group)
        return self.header_height + HEADER_PAD + ROW * max(rows, 1) + BLOCK_FOOT

    @property
    def bottom(self) -> float:
        """Where the block ends [pt]."""
        return self.top + self.height

    def first_row(self) -> float:
        """Distance from the block's top to its first cell or group line."""
        return self.header_height + HEADER_PAD

    def row_offsets(self) -> dict[Landing, float]:
        """Each line end's line, measured from the block's top."""
        offsets = {}
        y = self.first_row()
        for cell, slots in enumerate(self.slots):
            y += ROW if self.group_over[cell] else 0
            for face in (LEFT, RIGHT):
                rows = self.faces[face][cell]
                start = y + ROW * ((slots - len(rows)) // 2)
                for place, landing in enumerate(rows):
                    offsets[landing] = start + ROW * place + LINE_IN_ROW
            y += ROW * slots
        return offsets


@dataclass(frozen=True, slots=True)
class Stack:
    """All blocks standing. columns: block indices from the top. row_y, face, block_of: of each line end."""

    standings: tuple[Standing, ...]
    columns: tuple[tuple[int, ...], ...]
    row_y: dict[Landing, float]
    face: dict[Landing, int]
    block_of: dict[Landing, int]


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
    gaps: dict[tuple[int, int], float],
) -> Stack:
    """Stand every block up.

    columns: block indices from the top. gaps: free height before the block of that rank in a column [pt], where
    more than the usual is needed.
    """
    column_of = {b: c for c, members in enumerate(columns) for b in members}
    standings = tuple(
        _stand(picture, site, column_of[site.index], widths[column_of[site.index]].total, face)
        for site in sites
    )
    for c, members in enumerate(columns):
        _pile(standings, members, [0.0] * len(members), c, gaps)
    for _ in range(2):
        _sort_rows(standings, picture)
        _align(standings, columns, gaps)
    block_of = {landing: site.index for site in sites for cell in site.cells for landing in cell.landings}
    return Stack(standings, columns, _heights(standings), face, block_of)


def header_words(picture: Picture, block_index: int, room_pt: float) -> tuple[str, ...]:
    """A block's tag and name as lines that fit into room_pt; the tag leads the first."""
    block = picture.blocks[block_index]
    words = f"{block.name} (in part)" if block.partial else block.name
    room = room_pt - 2 * HEADER_PAD - 2
    tag = width_pt(block.tag, HEADER_PT, bold=True) + 6
    if tag + width_pt(words, HEADER_PT) <= room:
        return (words,)
    return ("", *wrap(words, HEADER_PT, room))


def _stand(picture: Picture, site: Site, column: int, width: float, face: dict[Landing, int]) -> Standing:
    sides: tuple[list[list[Landing]], list[list[Landing]]] = ([], [])
    slots, group_over = [], []
    group = ""
    for cell in site.cells:
        for side in (LEFT, RIGHT):
            sides[side].append([landing for landing in cell.landings if face[landing] == side])
        slots.append(max(1, len(sides[LEFT][-1]), len(sides[RIGHT][-1])))
        group_over.append(cell.group if cell.group != group else "")
        group = cell.group
    return Standing(site, column, header_words(picture, site.index, width), sides, slots, group_over)


def _far(landing: Landing) -> Landing:
    return landing[0], "b" if landing[1] == "a" else "a"


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
                rows.sort(key=lambda landing: (y[_far(landing)], picture.lines[landing[0]].cable, landing))


def _align(
    standings: tuple[Standing, ...],
    columns: tuple[tuple[int, ...], ...],
    gaps: dict[tuple[int, int], float],
) -> None:
    """Move blocks up and down until their lines run as level as they can."""
    offsets = [standing.row_offsets() for standing in standings]
    block_of = {landing: b for b, mine in enumerate(offsets) for landing in mine}
    pulls = [
        [
            (far_block, offsets[far_block][_far(landing)] - offset)
            for landing, offset in mine.items()
            if standings[far_block := block_of[_far(landing)]].column != standings[b].column
        ]
        for b, mine in enumerate(offsets)
    ]
    for _ in range(_ALIGN_PASSES):
        for column in (*range(len(columns)), *reversed(range(len(columns)))):
            wished = [
                median(standings[far].top + down for far, down in pulls[b]) if pulls[b] else standings[b].top
                for b in columns[column]
            ]
            _pile(standings, columns[column], wished, column, gaps)


def _snap(y: float, standing: Standing) -> float:
    """The nearest height at which the block's rows fall on its column's grid.

    Neighbouring columns' grids are half a row apart, so no line of one runs into a line of the other.
    """
    phase = (standing.column % 2) * ROW / 2 - standing.first_row()
    return round((y - phase) / ROW) * ROW + phase


def _pile(
    standings: tuple[Standing, ...],
    members: tuple[int, ...],
    wished: list[float],
    column: int,
    gaps: dict[tuple[int, int], float],
) -> None:
    """Stand a column's blocks as near to the wished tops as their order and gaps allow (pooled neighbours)."""
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
    lowest_top = -inf
    for rank, b in enumerate(members):
        standing = standings[b]
        standing.top = _snap(max(shifts[rank] + base[rank], lowest_top), standing)
        if standing.top < lowest_top:
            standing.top += ROW
        lowest_top = standing.bottom + (gap[rank + 1] if rank + 1 < len(members) else 0)
