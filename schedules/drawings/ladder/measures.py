"""Distances of a ladder diagram [pt], and how much room its words take."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import Symbol
from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.style import LABEL_PT

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Node, Piece

ELEMENT = 66.0
"""Length of a contact, coil or load with its words."""

SYMBOL = 15.0
"""From a symbol's middle to each of its ends."""

WORD_LINE = 9.2
OVER_LINE = 3.4
UNDER_LINE = 9.0
OVER_SYMBOL = 12.0
UNDER_SYMBOL = 17.0
OVER_NODE = 7.0
UNDER_MARK = 4.0
ROW_GAP = 9.0
RAIL = 2.0
BUS = 1.0
RUNG_NUMBERS = 18.0

_GAP = 2.5
_SHORTEST = 6.0


def half_width(node: Node) -> float:
    """Room that a node's words take to either side [pt]."""
    return max(width_pt(node.name, LABEL_PT, bold=True), width_pt(node.enclosure, LABEL_PT)) / 2 + 1.2


def length(piece: Piece) -> float:
    """Room that a piece takes between the words of its nodes [pt]."""
    if piece.symbol is Symbol.FITTED:
        return _SHORTEST
    if piece.symbol is Symbol.CONDUCTOR:
        over, under = wire_words(piece)
        return max(width_pt(over, LABEL_PT, bold=True), width_pt(under, LABEL_PT), _SHORTEST) + 2 * _GAP
    return ELEMENT


def wire_words(piece: Piece) -> tuple[str, str]:
    """What stands over and under a conductor: number and colour, cable."""
    colour = f"{piece.colour}→{piece.remarked}" if piece.remarked else piece.colour
    return f"{piece.name} {colour}".strip(), piece.note


def broken(text: str, *, bold: bool = False) -> tuple[str, ...]:
    """An element's words in lines as long as it; a word too long for a line is parted at its hyphens first."""
    room = ELEMENT - 2 * _GAP
    words = (
        word if width_pt(word, LABEL_PT, bold=bold) <= room else word.replace("-", "- ")
        for word in text.split(" ")
    )
    return wrap(" ".join(words), LABEL_PT, room, bold=bold) if text else ()
