"""Reading a drawing to scale back: its elements by id, its words and the room they take, its dimensions, its tables.

Nothing of how it was drawn is used: scale and datum are taken from what is drawn.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from schedules.drawings.scaled_sheet import Type, room_of
from schedules.quantities.lengths import parse_length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.drawings.sheet_tables import SheetTable
    from schedules.site.zones import Zone

DRAWN_IN = 0.01
"""What a coordinate may be off by, for its rounding [in]."""

# A sixteenth is what numbers are written to; half of it, and the rounding of coordinates.
_WRITTEN_IN = 1 / 32 + DRAWN_IN
_SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?(?:\d+' )?\d[\d\-/]*\"$")

Expected = tuple[float, float, float]
"""A circle: along, up or out, diameter [in]; a negative diameter is not to scale."""


@dataclass(frozen=True, slots=True)
class Read:
    """A drawing as it was read back: its elements by id, and where its datum is. rise: -1 where up runs down."""

    elements: dict[str, ET.Element]
    left: float
    floor: float
    scale: float
    rise: float = 1.0

    def along(self, x: float) -> float:
        """Along the wall [in]."""
        return (x - self.left) / self.scale

    def up(self, y: float) -> float:
        """Up from the floor, or out from the wall [in]."""
        return self.rise * (self.floor - y) / self.scale

    def rectangle(self, name: str, zone: Zone) -> Iterator[str]:
        """Say where a rectangle is not as it must be."""
        element = self.elements.get(name)
        if element is None:
            yield f"{name} is missing"
            return
        x, y, width, height = numbers(element, "x", "y", "width", "height")
        sides = sorted((self.up(y), self.up(y + height)))
        drawn = (self.along(x), self.along(x + width), *sides)
        wanted = (zone.left, zone.right, zone.bottom, zone.top)
        if not all(abs(a - b) <= DRAWN_IN for a, b in zip(drawn, wanted, strict=True)):
            yield f"{name} is drawn at {drawn}, not at {zone}"

    def circle(self, name: str, expected: Expected) -> Iterator[str]:
        """Say where a circle is not as it must be."""
        along, up, diameter = expected
        element = self.elements.get(name)
        if element is None:
            yield f"{name} is missing"
            return
        x, y, radius = numbers(element, "cx", "cy", "r")
        if not (abs(self.along(x) - along) <= DRAWN_IN and abs(self.up(y) - up) <= DRAWN_IN):
            yield f"{name} is drawn at {self.along(x):.2f}, {self.up(y):.2f}, not at {along:.2f}, {up:.2f} in"
        if diameter >= 0 and not abs(2 * radius / self.scale - diameter) <= DRAWN_IN:
            yield f"{name} is drawn {2 * radius / self.scale:.2f} in wide, not {diameter:.2f}"

    def chain(self, name: str, points: Iterable[tuple[float, float]], what: str) -> Iterator[str]:
        """Say where a line with corners is not as it must be."""
        element = self.elements.get(name)
        if element is None:
            yield f"{what} is missing"
            return
        pairs = (pair.split(",") for pair in (element.get("points") or "").split())
        drawn = [(self.along(float(x)), self.up(float(y))) for x, y in pairs]
        wanted = list(points)
        near = len(drawn) == len(wanted) and all(
            abs(a - b) <= DRAWN_IN
            for one, other in zip(drawn, wanted, strict=True)
            for a, b in zip(one, other, strict=True)
        )
        if not near:
            yield f"{what} is drawn elsewhere"


def elements_of(svg: str, prefix: str) -> tuple[ET.Element, dict[str, ET.Element]]:
    """A drawing's root, and its elements by their ids without the prefix."""
    root = ET.fromstring(svg)  # noqa: S314  written by us
    named = ((element.get("id"), element) for element in root.iter())
    return root, {name.removeprefix(prefix): element for name, element in named if name is not None}


def prove_dimensions(
    read: Read, along: Iterable[str], up: Iterable[str], ways: tuple[str, str] = ("along", "up")
) -> Iterator[str]:
    """Every number against its tick; and that what must have one has one. ways: what the measures are called."""
    said: dict[str, set[str]] = {"along": set(), "up": set()}
    for name, element in read.elements.items():
        match = re.fullmatch(r"(along|up)-(\d+)-dim-(\d+)", name)
        if match is None:
            continue
        words = "".join(element.itertext())
        number = _NUMBER.search(words)
        tick = read.elements.get(f"{match[1]}-{match[2]}-tick-{match[3]}")
        if number is None or tick is None:
            yield f"the dimension {words!r} has no number or no tick"
            continue
        x, y = numbers(tick, "x1", "y1")
        at = read.along(x) if match[1] == "along" else read.up(y)
        if not abs(parse_length(number.group()) - at) <= _WRITTEN_IN:
            yield f"the dimension {words!r} stands at {at:.2f} in"
        said[match[1]] |= _tags(words[: number.start()])
    for key, tags, way in (("along", along, ways[0]), ("up", up, ways[1])):
        for tag in tags:
            if tag not in said[key]:
                yield f"{tag} has no dimension {way}"


def prove_words(root: ET.Element) -> Iterator[str]:
    """All words on the sheet, none over another."""
    width, height = (float(value) for value in (root.get("viewBox") or "0 0 0 0").split()[2:])
    rooms = []
    for element in root.iter(f"{_SVG}text"):
        x, y, size = numbers(element, "x", "y", "font-size")
        kind = Type(size, bold=element.get("font-weight") == "bold")
        anchor = element.get("text-anchor")
        turn = -90 if "rotate(-90" in (element.get("transform") or "") else 0
        words = "".join(element.itertext())
        room = room_of(words, (x, y), kind, anchor, turn)  # type: ignore[arg-type]
        if room.left < 0 or room.top < 0 or room.right > width or room.bottom > height:
            yield f"{words!r} runs off the sheet"
        rooms.append((words, room))
    for (words, room), (other_words, other) in itertools.combinations(rooms, 2):
        if room.meets(other):
            yield f"{words!r} and {other_words!r} stand over one another"


def prove_tables(tables: Iterable[SheetTable], svg: str, prefix: str) -> tuple[str, ...]:
    """Every way in which a sheet of tables differs from them, in words; none where it is right."""
    root, elements = elements_of(svg, prefix)
    found = [*prove_words(root)]
    for table in tables:
        for number, row in enumerate(table.rows):
            for place, cell in enumerate(row):
                lines = itertools.takewhile(
                    lambda element: element is not None,
                    (elements.get(f"{table.name}-{number}-{place}-{n}") for n in itertools.count()),
                )
                read = " ".join("".join(line.itertext()) for line in lines if line is not None)
                if read.replace(" ", "") != cell.replace(" ", ""):
                    found.append(f"row {number + 1} of {table.title!r} reads {read!r}, not {cell!r}")
    return tuple(found)


def numbers(element: ET.Element, *names: str) -> tuple[float, ...]:
    """Attributes of an element as numbers; what isn't there is no number, and nothing is near it."""
    return tuple(float(element.get(name, "nan")) for name in names)


def _tags(names: str) -> set[str]:
    """The tags of a dimension; `K1–K4` stands for all between."""
    found: set[str] = set()
    for name in names.split():
        first, dash, last = name.partition("–")
        between = range(int(first[1:]), int(last[1:]) + 1) if dash else ()
        found |= {f"{first[0]}{number}" for number in between} if dash else {name}
    return found
