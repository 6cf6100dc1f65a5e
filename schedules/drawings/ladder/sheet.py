"""A ladder as geometry: rails, uprights, pieces with their symbols, and words, section under section."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.ink import Coat
from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.key import conductor_line, legend_of
from schedules.drawings.ladder.measures import (
    BUS,
    OVER_LINE,
    OVER_NODE,
    OVER_SYMBOL,
    RAIL,
    ROW_GAP,
    RUNG_NUMBERS,
    SYMBOL,
    UNDER_LINE,
    UNDER_MARK,
    UNDER_SYMBOL,
    WORD_LINE,
    broken,
    half_width,
    wire_words,
)
from schedules.drawings.ladder.spots import settled
from schedules.drawings.ladder.symbols import SYMBOLS
from schedules.drawings.layout import Box, Layout, Stroke, Words
from schedules.drawings.marks import MARKS
from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.page import Frame, Parts, framed, mark
from schedules.drawings.style import HEADER_PT, LABEL_PT, SMALL_PT

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Ladder, Node, Piece, Section
    from schedules.drawings.ladder.rungs import Rungs, Span
    from schedules.drawings.layout import Face

_JOINT = 2.2
_SECTION_GAP = 16.0
_TITLE_LINE = 14.0
_NOTE_LINE = 11.0
_NOTE_ROOM = 420.0
_NAMES_OVER = 2


@dataclass(frozen=True, slots=True)
class Placed:
    """A section with its rungs in place, where each piece's symbol stands, the number of its first rung."""

    section: Section
    rungs: Rungs
    spots: dict[str, float]
    first_rung: int


def placed(ladder: Ladder) -> tuple[Placed, ...]:
    """Every section's rungs, numbered from the first section to the last."""
    found = []
    number = 1
    for section in ladder.sections:
        rungs, where = settled(section)
        found.append(Placed(section, rungs, where, number))
        number += rungs.count
    return tuple(found)


def rung_numbers(sections: tuple[Placed, ...]) -> dict[str, int]:
    """The number of the rung in which each element stands, by its key."""
    return {
        span.piece.key: item.first_rung + span.row
        for item in sections
        for span in item.rungs.spans
        if not span.piece.symbol.conducts
    }


def lay(page: Ladder, sections: tuple[Placed, ...], under: dict[str, str]) -> Layout:
    """Lay one page out. sections: its sections in place. under: the words under each element, by its key."""
    drawing = _Drawing(under)
    for place, item in enumerate(sections):
        drawing.add(place, item)
    return framed(Frame(page.title, page.subtitle, legend_of(page.sections), page.footer), drawing.parts)


