"""Moving blocks by a few points, so that lines run straight across instead of making a small jog.

Rows of neighbouring columns stand half a row apart at first, so that no two lines can meet head on. Where a block
is moved to let its lines run level, others may come to face each other at one height: then the lane of the one
must lie before the lane of the other, and a block is moved only if such demands can all be met together.
"""

from __future__ import annotations

from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING

from schedules.drawings.rows import Landing, far_end
from schedules.drawings.style import BLOCK_GAP, CLEAR, LEVEL, ROW
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.standing import Standing

_FARTHEST = 4 * ROW

Stub = tuple[float, int]


def level(
    standings: tuple[Standing, ...],
    columns: tuple[tuple[int, ...], ...],
    gaps: dict[tuple[int, int], float],
) -> None:
    """Move each block, the least busy first, to where most of its lines run level with their other ends."""
    offsets = [standing.row_offsets() for standing in standings]
    block_of = {landing: b for b, mine in enumerate(offsets) for landing in mine}
    pulls = [
        [
            (far, offsets[far][far_end(landing)] - offset)
            for landing, offset in mine.items()
            if abs(standings[far := block_of[far_end(landing)]].column - standings[b].column) == 1
        ]
        for b, mine in enumerate(offsets)
    ]
    stubs = _Stubs(standings, columns, offsets, block_of)
    for b in sorted(range(len(standings)), key=lambda b: (len(pulls[b]), b)):
        standing = standings[b]
        here = standing.top
        room = _room(standing, standings, columns[standing.column], gaps)
        for top in _better_tops(here, [standings[far].top + down for far, down in pulls[b]], room):
            standing.top = top
            if all(can_be_ordered(*stubs.of(channel)) for channel in (standing.column, standing.column + 1)):
                break
            standing.top = here


def _better_tops(here: float, tops: list[float], room: tuple[float, float]) -> list[float]:
    """Tops at which more lines run level than here, the best first; tops: where each line alone would."""
    levels = {top: sum(abs(top - other) < LEVEL for other in tops) for top in sorted({here, *tops})}
    low, high = room
    better = [
        top
        for top, count in levels.items()
        if count > levels[here] and low <= top <= high and abs(top - here) <= _FARTHEST
    ]
    return sorted(better, key=lambda top: (-levels[top], abs(top - here), top))


def _room(
    standing: Standing,
    standings: tuple[Standing, ...],
    members: tuple[int, ...],
    gaps: dict[tuple[int, int], float],
) -> tuple[float, float]:
    """The highest and the lowest top that the block's neighbours leave it."""
    rank = members.index(standing.site.index)
    low, high = float("-inf"), float("inf")
    if rank:
        low = standings[members[rank - 1]].bottom + gaps.get((standing.column, rank), BLOCK_GAP)
    if rank + 1 < len(members):
        gap = gaps.get((standing.column, rank + 1), BLOCK_GAP)
        high = standings[members[rank + 1]].top - gap - standing.height
    return low, high


@dataclass(frozen=True, slots=True)
class _Stubs:
    """Heights at which lines enter the channels, as the blocks stand."""

    standings: tuple[Standing, ...]
    columns: tuple[tuple[int, ...], ...]
    offsets: list[dict[Landing, float]]
    block_of: dict[Landing, int]

    def of(self, channel: int) -> tuple[list[Stub], list[Stub]]:
        """Those of one channel, from its left and from its right."""
        return self._side(channel - 1, RIGHT), self._side(channel, LEFT)

    def _side(self, column: int, face: int) -> list[Stub]:
        if not 0 <= column < len(self.columns):
            return []
        return [
            (self.standings[b].top + self.offsets[b][landing], landing[0])
            for b in self.columns[column]
            for rows in self.standings[b].faces[face]
            for landing in rows
            if self.block_of[far_end(landing)] != b
        ]


def can_be_ordered(from_left: Iterable[Stub], from_right: Iterable[Stub]) -> bool:
    """Whether lanes can be ordered so that no line runs into another that comes from the other side."""
    later: TopologicalSorter[int] = TopologicalSorter()
    right = sorted(from_right)
    start = 0
    for y, line in sorted(from_left):
        while start < len(right) and right[start][0] <= y - CLEAR:
            start += 1
        for other_y, other in right[start:]:
            if other_y >= y + CLEAR:
                break
            if other != line:
                later.add(other, line)
    try:
        later.prepare()
    except CycleError:
        return False
    return True
