"""What a ladder diagram shows: nodes, the pieces between them, rails. Nothing about where or how."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.drawings.errors import PictureError
from schedules.drawings.picture import Paper, TerminalKind
from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterator


class Symbol(StrEnum):
    """What stands between two nodes. Contacts are drawn in shelf state."""

    CONDUCTOR = "conductor"
    FITTED = "fitted wire or jumper"
    NO = "contact, normally open"
    NC = "contact, normally closed"
    BREAKER = "breaker pole"
    COIL = "coil"
    LOAD = "load"
    MOTOR = "motor"
    LAMP = "lamp"
    RESISTOR = "resistor"
    SUPPLY = "supply"

    @property
    def conducts(self) -> bool:
        """Whether both its ends are always at one potential."""
        return self in (Symbol.CONDUCTOR, Symbol.FITTED)


USERS = frozenset({Symbol.COIL, Symbol.LOAD, Symbol.MOTOR, Symbol.LAMP})
"""What energy is brought to."""


@dataclass(frozen=True, slots=True)
class Node:
    """One terminal. name: its printed name with its device; enclosure: tag; href: where its row stands."""

    key: str
    name: str
    enclosure: str
    kind: TerminalKind = TerminalKind.SCREW
    href: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """What joins two nodes.

    name: printed over it, for a conductor its number. note: printed under it. colour, remarked, size: of a conductor.
    moves: keys of the contacts that a coil operates. moved_by: keys of the coils that operate a contact. fed_by: key
    of the load that feeds a supply.
    """

    key: str
    a: str
    b: str
    symbol: Symbol
    name: str = ""
    note: str = ""
    colour: str = ""
    remarked: str = ""
    size: str = ""
    moves: tuple[str, ...] = ()
    moved_by: tuple[str, ...] = ()
    fed_by: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """Rungs between two rails. rails: node keys from the one that energy comes from; none where no source is known.

    order: node keys as energy passes them, where that is known from the whole of which this is a part.
    """

    title: str
    rails: tuple[str, ...]
    nodes: tuple[Node, ...]
    pieces: tuple[Piece, ...]
    notes: tuple[str, ...] = ()
    order: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ladder:
    """Everything that one ladder diagram shows.

    Rungs are numbered from its first section to its last.
    """

    title: str
    subtitle: str
    sections: tuple[Section, ...]
    footer: tuple[str, ...] = ()
    paper: Paper = Paper.TABLOID

    def __post_init__(self) -> None:
        failures = tuple(failure for section in self.sections for failure in _lost(section))
        if failures:
            raise PictureError(failures)


def _lost(section: Section) -> Iterator[str]:
    nodes = {node.key for node in section.nodes}
    for piece in section.pieces:
        if not {piece.a, piece.b} <= nodes:
            yield f"{section.title}: {piece.key!r} ends on a terminal that is not there"
        if piece.a == piece.b:
            yield f"{section.title}: {piece.key!r} starts and ends on the same terminal {piece.a!r}"
    used = {end for piece in section.pieces for end in (piece.a, piece.b)}
    for node in sorted(nodes - used):
        yield f"{section.title}: nothing ends on {node}"
    if not set(section.rails) <= nodes:
        yield f"{section.title}: a rail is not there"


def legible(ladder: Ladder) -> Ladder:
    """The same ladder with every text as one line of visible characters, as it will be drawn."""
    return replace(
        ladder,
        title=_line(ladder.title),
        subtitle=_line(ladder.subtitle),
        footer=tuple(_line(text) for text in ladder.footer),
        sections=tuple(
            replace(
                section,
                title=_line(section.title),
                nodes=tuple(
                    replace(node, name=_line(node.name), enclosure=_line(node.enclosure))
                    for node in section.nodes
                ),
                pieces=tuple(
                    replace(piece, name=_line(piece.name), note=_line(piece.note)) for piece in section.pieces
                ),
                notes=tuple(_line(note) for note in section.notes),
            )
            for section in ladder.sections
        ),
    )


def _line(text: str) -> str:
    return " ".join(for_terminal(text).split())
