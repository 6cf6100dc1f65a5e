"""The proof of a plan view: its SVG is read back and held against the plan's numbers, scale and datum included."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.drawings.floor_numbers import dimensioned
from schedules.drawings.sheet_proof import DRAWN_IN, Read, elements_of, prove_dimensions, prove_words

if TYPE_CHECKING:
    from collections.abc import Iterator
    from xml.etree import ElementTree as ET

    from schedules.drawings.floor_content import FloorContent


def prove_floor(content: FloorContent, svg: str, prefix: str) -> tuple[str, ...]:
    """Every way in which a plan view differs from its plan, in words; none where it is right."""
    root, elements = elements_of(svg, prefix)
    main = elements.get(f"wall-{content.main.tag}")
    if main is None:
        return ("the range wall is missing",)
    (left, top), (right, level) = _points(main)
    if not abs(level - top) <= DRAWN_IN:
        return ("the range wall is not drawn level",)
    read = Read(elements, left, top, (right - left) / content.main.length_in, rise=-1.0)
    along, out = dimensioned(content)
    return tuple(
        itertools.chain(
            _walls(content, read),
            _things(content, read),
            _ways(content, read),
            prove_dimensions(read, along, out, ("along the range wall", "out from the range wall")),
            _tags(content, read),
            prove_words(root),
        )
    )


def _points(chain: ET.Element) -> list[tuple[float, float]]:
    pairs = (pair.split(",") for pair in (chain.get("points") or "").split())
    return [(float(x), float(y)) for x, y in pairs]


def _walls(content: FloorContent, read: Read) -> Iterator[str]:
    for wall in content.walls:
        yield from read.chain(f"wall-{wall.tag}", (wall.start, wall.end), f"wall {wall.tag}")


def _things(content: FloorContent, read: Read) -> Iterator[str]:
    for thing in content.things:
        yield from read.rectangle(f"{thing.kind.replace(' ', '-')}-{thing.tag}", thing.zone)
    for entry in content.entries:
        if not entry.far:
            yield from read.circle(f"entry-{entry.tag}", (entry.spot[0], entry.spot[1], -1.0))
        elif f"far-{entry.tag}" not in read.elements:
            yield f"{entry.tag} is not pointed to"


def _ways(content: FloorContent, read: Read) -> Iterator[str]:
    for number, piece in enumerate(content.level):
        ends = [(spot[0], spot[1]) for spot in (piece.start, piece.end)]
        yield from read.chain(f"way-{number}", ends, f"a piece of the way of {', '.join(piece.cables)}")


def _tags(content: FloorContent, read: Read) -> Iterator[str]:
    """Every box and every wall is named where it stands."""
    for entry in content.entries:
        if f"tag-{entry.tag}" not in read.elements:
            yield f"{entry.tag} has no name beside it"
    for wall in content.walls:
        if f"name-wall-{wall.tag}" not in read.elements:
            yield f"wall {wall.tag} has no name beside it"
