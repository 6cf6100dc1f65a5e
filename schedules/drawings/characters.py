"""A picture in characters, for terminals that show no images: each end in a line of its own, joined at the right.

A corner ends a line; where two cross, the upright one goes through and the other one passes behind it, unjoined.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Block, End, Line, Picture

_LEAD = 2
"""Columns between the longest words and the first upright."""
_APART = 2


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of text. joined: the picture's line that leaves here, None for a block's head."""

    words: str
    joined: str | None = None


def in_characters(picture: Picture) -> tuple[str, ...]:
    """The picture as lines of text: every block with the ends in it, and an upright from each end to the other."""
    rows = tuple(_rows(picture))
    spans = _spans(rows)
    lanes = _lanes(spans)
    start = max((len(row.words) for row in rows), default=0) + _LEAD
    column = {key: start + _APART * lane for key, lane in lanes.items()}
    return tuple(_line(place, row, spans, column).rstrip() for place, row in enumerate(rows))


def _rows(picture: Picture) -> Iterator[_Row]:
    blocks = {block.key: block for block in picture.blocks}
    for block in picture.blocks:
        yield _Row(for_terminal(f"{block.tag}  {block.name}"))
        for line, here, there in _ends_in(picture, block):
            yield _Row(for_terminal(_words(line, here, there, blocks)), line.key)


def _ends_in(picture: Picture, block: Block) -> list[tuple[Line, End, End]]:
    """The ends in one block, in the order of its terminals; what is capped there comes last."""
    places = {terminal.key: place for place, terminal in enumerate(block.terminals)}
    ends = [
        (line, here, there)
        for line in picture.lines
        for here, there in ((line.a, line.b), (line.b, line.a))
        if here.block == block.key
    ]
    return sorted(ends, key=lambda item: places.get(item[1].terminal or "", len(places)))


def _words(line: Line, here: End, there: End, blocks: dict[str, Block]) -> str:
    colour = f"{line.colour}→{line.remarked}" if line.remarked else line.colour or line.size
    own = _designation(here, blocks)
    far = _designation(there, blocks)
    target = f"{blocks[there.block].tag}.{far}" if far else blocks[there.block].tag
    parts = (f"{own:8}" if own else "", f"{line.key:4}", colour, "to", target)
    return "  " + " ".join(part for part in parts if part)


def _designation(end: End, blocks: dict[str, Block]) -> str:
    if end.terminal is None:
        return "capped"
    found = next(item for item in blocks[end.block].terminals if item.key == end.terminal)
    device = found.group.partition(" ")[0]
    return f"{device}:{found.designation}" if device else found.designation


def _spans(rows: tuple[_Row, ...]) -> dict[str, tuple[int, int]]:
    """From which row to which each line goes."""
    places: dict[str, list[int]] = {}
    for place, row in enumerate(rows):
        if row.joined is not None:
            places.setdefault(row.joined, []).append(place)
    return {key: (found[0], found[-1]) for key, found in places.items()}


def _lanes(spans: dict[str, tuple[int, int]]) -> dict[str, int]:
    """A lane for each line, the shortest nearest to the words; no two lines share a row of one lane."""
    lanes: dict[str, int] = {}
    taken: list[list[tuple[int, int]]] = []
    for key, (top, bottom) in sorted(spans.items(), key=lambda item: (item[1][1] - item[1][0], item[1])):
        lane = next(
            (lane for lane, others in enumerate(taken) if all(bottom < a or top > b for a, b in others)),
            len(taken),
        )
        if lane == len(taken):
            taken.append([])
        taken[lane].append((top, bottom))
        lanes[key] = lane
    return lanes


def _line(place: int, row: _Row, spans: dict[str, tuple[int, int]], column: dict[str, int]) -> str:
    """One row: its words, the run to its own upright, and the uprights that go by."""
    cells = list(row.words.ljust(max(column.values(), default=0) + 1))
    if row.joined is not None:
        corner = column[row.joined]
        cells[len(row.words) + 1 : corner] = "─" * (corner - len(row.words) - 1)
        cells[corner] = "┐" if place == spans[row.joined][0] else "┘"
    for key, (top, bottom) in spans.items():
        if top < place < bottom:
            cells[column[key]] = "│"
    return "".join(cells)
