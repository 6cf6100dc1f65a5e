"""One block as boxes and words: frame, name, terminals with their marks, and the words at each line end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.layout import Box, Stroke, Words
from schedules.drawings.marks import MARKS
from schedules.drawings.metrics import width_pt
from schedules.drawings.page import Parts, mark
from schedules.drawings.style import (
    CELL_PAD,
    CELL_PT,
    CORNER,
    HEADER_LINE,
    HEADER_PAD,
    HEADER_PT,
    HOUSING,
    LABEL_PT,
    MARK_WIDTH,
    PIECE_GAP,
    ROW,
    SMALL_PT,
    WORDS_OVER_LINE,
)
from schedules.drawings.widths import RIGHT

if TYPE_CHECKING:
    from schedules.drawings.across import Across
    from schedules.drawings.picture import Picture
    from schedules.drawings.rows import Cell, Landing
    from schedules.drawings.stacking import Stack
    from schedules.drawings.standing import Standing

# Pieces that stand farthest from the terminal, next to the frame.
_OUTERMOST = ("note", "cable")
_SOFT = frozenset(_OUTERMOST)


def draw_block(
    parts: Parts, picture: Picture, standing: Standing, place: Across, hrefs: dict[str, str]
) -> None:
    """Draw a block without the words at its line ends. hrefs: of terminals, by cell."""
    _frame(parts, picture, standing, place)
    for group, top in standing.group_tops():
        _group(parts, place, standing, group, top)
    for cell, top, bottom in standing.cell_spans():
        _cell(parts, cell, place, (standing.column, top, bottom), hrefs.get(cell.id, ""))
    for first, top, bottom in standing.housings():
        _housing(parts, names.housing(first), place.cells[standing.column], top, bottom)


def draw_label(parts: Parts, words: dict[str, str], landing: Landing, standing: Stack, place: Across) -> None:
    """Write the words at one line end over its line."""
    face, column = standing.face[landing], standing.column(landing)
    left, right = place.cells[column]
    pieces = place.widths[column].pieces[face]
    order = list(pieces)
    if face == RIGHT:
        x = right + PIECE_GAP
    else:
        x = left - sum(pieces.values()) - PIECE_GAP * len(pieces)
        order.sort(key=lambda what: _OUTERMOST.index(what) if what in _SOFT else len(_SOFT))
    for what in order:
        if what in words:
            parts.words.append(
                Words(
                    names.piece(*landing, what),
                    x,
                    pieces[what],
                    standing.row_y[landing] - WORDS_OVER_LINE,
                    words[what],
                    LABEL_PT,
                    "bold" if what == "number" else "regular",
                    colour=ink.SOFT_INK if what in _SOFT else ink.INK,
                )
            )
        x += pieces[what] + PIECE_GAP


def _frame(parts: Parts, picture: Picture, standing: Standing, place: Across) -> None:
    block, name = picture.blocks[standing.site.index], standing.site.id
    left, right = place.lefts[standing.column], place.rights[standing.column]
    band = standing.top + standing.header_height
    parts.boxes.append(Box(f"{name}_header", left, standing.top, right, band, outline="", fill=ink.HEADER))
    parts.boxes.append(Box(name, left, standing.top, right, standing.bottom, width=1.1, href=block.href))
    start = left + HEADER_PAD + 2
    baseline = standing.top + HEADER_PAD / 2 + HEADER_LINE - 3
    tag = width_pt(block.tag, HEADER_PT, bold=True)
    if block.tag:
        parts.words.append(Words(f"{name}_tag", start, tag, baseline, block.tag, HEADER_PT, "bold"))
    for n, text in enumerate(standing.header):
        if text:
            parts.words.append(
                Words(
                    f"{name}_name_{n}",
                    start if n else start + tag + (6 if tag else 0),
                    width_pt(text, HEADER_PT),
                    baseline + n * HEADER_LINE,
                    text,
                    HEADER_PT,
                )
            )


def _group(parts: Parts, place: Across, standing: Standing, first: Cell, top: float) -> None:
    left, right = place.cells[standing.column]
    parts.words.append(
        Words(
            f"{first.id}_group",
            left,
            right - left,
            top + ROW - 4.2,
            first.group,
            SMALL_PT,
            "bold",
            colour=ink.SOFT_INK,
        )
    )


def _housing(parts: Parts, name: str, cells: tuple[float, float], top: float, bottom: float) -> None:
    """A connector's outline round its pins."""
    left, right = cells[0] - HOUSING, cells[1] + HOUSING
    top, bottom = top - HOUSING, bottom + HOUSING
    middle = (left + right) / 2
    points = ((middle, top), (right, top), (right, bottom), (left, bottom), (left, top), (middle, top))
    parts.strokes.append(Stroke(name, points, (ink.OUTLINE,), CORNER))


def _cell(parts: Parts, cell: Cell, place: Across, where: tuple[int, float, float], href: str) -> None:
    """One terminal. where: its column, top and bottom."""
    column, top, bottom = where
    left, right = place.cells[column]
    middle = (top + bottom) / 2
    empty = not cell.landings or cell.kind is None
    parts.boxes.append(Box(cell.id, left, top, right, bottom, dashed=empty, href=href))
    mark(parts, cell.id, MARKS[cell.kind], left + MARK_WIDTH / 2 + 1, middle)
    if cell.designation:
        room = right - left - MARK_WIDTH - CELL_PAD
        wide = width_pt(cell.designation, CELL_PT, bold=True)
        start = left + MARK_WIDTH + (room - wide) / 2
        parts.words.append(
            Words(f"{cell.id}_designation", start, wide, middle + 3, cell.designation, CELL_PT, "bold")
        )
    if not cell.landings and cell.note:
        text = width_pt(cell.note, LABEL_PT)
        on_right = place.widths[column].note_face == RIGHT
        start = right + PIECE_GAP if on_right else left - PIECE_GAP - text
        parts.words.append(
            Words(
                f"{cell.id}_note",
                start,
                text,
                middle + 2.9,
                cell.note,
                LABEL_PT,
                "italic",
                colour=ink.SOFT_INK,
            )
        )
