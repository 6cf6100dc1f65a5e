"""What a drawing's legend says: each line colour and each mark that the drawing uses, and how to read it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings import ink
from schedules.drawings.marks import MARKS, WORDS
from schedules.drawings.picture import Pen
from schedules.drawings.rows import colour_words
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.ink import Coat
    from schedules.drawings.marks import Mark
    from schedules.drawings.picture import Line, Picture, TerminalKind

_NO_JOINTS = "Lines that cross are not joined. A dot is where a line ends."
_EMPTY = "Dashed terminal: nothing lands there."
_BARE = "(no insulation)"


@dataclass(frozen=True, slots=True)
class Entry:
    """One explanation. coats: of a sample line. mark: a sample mark. Neither: words only."""

    words: str
    coats: tuple[Coat, ...] = ()
    mark: Mark | None = None


def entries(picture: Picture) -> tuple[Entry, ...]:
    """The legend's entries in the order in which they are drawn; none where the picture wants no legend."""
    if not picture.legend:
        return ()
    return (
        *_pen_entries(picture.lines),
        *line_entries(line for line in picture.lines if line.pen is None),
        *_mark_entries(picture),
        *_note_entries(picture),
    )


def _pen_entries(lines: Iterable[Line]) -> tuple[Entry, ...]:
    """One sample for each pen in use, in the pens' own order."""
    first: dict[Pen, Line] = {}
    for line in lines:
        if line.pen is not None:
            first.setdefault(line.pen, line)
    return tuple(Entry(pen.value, ink.coats(first[pen])) for pen in Pen if pen in first)


def line_entries(lines: Iterable[Line]) -> tuple[Entry, ...]:
    """One sample for each colour, in the colours' own order, drawn as the first line that has it."""
    first: dict[str, Line] = {}
    for line in lines:
        if line.colour:
            first.setdefault(colour_words(line), line)
    order = {row.text("code"): place for place, row in enumerate(load("iec_60757_colour_codes").rows)}
    ranked = sorted(first, key=lambda words: (order.get(words[:2], len(order)), words))
    return tuple(
        Entry(f"{words} {_names(first[words].colour, first[words].remarked)}", ink.coats(first[words]))
        for words in ranked
    )


def _names(colour: str, remarked: str) -> str:
    name = colour_name(colour)
    return f"{name}, re-marked {colour_name(remarked)}" if remarked else name


def colour_name(code: str) -> str:
    """A colour code's name, e.g. GNYE: green-and-yellow. Two codes in a row: ground colour with tracer."""
    known = {
        row.text("code"): row.text("colour").split(" (")[0] for row in load("iec_60757_colour_codes").rows
    }
    if code == "bare":
        return _BARE
    if code in known:
        return known[code]
    base, tracer = ink.split_code(code)
    if base in known and tracer in known:
        return f"{known[base]} with {known[tracer]} tracer"
    return "not a code of IEC 60757"


def _mark_entries(picture: Picture) -> tuple[Entry, ...]:
    used: set[TerminalKind | None] = {t.kind for block in picture.blocks for t in block.terminals}
    if any(end.terminal is None for line in picture.lines for end in (line.a, line.b)):
        used.add(None)
    return tuple(Entry(words, mark=MARKS[kind]) for kind, words in WORDS.items() if kind in used)


def _note_entries(picture: Picture) -> tuple[Entry, ...]:
    landed = {(end.block, end.terminal) for line in picture.lines for end in (line.a, line.b)}
    empty = any((block.key, t.key) not in landed for block in picture.blocks for t in block.terminals)
    notes = [*([_NO_JOINTS] if picture.lines else []), *([_EMPTY] if empty else [])]
    return tuple(Entry(words) for words in notes)
