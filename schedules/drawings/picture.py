"""What a drawing shows: blocks, their terminals, and the lines between them. Nothing about where or how."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.drawings.errors import PictureError
from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterable


class TerminalKind(StrEnum):
    """What a conductor lands on. The last three are contact terminals, drawn in shelf state."""

    SCREW = "screw terminal"
    PIN = "connector pin"
    LEAD = "fitted lead, spliced"
    OPENING = "opening"
    COM = "common"
    NO = "normally open"
    NC = "normally closed"


@dataclass(frozen=True, slots=True)
class Terminal:
    """One point that a conductor lands on.

    key: unique in its block. designation: as marked on the device. group: the strip, connector or device that it
    belongs to, its own designation first, e.g. `X1 supply`; printed over each run of terminals that share it, and
    the designation before theirs wherever they are named. note: what is printed beside it
    while nothing lands there, e.g. `left empty`. href: where a reader who follows it arrives.
    """

    key: str
    designation: str
    kind: TerminalKind = TerminalKind.SCREW
    group: str = ""
    note: str = "left empty"
    href: str = ""


@dataclass(frozen=True, slots=True)
class Block:
    """One enclosure. Terminals are drawn in the order given; order breaks ties between blocks.

    tag: short name, used in `to TAG.TERMINAL`. partial: only what concerns this picture is shown of it.
    """

    key: str
    tag: str
    name: str
    terminals: tuple[Terminal, ...]
    order: int = 0
    partial: bool = False
    href: str = ""


@dataclass(frozen=True, slots=True)
class End:
    """Where a line ends: a block and its terminal's key; None: capped in that block, on no terminal."""

    block: str
    terminal: str | None


class Pen(StrEnum):
    """How a line is drawn that shows what it is at the moment, not its colour. Its value stands in the legend."""

    LIVE = "live: voltage to ground, or to its supply's return"
    NOW_LIVE = "live now, was not before"
    CARRIES = "not live, carries current"
    DEAD = "dead"
    NOW_DEAD = "no longer live, was before"
    OPEN = "open: no longer joins its ends"


@dataclass(frozen=True, slots=True)
class Line:
    """One conductor, or one cable in an overview.

    key: its number as printed. colour, remarked: IEC 60757 codes as bought and as re-marked, empty: none.
    size: e.g. `14 AWG`; stands in the colour's place where a line has no colour. cable: tag of its cable.
    note: printed last at both ends. pen: draws it by what it is at the moment; None: by its colour.
    """

    key: str
    a: End
    b: End
    colour: str = ""
    remarked: str = ""
    size: str = ""
    cable: str = ""
    note: str = ""
    href: str = ""
    pen: Pen | None = None


class Paper(StrEnum):
    """A sheet size."""

    LETTER = "Letter"
    A4 = "A4"
    TABLOID = "Tabloid"
    A3 = "A3"


@dataclass(frozen=True, slots=True)
class Picture:
    """Everything that one drawing shows.

    footer: lines of small print under the drawing, e.g. job, sheet, edition, date, cautions.
    description: the alternative text's first sentence; the rest is derived from what is shown. home: the pictures
    among which its blocks' places are settled; they stand there where they can be read there.
    """

    title: str
    blocks: tuple[Block, ...]
    lines: tuple[Line, ...]
    subtitle: str = ""
    footer: tuple[str, ...] = ()
    legend: bool = True
    description: str = ""
    paper: Paper = Paper.TABLOID
    home: tuple[Picture, ...] = ()

    def __post_init__(self) -> None:
        failures = (*_repeated(self), *_lost_ends(self), *_bad_links(self))
        if failures:
            raise PictureError(failures)


def _bad_links(picture: Picture) -> Iterable[str]:
    """A link leads to a place in the same document, or nowhere: text from a file can't send a reader elsewhere."""
    targets = [line.href for line in picture.lines]
    for block in picture.blocks:
        targets += [block.href, *(terminal.href for terminal in block.terminals)]
    yield from (f"link {target!r} does not start with #" for target in targets if target and target[0] != "#")


def _repeated(picture: Picture) -> Iterable[str]:
    yield from _twice("block", (block.key for block in picture.blocks))
    yield from _twice("line", (line.key for line in picture.lines))
    for block in picture.blocks:
        yield from _twice(f"block {block.key!r}: terminal", (terminal.key for terminal in block.terminals))


def _twice(what: str, keys: Iterable[str]) -> Iterable[str]:
    for key, count in Counter(keys).items():
        if count > 1:
            yield f"{what} {key!r} is there {count} times"


def _lost_ends(picture: Picture) -> Iterable[str]:
    terminals = {block.key: {terminal.key for terminal in block.terminals} for block in picture.blocks}
    for line in picture.lines:
        for end in (line.a, line.b):
            if end.block not in terminals:
                yield f"line {line.key!r} ends in block {end.block!r}, which is not there"
            elif end.terminal is not None and end.terminal not in terminals[end.block]:
                yield f"line {line.key!r} ends on terminal {end.terminal!r}, which block {end.block!r} lacks"
        if line.a == line.b and line.a.terminal is not None:
            yield f"line {line.key!r} starts and ends on the same terminal {line.a.terminal!r}"


def legible(picture: Picture) -> Picture:
    """The same picture with every text as one line of visible characters, as it will be drawn.

    Hostile characters are refused where files are read; this keeps whatever is left from breaking a drawing.
    """
    return replace(
        picture,
        title=_line(picture.title),
        subtitle=_line(picture.subtitle),
        footer=tuple(_line(text) for text in picture.footer),
        description=_line(picture.description),
        blocks=tuple(
            replace(
                block,
                tag=_line(block.tag),
                name=_line(block.name),
                terminals=tuple(
                    replace(
                        terminal,
                        designation=_line(terminal.designation),
                        group=_line(terminal.group),
                        note=_line(terminal.note),
                    )
                    for terminal in block.terminals
                ),
            )
            for block in picture.blocks
        ),
        lines=tuple(
            replace(
                line,
                key=_line(line.key),
                colour=_line(line.colour),
                remarked=_line(line.remarked),
                size=_line(line.size),
                cable=_line(line.cable),
                note=_line(line.note),
            )
            for line in picture.lines
        ),
    )


def _line(text: str) -> str:
    return " ".join(for_terminal(text).split())
