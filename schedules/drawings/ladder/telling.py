"""A ladder in words: what is read aloud instead of it, and what its parts say when pointed at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import names
from schedules.drawings.finish import Told
from schedules.drawings.ladder.content import Symbol

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder, Node, Piece, Section


def told(page: Ladder) -> Told:
    """Title, alternative text and what is said on hovering."""
    hover: dict[str, str] = {}
    for s, section in enumerate(page.sections):
        for n, node in enumerate(section.nodes):
            hover[names.link(f"n{s}_{n}")] = f"{node.enclosure}.{node.name}, {node.kind.value}"
        nodes = {node.key: node for node in section.nodes}
        for n, piece in enumerate(section.pieces):
            for part in _parts(s, n, piece):
                hover[part] = f"{piece_words(piece)}: {_ends(piece, nodes)}"
    return Told(page.title, description(page), hover)


def description(page: Ladder) -> str:
    """Every section, and every piece with both its ends."""
    return " ".join(line for section in page.sections for line in _section(section))


def piece_words(piece: Piece) -> str:
    """What a piece is."""
    if piece.symbol is Symbol.FITTED:
        return piece.symbol.value
    if piece.symbol is Symbol.CONDUCTOR:
        colour = f"{piece.colour}→{piece.remarked}" if piece.remarked else piece.colour
        return " ".join(
            filter(None, (piece.name, colour, piece.size, f"in {piece.note}" if piece.note else ""))
        )
    return f"{piece.name}, {piece.symbol.value}" + (f", {piece.note}" if piece.note else "")


def _parts(section: int, n: int, piece: Piece) -> Iterator[str]:
    owner = f"p{section}_{n}"
    yield from (f"{owner}_1", f"{owner}_number") if piece.symbol.conducts else (f"{owner}_name_0",)


def _ends(piece: Piece, nodes: dict[str, Node]) -> str:
    a, b = nodes[piece.a], nodes[piece.b]
    return f"{a.enclosure}.{a.name} to {b.enclosure}.{b.name}"


def _section(section: Section) -> Iterator[str]:
    nodes = {node.key: node for node in section.nodes}
    rails = " and ".join(nodes[rail].name for rail in section.rails)
    yield f"{section.title}, between {rails}." if rails else f"{section.title}."
    yield from section.notes
    yield from (f"{piece_words(piece)}: {_ends(piece, nodes)}." for piece in section.pieces)