@dataclass(slots=True)
class _Drawing:
    under: dict[str, str]
    parts: Parts = field(default_factory=Parts)
    top: float = 0.0

    def add(self, place: int, item: Placed) -> None:
        """Draw one section under those that are there."""
        section, rungs = item.section, item.rungs
        owner = f"s{place}"
        self._running(f"{owner}_title", (section.title,), HEADER_PT, _TITLE_LINE, "bold")
        for n, note in enumerate(section.notes):
            lines = wrap(note, SMALL_PT, max(_NOTE_ROOM, max(rungs.x.values(), default=0.0)))
            self._running(f"{owner}_note{n}", lines, SMALL_PT, _NOTE_LINE, "regular")
        y = self._row_heights(rungs)
        nodes = {node.key: (f"n{place}_{n}", node) for n, node in enumerate(section.nodes)}
        pieces = {piece.key: f"p{place}_{n}" for n, piece in enumerate(section.pieces)}
        for key, (first, last) in rungs.rows.items():
            if last > first:
                x = RUNG_NUMBERS + rungs.x[key]
                width = RAIL if key in section.rails else BUS
                points = ((x, y[first]), (x, y[last]))
                self.parts.strokes.append(Stroke(nodes[key][0], points, (Coat(ink.INK, width),)))
        for span in rungs.spans:
            self._piece(pieces[span.piece.key], span, item, y[span.row])
        for key in rungs.rows:
            self._node(*nodes[key], rungs, y)
        for row in range(rungs.count):
            self._words(f"r{item.first_rung + row}", 0.0, y[row] + 2.9, str(item.first_rung + row), "bold")
        self.top += _SECTION_GAP

    def _row_heights(self, rungs: Rungs) -> list[float]:
        """The height of each row's line; moves on to where the next section begins."""
        over = [OVER_LINE + WORD_LINE] * rungs.count
        under = [UNDER_LINE] * rungs.count
        for first, _ in rungs.rows.values():
            over[first] = max(over[first], OVER_NODE + _NAMES_OVER * WORD_LINE)
        for span in rungs.spans:
            if not span.piece.symbol.conducts:
                above, below = broken(span.piece.name, bold=True), broken(self.under[span.piece.key])
                over[span.row] = max(over[span.row], OVER_SYMBOL + WORD_LINE * len(above))
                under[span.row] = max(under[span.row], UNDER_SYMBOL + WORD_LINE * max(0, len(below) - 1))
            elif span.piece.symbol is Symbol.CONDUCTOR:
                under[span.row] = max(under[span.row], UNDER_LINE + 2.0)
        heights = []
        for up, down in zip(over, under, strict=True):
            heights.append(self.top + up)
            self.top += up + down + ROW_GAP
        return heights

    def _running(self, owner: str, lines: tuple[str, ...], pt: float, height: float, face: Face) -> None:
        for n, text in enumerate(lines):
            width = width_pt(text, pt, bold=face == "bold")
            self.parts.words.append(
                Words(f"{owner}_{n}", 0.0, width, self.top + 0.8 * height, text, pt, face)
            )
            self.top += height

    def _piece(self, owner: str, span: Span, item: Placed, y: float) -> None:
        piece, x = span.piece, item.rungs.x
        left, right = RUNG_NUMBERS + x[span.left], RUNG_NUMBERS + x[span.right]
        middle = RUNG_NUMBERS + item.spots[piece.key]
        if piece.symbol.conducts:
            self.parts.strokes.append(Stroke(owner, ((left, y), (right, y)), wire_coats(piece)))
            if piece.symbol is Symbol.CONDUCTOR:
                number, cable = wire_words(piece)
                self._centred(f"{owner}_number", middle, y - OVER_LINE, number, "bold")
                self._centred(f"{owner}_cable", middle, y + UNDER_LINE, cable, "regular", soft=True)
            return
        lead = wire_coats(piece)
        for name, start, end in (("left", left, middle - SYMBOL), ("right", middle + SYMBOL, right)):
            self.parts.strokes.append(Stroke(f"{owner}_{name}", ((start, y), (end, y)), lead))
        mark(self.parts, owner, SYMBOLS[piece.symbol], middle, y)
        above, below = broken(piece.name, bold=True), broken(self.under[piece.key])
        for n, text in enumerate(above):
            baseline = y - OVER_SYMBOL - WORD_LINE * (len(above) - 1 - n)
            self._centred(f"{owner}_name_{n}", middle, baseline, text, "bold")
        for n, text in enumerate(below):
            self._centred(
                f"{owner}_under_{n}", middle, y + UNDER_SYMBOL + WORD_LINE * n, text, "regular", soft=True
            )

    def _node(self, owner: str, node: Node, rungs: Rungs, y: list[float]) -> None:
        x, first = RUNG_NUMBERS + rungs.x[node.key], rungs.rows[node.key][0]
        mark(self.parts, owner, MARKS[node.kind], x, y[first])
        if node.href:
            half, top = half_width(node), y[first] - OVER_NODE - _NAMES_OVER * WORD_LINE
            area = (x - half, top, x + half, y[first] + UNDER_MARK)
            self.parts.boxes.append(Box(names.link(owner), *area, outline="", width=0, href=node.href))
        self._centred(f"{owner}_name", x, y[first] - OVER_NODE, node.name, "bold")
        self._centred(
            f"{owner}_box", x, y[first] - OVER_NODE - WORD_LINE, node.enclosure, "regular", soft=True
        )
        joints = {span.row for span in rungs.spans if node.key in (span.left, span.right)} - {first}
        for row in sorted(joints):
            box = (x - _JOINT, y[row] - _JOINT, x + _JOINT, y[row] + _JOINT)
            self.parts.boxes.append(Box(names.dot_at(owner, row), *box, fill=ink.INK, shape="circle"))

    def _centred(
        self, name: str, middle: float, baseline: float, text: str, face: Face, *, soft: bool = False
    ) -> None:
        left = middle - width_pt(text, LABEL_PT, bold=face == "bold") / 2
        self._words(name, left, baseline, text, face, soft=soft)

    def _words(
        self, name: str, left: float, baseline: float, text: str, face: Face, *, soft: bool = False
    ) -> None:
        if text:
            width = width_pt(text, LABEL_PT, bold=face == "bold")
            colour = ink.SOFT_INK if soft else ink.INK
            self.parts.words.append(Words(name, left, width, baseline, text, LABEL_PT, face, colour))


def wire_coats(piece: Piece) -> tuple[Coat, ...]:
    """How a piece's line looks: a conductor as on the other drawings, anything else in plain ink."""
    if piece.symbol is Symbol.CONDUCTOR:
        return ink.coats(conductor_line(piece))
    return (Coat(ink.PAPER, BUS + 3.0), Coat(ink.INK, BUS))
