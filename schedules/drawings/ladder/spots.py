"""Where along its line each piece's symbol and words stand: clear of every upright that crosses the line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import USERS
from schedules.drawings.ladder.measures import half_width, length
from schedules.drawings.ladder.rungs import rungs_of

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Section
    from schedules.drawings.ladder.rungs import Clearance, Rungs, Span

_CLEAR = 3.0
_TRIES = 60


def settled(section: Section) -> tuple[Rungs, dict[str, float]]:
    """A section's rungs with room for everything, and the middle of each piece's symbol and words, by key [pt].

    Where uprights crowd each other or a piece, those nodes are moved apart and all is placed again.
    """
    half = {node.key: half_width(node) for node in section.nodes}
    clearances: tuple[Clearance, ...] = ()
    for _ in range(_TRIES):
        rungs = rungs_of(section, clearances)
        found = {span.piece.key: _spot(span, rungs, half) for span in rungs.spans}
        crowded = _meeting(rungs, half) or next(
            (_more_room(span, rungs) for span in rungs.spans if found[span.piece.key] is None), None
        )
        if crowded is None:
            return rungs, _known(found)
        clearances = (*clearances, crowded)
    rungs = rungs_of(section, apart=True)
    return rungs, _known({span.piece.key: _spot(span, rungs, half) for span in rungs.spans})


def _known(found: dict[str, float | None]) -> dict[str, float]:
    return {key: middle for key, middle in found.items() if middle is not None}


def _more_room(span: Span, rungs: Rungs) -> Clearance:
    return span.left, span.right, rungs.x[span.right] - rungs.x[span.left] + length(span.piece)


def crossed_by(span: Span, rungs: Rungs) -> list[float]:
    """Where uprights of other nodes cross a piece's line [pt]."""
    left, right = rungs.x[span.left], rungs.x[span.right]
    return sorted(
        rungs.x[node]
        for node, (first, last) in rungs.rows.items()
        if node not in (span.left, span.right) and first <= span.row <= last and left < rungs.x[node] < right
    )


def _spot(span: Span, rungs: Rungs, half: dict[str, float]) -> float | None:
    """What uses energy stands as far right as it can, next to the way back; anything else as far left."""
    crossed = crossed_by(span, rungs)
    starts = [rungs.x[span.left] + half[span.left], *(x + _CLEAR for x in crossed)]
    ends = [*(x - _CLEAR for x in crossed), rungs.x[span.right] - half[span.right]]
    need = length(span.piece)
    rooms = [(low, high) for low, high in zip(starts, ends, strict=True) if high - low >= need - _CLEAR / 100]
    if not rooms:
        return None
    if span.right in rungs.returning and span.piece.symbol in USERS:
        return rooms[-1][1] - need / 2
    return rooms[0][0] + need / 2


def _meeting(rungs: Rungs, half: dict[str, float]) -> Clearance | None:
    """An upright that meets another one, or the mark and words of another node, with how far apart they must be."""
    items = list(rungs.rows.items())
    for node, (first, last) in items:
        for other, (other_first, other_last) in items:
            apart = abs(rungs.x[node] - rungs.x[other])
            if node == other or first == last:
                continue
            if first <= other_first <= last and apart < half[other] + _CLEAR:
                return node, other, half[node] + half[other] + 2 * _CLEAR
            if first <= other_last and other_first <= last and apart < _CLEAR:
                return node, other, 2 * _CLEAR
    return None
