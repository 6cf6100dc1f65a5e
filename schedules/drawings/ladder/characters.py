"""A ladder in characters, for terminals that show no images: each rung as a line of its own, as energy flows.

A terminal is named wherever a rung touches it, so no upright line is needed: rungs that name one terminal meet there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import Symbol, legible
from schedules.drawings.ladder.measures import wire_words
from schedules.drawings.ladder.references import words_under
from schedules.drawings.ladder.sheet import placed, rung_numbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder, Piece
    from schedules.drawings.ladder.sheet import Placed

SIGNS = {
    Symbol.NO: "┤ ├",
    Symbol.NC: "┤/├",
    Symbol.BREAKER: "┤×├",
    Symbol.COIL: "( )",
    Symbol.LOAD: "[ ]",
    Symbol.MOTOR: "(M)",
    Symbol.LAMP: "(X)",
    Symbol.RESISTOR: "[R]",
    Symbol.SUPPLY: "(~)",
}
_WIRE = "──"
_GAP = "     "


def ladder_in_characters(ladder: Ladder) -> tuple[str, ...]:
    """The ladder as lines of text: every section with its rungs, then what the signs mean."""
    sections = placed(legible(ladder))
    under = words_under(ladder, rung_numbers(sections))
    used = {piece.symbol for item in sections for piece in item.section.pieces}
    signs = (f"{sign} {symbol}" for symbol, sign in SIGNS.items() if symbol in used)
    return (*(line for item in sections for line in _section(item, under)), "   ".join(signs))


def _section(item: Placed, under: dict[str, str]) -> Iterator[str]:
    yield item.section.title
    yield from (f"  {note}" for note in item.section.notes)
    for row in range(item.rungs.count):
        yield f"{item.first_rung + row:>4}  {_rung(item, row, under)}"
    yield ""


def _rung(item: Placed, row: int, under: dict[str, str]) -> str:
    """One rung; an enclosure is named where its terminal stands for the first time."""
    nodes = {node.key: node for node in item.section.nodes}
    first = {key: rows[0] for key, rows in item.rungs.rows.items()}

    def named(key: str) -> str:
        node = nodes[key]
        return f"{node.enclosure} {node.name}" if first[key] == row and node.enclosure else node.name

    spans = sorted(
        (span for span in item.rungs.spans if span.row == row), key=lambda span: item.rungs.x[span.left]
    )
    said, at = "", ""
    for span in spans:
        if span.left != at:
            said += f"{_GAP if said else ''}{named(span.left)}"
        said += f" {_piece(span.piece, under)} {named(span.right)}"
        at = span.right
    return said


def _piece(piece: Piece, under: dict[str, str]) -> str:
    if piece.symbol is Symbol.FITTED:
        return _WIRE
    if piece.symbol is Symbol.CONDUCTOR:
        number, cable = wire_words(piece)
        return " ".join(filter(None, (_WIRE, number, cable, _WIRE)))
    words = f"{SIGNS[piece.symbol]} {piece.name}"
    return f"{_WIRE}{words}{f' ({under[piece.key]})' if under[piece.key] else ''} {_WIRE}"
