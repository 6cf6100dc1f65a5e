"""The proof of an elevation: its SVG is read back and held against the plan's numbers.

Scale and datum are taken from the drawn wall itself, and every number that stands beside a tick is read again and
compared with where the tick is.
"""

from __future__ import annotations

import itertools
import re
from typing import TYPE_CHECKING

from schedules.drawings.sheet_proof import (
    DRAWN_IN,
    Read,
    elements_of,
    numbers,
    prove_dimensions,
    prove_words,
)
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.wall_content import Shade, WallContent
    from schedules.site.polygons import Point, Polygon

_PAIR = re.compile(r"([-\d.]+),([-\d.]+)")
_SHARES = (0.08, 0.36, 0.64, 0.92)
"""Where in each cell of a reach region the hatching is looked at, as shares of its sides."""


def prove_elevation(content: WallContent, svg: str, prefix: str) -> tuple[str, ...]:
    """Every way in which an elevation differs from its plan, in words; none where it is right."""
    root, elements = elements_of(svg, prefix)
    frame = elements.get("wall")
    if frame is None:
        return ("the wall's outline is missing",)
    width, height = numbers(frame, "width", "height")
    left, top = numbers(frame, "x", "y")
    read = Read(elements, left, top + height, width / content.wall.length_in)
    devices = [device for device in content.devices if content.first_in <= device.along_in <= content.last_in]
    return tuple(
        itertools.chain(
            _frame(content, height / read.scale),
            _rectangles(content, read),
            _circles(content, read),
            _ways(content, read),
            *(_shade(shade, read) for shade in content.shades),
            prove_dimensions(
                read,
                [device.enclosure for device in devices] + [hole.tag for hole in content.holes],
                [device.enclosure for device in devices]
                + [hole.tag for hole in content.holes if hole.member == "stud"],
                ("along the wall", "up from the floor"),
            ),
            _tags(content, read),
            prove_words(root),
        )
    )


def _frame(content: WallContent, height_in: float) -> Iterator[str]:
    if not abs(height_in - content.height_in) <= DRAWN_IN:
        yield f"the wall is drawn {height_in:.2f} in high, not {content.height_in:.2f} in at the scale of its length"


def _rectangles(content: WallContent, read: Read) -> Iterator[str]:
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
    expected |= {
        f"stud-{number}": Zone(stud.left_in, stud.right_in, 0.0, content.height_in)
        for number, stud in enumerate(content.wall.studs)
    }
    for name, zone in expected.items():
        yield from read.rectangle(name, zone)


def _circles(content: WallContent, read: Read) -> Iterator[str]:
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
    for name, circle in expected.items():
        yield from read.circle(name, circle)


def _ways(content: WallContent, read: Read) -> Iterator[str]:
    for number, piece in enumerate(content.ways):
        ends = [content.wall.local(spot) for spot in (piece.start, piece.end)]
        what = f"a piece of the way of {', '.join(piece.cables)}"
        yield from read.chain(f"way-{number}", [(along, up) for along, _, up in ends], what)


def _tags(content: WallContent, read: Read) -> Iterator[str]:
    """Every box that is named by its dimensions is named where it stands, too."""
    for device in content.devices:
        named = f"tag-{device.enclosure}" in read.elements
        if content.first_in <= device.along_in <= content.last_in and not named:
            yield f"{device.enclosure} has no name beside it"


def _shade(shade: Shade, read: Read) -> Iterator[str]:
    """The hatched region against the computed one: its area, and points in every cell of it."""
    element = read.elements.get(f"reach-{shade.cable}-region")
    if element is None:
        yield f"the region in which {shade.cable} reaches is missing"
        return
    drawn = [
        tuple((read.along(float(x)), read.up(float(y))) for x, y in _PAIR.findall(outline))
        for outline in (element.get("d") or "").split("M")[1:]
    ]
    wrong = 0
    for cell in shade.region.cells:
        near = [outline for outline in drawn if _meets(outline, cell.zone)]
        for across, up in itertools.product(_SHARES, repeat=2):
            point = (
                cell.zone.left + across * cell.zone.width,
                cell.zone.bottom + up * cell.zone.height,
            )
            if not cell.at_its_end(*point, DRAWN_IN):
                wrong += (sum(_inside(point, outline) for outline in near) % 2 == 1) != (
                    cell.allowed and cell.reached(*point)
                )
    covered = [cell.zone for cell in shade.region.cells if cell.allowed]
    stray = [outline for outline in drawn if not any(_within(outline, zone) for zone in covered)]
    if wrong or stray:
        yield f"where {shade.cable} reaches, what is hatched differs from what was computed"


def _meets(outline: Polygon, zone: Zone) -> bool:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return min(xs) < zone.right and max(xs) > zone.left and min(ys) < zone.top and max(ys) > zone.bottom


def _within(outline: Polygon, zone: Zone) -> bool:
    grown = zone.grown(DRAWN_IN)
    return all(grown.left <= x <= grown.right and grown.bottom <= y <= grown.top for x, y in outline)


def _inside(point: Point, outline: Polygon) -> bool:
    """Whether a point lies in an outline, by the sides that a line from it to the right crosses."""
    x, y = point
    crossed = 0
    for (x1, y1), (x2, y2) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (y1 <= y) != (y2 <= y):
            crossed += x < x1 + (y - y1) * (x2 - x1) / (y2 - y1)
    return crossed % 2 == 1
