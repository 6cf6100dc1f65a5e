"""A ladder's legend: each line colour, mark and symbol that it uses, and how to read it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.symbols import SYMBOLS
from schedules.drawings.legend import Entry, line_entries
from schedules.drawings.marks import MARKS, WORDS
from schedules.drawings.picture import End, Line

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Piece, Section

_JOINTS = "Lines that cross are not joined: a dot or a terminal joins."
_PLAIN = "Line without a number: fitted by the maker, or a jumper."
_ORDER = "Energy comes from the left. Over a terminal: its enclosure. Under a wire: its cable."
_GROUND = "Grounding conductors are not shown."


def legend_of(sections: tuple[Section, ...]) -> tuple[Entry, ...]:
    """The entries in the order in which they are drawn."""
    pieces = [piece for section in sections for piece in section.pieces]
    kinds = {node.kind for section in sections for node in section.nodes}
    used = {piece.symbol for piece in pieces}
    wires = line_entries(conductor_line(piece) for piece in pieces if piece.symbol is Symbol.CONDUCTOR)
    symbols = tuple(Entry(symbol.value, mark=drawn) for symbol, drawn in SYMBOLS.items() if symbol in used)
    marks = tuple(Entry(words, mark=MARKS[kind]) for kind, words in WORDS.items() if kind in kinds)
    said = (*([_PLAIN] if Symbol.FITTED in used else []), _JOINTS, _ORDER, _GROUND)
    return (*symbols, *marks, *wires, *map(Entry, said))


def conductor_line(piece: Piece) -> Line:
    """A conductor as the other drawings know it."""
    return Line(piece.key, End("", piece.a), End("", piece.b), piece.colour, piece.remarked, piece.size)
