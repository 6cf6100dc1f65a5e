"""How wide each column of blocks must be for the words in it.

Widths are whole points: engines differ in how they round the size of a box, but not that of a whole one.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt
from schedules.drawings.names import PIECES
from schedules.drawings.style import (
    BARE_SIDE,
    CELL_PAD,
    CELL_PT,
    HEADER_PAD,
    HEADER_PT,
    LABEL_PT,
    MARK_WIDTH,
    NARROWEST_BLOCK,
    NARROWEST_CELL,
    PIECE_GAP,
    SMALL_PT,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.picture import Picture
    from schedules.drawings.rows import Landing, Site

LEFT, RIGHT = 0, 1


@dataclass(frozen=True, slots=True)
class Width:
    """Widths in one column of blocks [pt]: each face's words by piece, the cells, the side for notes."""

    pieces: tuple[dict[str, float], dict[str, float]]
    cell: float
    note: float
    note_face: int

    def words(self, face: int) -> float:
        """Width from the cells to where a face's words end."""
        pieces = self.pieces[face]
        words = sum(pieces.values()) + PIECE_GAP * (len(pieces) + 1) if pieces else BARE_SIDE
        return max(words, self.note) if face == self.note_face else words

    @property
    def total(self) -> float:
        """Width of a block without room for links inside it."""
        return self.words(LEFT) + self.cell + self.words(RIGHT)


def column_widths(
    picture: Picture,
    columns: tuple[tuple[int, ...], ...],
    sites: tuple[Site, ...],
    face: dict[Landing, int],
    words: dict[Landing, dict[str, str]],
) -> tuple[Width, ...]:
    """The widths of every column."""
    return tuple(_width(picture, [sites[b] for b in members], face, words) for members in columns)


def _width(
    picture: Picture, members: list[Site], face: dict[Landing, int], words: dict[Landing, dict[str, str]]
) -> Width:
    pieces: tuple[dict[str, float], dict[str, float]] = ({}, {})
    cells = [cell for site in members for cell in site.cells]
    for cell in cells:
        for landing in cell.landings:
            widest = pieces[face[landing]]
            for what, text in words[landing].items():
                wide = width_pt(text, LABEL_PT, bold=what == "number")
                widest[what] = max(widest.get(what, 0.0), ceil(wide))
    ordered = tuple({what: side[what] for what in PIECES if what in side} for side in pieces)
    cell_width = max(
        (NARROWEST_CELL, *(_cell_width(cell.designation, cell.group) for cell in cells)),
    )
    note = max((0.0, *(_note_width(cell.note) for cell in cells if not cell.landings)))
    note_face = LEFT if pieces[LEFT] and not pieces[RIGHT] else RIGHT
    found = Width((ordered[LEFT], ordered[RIGHT]), cell_width, note, note_face)
    narrowest = max((NARROWEST_BLOCK, *_tags(picture, members)))
    missing = narrowest - found.total
    return found if missing <= 0 else Width(found.pieces, cell_width + missing, note, note_face)


def _cell_width(designation: str, group: str) -> float:
    own = MARK_WIDTH + width_pt(designation, CELL_PT, bold=True) + 2 * CELL_PAD
    return ceil(max(own, width_pt(group, SMALL_PT, bold=True) + CELL_PAD))


def _note_width(note: str) -> float:
    return ceil(width_pt(note, LABEL_PT)) + 2 * PIECE_GAP if note else 0.0


def _tags(picture: Picture, members: list[Site]) -> Iterable[float]:
    for site in members:
        yield ceil(width_pt(picture.blocks[site.index].tag, HEADER_PT, bold=True)) + 4 * HEADER_PAD
