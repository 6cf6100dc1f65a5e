"""The proof of a drawing to scale: its SVG is read back and held against the plan's numbers.

Nothing of how it was drawn is used: scale and datum are taken from the drawn wall itself, and every number that stands
beside a tick is read again and compared with where the tick is.
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
    from collections.abc import Iterator

    from schedules.drawings.wall_content import WallContent
    from schedules.site.zones import Zone

_SVG = "{http://www.w3.org/2000/svg}"
# A sixteenth is what numbers are written to; half of it, and the rounding of coordinates.
_WRITTEN_IN = 1 / 32 + 0.01
_DRAWN_IN = 0.01
_NUMBER = re.compile(r"-?(?:\d+' )?\d[\d\-/]*\"$")


@dataclass(frozen=True, slots=True)
class _Read:
    """A drawing as it was read back: its elements by id, and where wall and floor are."""

    elements: dict[str, ET.Element]
    left: float
    floor: float
    scale: float

    def along(self, x: float) -> float:
        """Along the wall [in]."""
        return (x - self.left) / self.scale

    def up(self, y: float) -> float:
        """Up from the floor [in]."""
        return (self.floor - y) / self.scale


def prove_elevation(content: WallContent, svg: str, prefix: str) -> tuple[str, ...]:
    """Every way in which an elevation differs from its plan, in words; none where it is right."""
    root = ET.fromstring(svg)  # noqa: S314  written by us
    elements = {
        name.removeprefix(prefix): element
        for element in root.iter()
        if (name := element.get("id")) is not None
    }
    frame = elements.get("wall")
    if frame is None:
        return ("the wall's outline is missing",)
    width, height = _numbers(frame, "width", "height")
    left, top = _numbers(frame, "x", "y")
    read = _Read(elements, left, top + height, width / content.wall.length_in)
    return tuple(
        itertools.chain(
            _frame(content, height / read.scale),
            _rectangles(content, read),
            _circles(content, read),
            _ways(content, read),
            _dimensions(content, read),
            _words(root),
        )
    )


def _frame(content: WallContent, height_in: float) -> Iterator[str]:
    if abs(height_in - content.height_in) > _DRAWN_IN:
        yield f"the wall is drawn {height_in:.2f} in high, not {content.height_in:.2f} in at the scale of its length"


def _rectangles(content: WallContent, read: _Read) -> Iterator[str]:
    expected: dict[str, Zone] = {f"taken-{item.tag}": item.zone for item in content.wall.taken}
    expected |= {f"cabinet-{item.tag}": item.zone for item in content.wall.cabinets}
    hood = content.hood
    if hood is not None:
        expected |= {"hood": hood.body, "service": hood.service}
    expected |= {
        f"box-{device.enclosure}": device.zone
        for device in content.devices
        if device.sized and (hood is None or device.enclosure != hood.enclosure)
    }
    for name, zone in expected.items():
        element = read.elements.get(name)
        if element is None:
            yield f"{name} is missing"
            continue
        x, y, width, height = _numbers(element, "x", "y", "width", "height")
        drawn = (read.along(x), read.along(x + width), read.up(y + height), read.up(y))
        if any(
            abs(a - b) > _DRAWN_IN
            for a, b in zip(drawn, (zone.left, zone.right, zone.bottom, zone.top), strict=True)
        ):
            yield f"{name} is drawn at {drawn}, not at {zone}"
    for number, stud in enumerate(content.wall.studs):
        element = read.elements.get(f"stud-{number}")
        if element is None:
            yield f"the stud at {stud.centre_in:g} in is missing"
            continue
        x, width = _numbers(element, "x", "width")
        if abs(read.along(x + width / 2) - stud.centre_in) > _DRAWN_IN:
            yield f"the stud at {stud.centre_in:g} in is drawn elsewhere"


def _circles(content: WallContent, read: _Read) -> Iterator[str]:
    """Holes where they are bored and as wide, and the points at which cables enter."""
    expected = {
        f"hole-{hole.tag}": (hole.along_in, hole.up_in, hole.diameter_in or 0.0) for hole in content.holes
    }
    expected |= {
        f"entry-{device.enclosure}": (device.along_in, device.up_in, -1.0) for device in content.devices
    }
    if content.hood is not None:
        expected |= {
            f"bracket-K{number}": (*spot, -1.0) for number, spot in enumerate(content.hood.holes, start=1)
        }
    for name, (along, up, diameter) in expected.items():
        element = read.elements.get(name)
        if element is None:
            yield f"{name} is missing"
            continue
        x, y, radius = _numbers(element, "cx", "cy", "r")
        if abs(read.along(x) - along) > _DRAWN_IN or abs(read.up(y) - up) > _DRAWN_IN:
            yield f"{name} is drawn at {read.along(x):.2f}, {read.up(y):.2f}, not at {along:.2f}, {up:.2f} in"
        if diameter >= 0 and abs(2 * radius / read.scale - diameter) > _DRAWN_IN:
            yield f"{name} is drawn {2 * radius / read.scale:.2f} in wide, not {diameter:.2f}"


def _ways(content: WallContent, read: _Read) -> Iterator[str]:
    for number, piece in enumerate(content.ways):
        element = read.elements.get(f"way-{number}")
        if element is None:
            yield f"a piece of the way of {', '.join(piece.cables)} is missing"
            continue
        points = [tuple(map(float, pair.split(","))) for pair in (element.get("points") or "").split()]
        ends = [content.wall.local(spot) for spot in (piece.start, piece.end)]
        drawn = [(read.along(x), read.up(y)) for x, y in points]
        if len(drawn) != 2 or any(
            abs(a[0] - b[0]) > _DRAWN_IN or abs(a[1] - b[2]) > _DRAWN_IN
            for a, b in zip(drawn, ends, strict=False)
        ):
            yield f"a piece of the way of {', '.join(piece.cables)} is drawn elsewhere"


def _dimensions(content: WallContent, read: _Read) -> Iterator[str]:
    """Every number against its tick; and every box and hole has its numbers."""
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
        x, y = _numbers(tick, "x1", "y1")
        at = read.along(x) if match[1] == "along" else read.up(y)
        if abs(parse_length(number.group()) - at) > _WRITTEN_IN:
            yield f"the dimension {words!r} stands at {at:.2f} in"
        said[match[1]] |= _tags(words[: number.start()])
    for tag in [device.enclosure for device in content.devices] + [hole.tag for hole in content.holes]:
        if tag not in said["along"]:
            yield f"{tag} has no dimension along the wall"
    for tag in [device.enclosure for device in content.devices] + [
        hole.tag for hole in content.holes if hole.member == "stud"
    ]:
        if tag not in said["up"]:
            yield f"{tag} has no dimension up from the floor"


def _tags(names: str) -> set[str]:
    """The tags of a dimension; `K1–K4` stands for all between."""
    found: set[str] = set()
    for name in names.split():
        first, dash, last = name.partition("–")
        numbers = range(int(first[1:]), int(last[1:]) + 1) if dash else ()
        found |= {f"{first[0]}{number}" for number in numbers} if dash else {name}
    return found


def _words(root: ET.Element) -> Iterator[str]:
    """All words on the sheet, none over another."""
    width, height = (float(value) for value in (root.get("viewBox") or "0 0 0 0").split()[2:])
    rooms = []
    for element in root.iter(f"{_SVG}text"):
        x, y, size = _numbers(element, "x", "y", "font-size")
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


def _numbers(element: ET.Element, *names: str) -> tuple[float, ...]:
    return tuple(float(element.get(name, "nan")) for name in names)
