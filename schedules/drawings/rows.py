"""What stands on each block: its cells in order, the line ends on each, and the words at every end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings import names

if TYPE_CHECKING:
    from schedules.drawings.picture import End, Line, Picture, TerminalKind

# One line end: the line's place in the picture and which of its ends.
Landing = tuple[int, str]


def far_end(landing: Landing) -> Landing:
    """The same line's other end."""
    return landing[0], "b" if landing[1] == "a" else "a"


@dataclass(frozen=True, slots=True)
class Cell:
    """One terminal, or one capped end, of a block. kind is None for a capped end."""

    id: str
    designation: str
    kind: TerminalKind | None
    group: str
    note: str
    landings: tuple[Landing, ...]


@dataclass(frozen=True, slots=True)
class Site:
    """One block's cells, in the order in which they are drawn."""

    id: str
    index: int
    cells: tuple[Cell, ...]


def sites(picture: Picture) -> tuple[Site, ...]:
    """Every block of a picture with its cells; capped ends stand below the terminals."""
    landings: dict[str, list[Landing]] = {}
    for landing, cell in names.cells(picture).items():
        landings.setdefault(cell, []).append(landing)
    capped: dict[str, list[Cell]] = {}
    for index, line in enumerate(picture.lines):
        for name, end in zip(names.ENDS, (line.a, line.b), strict=True):
            if end.terminal is None:
                cap = Cell(names.cap(index, name), "capped", None, "", "", ((index, name),))
                capped.setdefault(end.block, []).append(cap)
    found = []
    for b, block in enumerate(picture.blocks):
        cells = [
            Cell(
                names.terminal(b, t),
                terminal.designation,
                terminal.kind,
                terminal.group,
                terminal.note,
                tuple(landings.get(names.terminal(b, t), ())),
            )
            for t, terminal in enumerate(block.terminals)
        ]
        cells.extend(capped.get(block.key, ()))
        found.append(Site(names.block(b), b, tuple(cells)))
    return tuple(found)


def ends_of(line: Line, end: str) -> tuple[End, End]:
    """A line's near and far end, seen from `a` or `b`."""
    return (line.a, line.b) if end == "a" else (line.b, line.a)


def labels(picture: Picture) -> dict[Landing, dict[str, str]]:
    """The words at every line end, by piece; empty pieces are left out."""
    tags = {block.key: block.tag for block in picture.blocks}
    points = point_words(picture)

    def far_words(near: End, far: End) -> str:
        if far.terminal is None:
            return f"capped in {tags[far.block]}"
        point = points[far.block, far.terminal]
        if point and near.block == far.block:
            return f"to {point}"
        return f"to {tags[far.block]}.{point}" if point else f"to {tags[far.block]}"

    words = {}
    for index, line in enumerate(picture.lines):
        for name in names.ENDS:
            pieces = {
                "number": line.key,
                "code": colour_words(line),
                "far": far_words(*ends_of(line, name)),
                "cable": line.cable,
                "note": line.note,
            }
            words[index, name] = {what: text for what, text in pieces.items() if text}
    return words


def point_words(picture: Picture) -> dict[tuple[str, str], str]:
    """Each terminal's name in its block, by block and terminal: behind its group's designation, e.g. `X1:3`."""
    words = {}
    for block in picture.blocks:
        for terminal in block.terminals:
            group = terminal.group.split(" ", 1)[0]
            parts = [part for part in (group, terminal.designation) if part]
            words[block.key, terminal.key] = ":".join(parts)
    return words


def colour_words(line: Line) -> str:
    """Colour codes as bought and as re-marked, e.g. `WH→BK`; a line without colour says its size."""
    if not line.colour:
        return line.size
    return f"{line.colour}→{line.remarked}" if line.remarked else line.colour
