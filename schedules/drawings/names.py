"""The ids of a drawing's elements: made from positions in the picture, never from anybody's text."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture

PIECES = ("number", "code", "far", "cable", "note")
ENDS = ("a", "b")


def block(index: int) -> str:
    """A block's frame."""
    return f"b{index}"


def terminal(block_index: int, terminal_index: int) -> str:
    """A terminal's cell."""
    return f"t{block_index}_{terminal_index}"


def cap(line_index: int, end: str) -> str:
    """The cell of a capped end."""
    return f"c{line_index}_{end}"


def line(line_index: int) -> str:
    """A line's path; its coats append their number."""
    return f"l{line_index}"


def piece(line_index: int, end: str, what: str) -> str:
    """One piece of the label at a line's end."""
    return f"l{line_index}_{end}_{what}"


def cells(picture: Picture) -> dict[tuple[int, str], str]:
    """The cell on which each line end (line's index, end) lands."""
    place: dict[tuple[str, str | None], str] = {
        (block_.key, terminal_.key): terminal(b, t)
        for b, block_ in enumerate(picture.blocks)
        for t, terminal_ in enumerate(block_.terminals)
    }
    landing = {}
    for index, line_ in enumerate(picture.lines):
        for name, end in zip(ENDS, (line_.a, line_.b), strict=True):
            capped = end.terminal is None
            landing[index, name] = cap(index, name) if capped else place[end.block, end.terminal]
    return landing


def mark_line(owner: str, number: int) -> str:
    """One stroke of the mark on a cell or in the legend."""
    return f"{owner}_mark{number}"


def mark_ring(owner: str, number: int) -> str:
    """One circle of the mark on a cell or in the legend."""
    return f"{owner}_ring{number}"


def legend(number: int) -> str:
    """One entry of the legend."""
    return f"g{number}"


def housing(cell: str) -> str:
    """The outline of a connector, by the cell of its first pin."""
    return f"{cell}_housing"


def dot(line_index: int, end: str) -> str:
    """The dot at a line's end."""
    return f"{line(line_index)}_{end}_dot"


def link(owner: str) -> str:
    """What of a drawing leads to a terminal's row when followed."""
    return f"{owner}_link"


def dot_at(owner: str, row: int) -> str:
    """The dot where a ladder's upright is joined in a row."""
    return f"{owner}_dot{row}"


def coat(stroke: str, number: int) -> str:
    """One coat of a stroke."""
    return f"{stroke}_{number}"
