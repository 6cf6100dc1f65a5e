"""One block on its feet: which line end stands in which row of which face, and how high each part is."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.picture import TerminalKind
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
    from collections.abc import Iterator

    from schedules.drawings.picture import Picture
    from schedules.drawings.rows import Cell, Landing, Site


@dataclass(slots=True)
class Standing:
    """One block: its column, its name's lines, the rows on each face of each cell, its top and height [pt].

    slots: rows that each cell is high. opens: whether a cell opens a group and has a row over it for its name.
    """

    site: Site
    column: int
    header: tuple[str, ...]
    faces: tuple[list[list[Landing]], list[list[Landing]]]
    slots: list[int]
    opens: list[bool]
    top: float = 0.0
    height: float = field(init=False)

    def __post_init__(self) -> None:
        rows = sum(self.slots) + sum(self.opens)
        self.height = self.header_height + HEADER_PAD + ROW * max(rows, 1) + BLOCK_FOOT

    @property
    def header_height(self) -> float:
        """Height of the band with the block's name [pt]."""
        return HEADER_PAD + HEADER_LINE * len(self.header)

    @property
    def bottom(self) -> float:
        """Where the block ends [pt]."""
        return self.top + self.height

    @property
    def first_row(self) -> float:
        """Distance from the block's top to its first row [pt]."""
        return self.header_height + HEADER_PAD

    def row_offsets(self) -> dict[Landing, float]:
        """Each line end's line, measured from the block's top [pt]."""
        offsets = {}
        for n, (_, top, _) in enumerate(self.cell_spans()):
            for face in (LEFT, RIGHT):
                rows = self.faces[face][n]
                start = top - self.top + ROW * ((self.slots[n] - len(rows)) // 2) + LINE_IN_ROW
                offsets.update({landing: start + ROW * place for place, landing in enumerate(rows)})
        return offsets

    def cell_spans(self) -> Iterator[tuple[Cell, float, float]]:
        """Each cell with its top and bottom [pt]."""
        y = self.top + self.first_row
        for n, cell in enumerate(self.site.cells):
            y += ROW * self.opens[n]
            yield cell, y, y + ROW * self.slots[n]
            y += ROW * self.slots[n]

    def group_tops(self) -> Iterator[tuple[Cell, float]]:
        """The first cell of each named group, with the top of the row for the group's name [pt]."""
        for n, (cell, top, _) in enumerate(self.cell_spans()):
            if self.opens[n] and cell.group:
                yield cell, top - ROW

    def housings(self) -> Iterator[tuple[str, float, float]]:
        """Each connector: its first pin's cell, and the top and bottom of its pins [pt]."""
        spans = list(self.cell_spans())
        n = 0
        while n < len(spans):
            cell, top, bottom = spans[n]
            n += 1
            if cell.kind is not TerminalKind.PIN:
                continue
            while n < len(spans) and spans[n][0].kind is TerminalKind.PIN and not self.opens[n]:
                bottom = spans[n][2]
                n += 1
            yield cell.id, top, bottom


def stand(picture: Picture, site: Site, column: int, width: float, face: dict[Landing, int]) -> Standing:
    """A block with its rows in the picture's order, not yet at its place. width: of its column [pt]."""
    sides: tuple[list[list[Landing]], list[list[Landing]]] = ([], [])
    for cell in site.cells:
        for side in (LEFT, RIGHT):
            sides[side].append([landing for landing in cell.landings if face[landing] == side])
    slots = [max(1, len(left), len(right)) for left, right in zip(*sides, strict=True)]
    return Standing(site, column, _header(picture, site.index, width), sides, slots, _opens(site.cells))


def _opens(cells: tuple[Cell, ...]) -> list[bool]:
    """A row is kept free where a group starts, and where pins begin or end, so that a housing touches nothing."""
    opens = []
    for n, cell in enumerate(cells):
        before = cells[n - 1] if n else None
        group = before.group if before else ""
        pins = before is not None and (before.kind is TerminalKind.PIN) != (cell.kind is TerminalKind.PIN)
        opens.append(cell.group != group or pins)
    return opens


def _header(picture: Picture, block_index: int, room_pt: float) -> tuple[str, ...]:
    """A block's name as lines that fit into room_pt; the first one stands behind the tag."""
    block = picture.blocks[block_index]
    words = f"{block.name} (in\u00a0part)" if block.partial else block.name
    room = room_pt - 2 * HEADER_PAD - 2
    tag = width_pt(block.tag, HEADER_PT, bold=True)
    return wrap(words, HEADER_PT, room, first_pt=room - tag - 6 if tag else room)
