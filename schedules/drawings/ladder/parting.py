"""A section that is too long for its paper, as parts of whole rungs; what hangs on a terminal may go on in another."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.drawings.ladder.order import energy_order
from schedules.drawings.ladder.rungs import rungs_of

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Piece, Section

GOES_ON = "Terminals of one name in several parts are one terminal."


def part_title(section: Section, part: int, parts: int) -> str:
    """What stands over a part."""
    return f"{section.title}, part {part} of {parts}"


def parts_of(section: Section, count: int) -> tuple[Section, ...]:
    """A section in so many parts, or as many as it has rungs; each has about as many of them, in their order."""
    if count <= 1:
        return (section,)
    rungs, order = rungs_of(section), energy_order(section)
    parts = min(count, rungs.count)
    part_at = {span.piece.key: span.row * parts // rungs.count for span in rungs.spans}
    found: list[list[Piece]] = [[] for _ in range(parts)]
    for piece in section.pieces:
        found[part_at[piece.key]].append(piece)
    return tuple(_part(section, tuple(pieces), order, n, parts) for n, pieces in enumerate(found, start=1))


def _part(section: Section, pieces: tuple[Piece, ...], order: tuple[str, ...], n: int, parts: int) -> Section:
    ends = {end for piece in pieces for end in (piece.a, piece.b)}
    rails = tuple(rail for rail in section.rails if rail in ends)
    return replace(
        section,
        title=part_title(section, n, parts),
        # A rail that energy goes back to is none where the one that it comes from is in another part.
        rails=rails if rails[:1] == section.rails[:1] else (),
        nodes=tuple(node for node in section.nodes if node.key in ends),
        pieces=pieces,
        notes=(*(section.notes if n == 1 else ()), GOES_ON),
        order=tuple(node for node in order if node in ends),
    )
