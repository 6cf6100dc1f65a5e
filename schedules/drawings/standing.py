"""One block on its feet: which line end stands in which row of which face, and how high each part is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.style import (
    BLOCK_FOOT,
    HEADER_LINE,
    HEADER_PAD,
    HEADER_PT,
    LINE_IN_ROW,
    ROW,
)
from schedules.drawings.widths import LEFT, RIGHT

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.rows import Landing, Site


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


def header_words(picture: Picture, block_index: int, room_pt: float) -> tuple[str, ...]:
    """A block's tag and name as lines that fit into room_pt; the tag leads the first."""
    block = picture.blocks[block_index]
    words = f"{block.name} (in part)" if block.partial else block.name
    room = room_pt - 2 * HEADER_PAD - 2
    tag = width_pt(block.tag, HEADER_PT, bold=True) + 6
    if tag + width_pt(words, HEADER_PT) <= room:
        return (words,)
    return ("", *wrap(words, HEADER_PT, room))


def stand(picture: Picture, site: Site, column: int, width: float, face: dict[Landing, int]) -> Standing:
    """A block with its rows in the picture's order, not yet at its place. width: of its column [pt]."""
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
