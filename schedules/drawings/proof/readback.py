"""A finished SVG read back as what the eye sees: boxes, words and lines with their places [pt], y down.

Knows nothing of how the drawing was laid out.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar
from xml.etree import ElementTree as ET

from schedules.drawings.errors import DrawingError
from schedules.drawings.metrics import ASCENT, DESCENT, width_pt

if TYPE_CHECKING:
    from collections.abc import Iterator

_SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")
_TRANSFORM = re.compile(r"scale\(([\d.]+)(?: [\d.]+)?\) rotate\(0\) translate\((-?[\d.]+)[ ,](-?[\d.]+)\)")

# Whatever else an element bears might move or hide it.
_GROUP_ATTRIBUTES = {"id", "class", "{http://www.w3.org/1999/xlink}href"}
_DRAWN_ATTRIBUTES = {
    *("fill", "stroke", "stroke-width", "stroke-dasharray", "d", "points", "cx", "cy", "rx", "ry", "x", "y"),
    *("text-anchor", "font-family", "font-size", "font-weight", "font-style"),
    "{http://www.w3.org/XML/1998/namespace}space",
}

# Two decimals are written; a corner's control points may be off by as much.
_ROUNDING = 0.02

Point = tuple[float, float]
Segment = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, other: Area, slack: float = 0.0) -> bool:
        """Whether another rectangle lies inside, but for slack [pt]."""
        return (
            self.left - slack <= other.left
            and other.right <= self.right + slack
            and self.top - slack <= other.top
            and other.bottom <= self.bottom + slack
        )

    def meets(self, other: Area) -> bool:
        """Whether two rectangles share any area."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def grown(self, by: float) -> Area:
        """The rectangle with every side moved outwards [pt]."""
        return Area(self.left - by, self.top - by, self.right + by, self.bottom + by)


@dataclass(frozen=True, slots=True)
class Shape:
    """One drawn outline: its extent, stroke and fill. place: its turn in the drawing order."""

    area: Area
    stroke: str
    fill: str
    width: float
    dashed: bool
    place: int


@dataclass(frozen=True, slots=True)
class Writing:
    """One line of text as drawn."""

    text: str
    area: Area
    baseline: float
    pt: float
    bold: bool
    italic: bool
    colour: str


@dataclass(frozen=True, slots=True)
class Way:
    """One drawn line. segments: its way, rounded corners taken as the square corners they round.

    slanted: whether any of it is neither level nor upright.
    """

    segments: tuple[Segment, ...]
    stroke: str
    width: float
    dashed: bool
    place: int
    slanted: bool

    @property
    def area(self) -> Area:
        """The extent of its centre line."""
        xs = [x for segment in self.segments for x, _ in segment]
        ys = [y for segment in self.segments for _, y in segment]
        return Area(min(xs), min(ys), max(xs), max(ys))

    @property
    def ends(self) -> Segment:
        """Its first and its last point."""
        return self.segments[0][0], self.segments[-1][1]


@dataclass(frozen=True, slots=True)
class Seen:
    """All that a drawing shows, by element id.

    strays: whatever belongs to no element that has one.
    title, description: what is read aloud instead.
    """

    page: Area
    shapes: dict[str, Shape]
    writings: dict[str, Writing]
    ways: dict[str, Way]
    strays: tuple[str, ...]
    title: str
    description: str


def read_back(svg: str, prefix: str = "") -> Seen:
    """Read a drawing. prefix: what stands before every id.

    Raises DrawingError for anything that can't be understood.
    """
    try:
        root = ET.fromstring(svg)  # noqa: S314 - written by our own engine
    except ET.ParseError as error:
        raise DrawingError((f"the drawing is not well-formed: {error}",)) from error
    graph = next((g for g in root.iter(f"{_SVG}g") if g.get("class") == "graph"), None)
    found = _TRANSFORM.fullmatch(graph.get("transform", "")) if graph is not None else None
    box = [float(n) for n in _NUMBER.findall(root.get("viewBox", ""))]
    if graph is None or found is None or len(box) != 4:
        raise DrawingError(("the drawing holds no graph at a known scale",))
    scale, dx, dy = (float(n) for n in found.groups())
    reader = _Reader(dx, dy, prefix)
    for place, child in enumerate(graph):
        reader.take(place, child)
    page = Area(0, 0, box[2] / scale, box[3] / scale)
    for child in root:
        if child is not graph and child.tag not in (f"{_SVG}title", f"{_SVG}desc"):
            reader.strays.append(f"<{child.tag.removeprefix(_SVG)}> beside the drawing")
    title, description = (root.findtext(f"{_SVG}{tag}") or "" for tag in ("title", "desc"))
    return Seen(page, reader.shapes, reader.writings, reader.ways, tuple(reader.strays), title, description)


class _Reader:
    """Collects what a drawing's elements show, moved from Graphviz's origin to the page's."""

    def __init__(self, dx: float, dy: float, prefix: str) -> None:
        self.dx, self.dy, self.prefix = dx, dy, prefix
        self.shapes: dict[str, Shape] = {}
        self.writings: dict[str, Writing] = {}
        self.ways: dict[str, Way] = {}
        self.strays: list[str] = []

    def take(self, place: int, element: ET.Element) -> None:
        """One child of the graph: the paper's white, or a group that bears an id of ours; else a stray."""
        kind, name = element.tag.removeprefix(_SVG), element.get("id", "")
        if kind == "polygon" and element.get("fill") == "white" and place == 0:
            return
        group = element.get("class", "").split(" ")[0]
        if kind != "g" or not name.startswith(self.prefix) or group not in ("node", "edge"):
            self.strays.append(f"<{kind} id={name!r}>")
            return
        name = name.removeprefix(self.prefix)
        for drawn in self._leaves(element, name):
            self._read(place, name, group, drawn)

    def _leaves(self, element: ET.Element, name: str) -> Iterator[ET.Element]:
        """What is drawn inside a group, through the links that may wrap it."""
        if element.attrib.keys() - _GROUP_ATTRIBUTES:
            self.strays.append(f"{name}: {sorted(element.attrib.keys() - _GROUP_ATTRIBUTES)}")
        for child in element:
            kind = child.tag.removeprefix(_SVG)
            if kind in ("g", "a"):
                yield from self._leaves(child, name)
            elif kind != "title":
                yield child

    def _read(self, place: int, name: str, group: str, drawn: ET.Element) -> None:
        kind = drawn.tag.removeprefix(_SVG)
        if drawn.attrib.keys() - _DRAWN_ATTRIBUTES or len(drawn):
            self.strays.append(f"<{kind}> in {name}: {sorted(drawn.attrib.keys() - _DRAWN_ATTRIBUTES)}")
        elif kind == "text":
            self._once(self.writings, name, self._writing(drawn))
        elif kind == "path" and group == "edge":
            self._once(self.ways, name, self._way(drawn, place))
        elif kind in ("polygon", "ellipse", "path"):
            self._once(self.shapes, name, self._shape(drawn, kind, place))
        else:
            self.strays.append(f"<{kind}> in {name}")

    def _once(self, kept: dict[str, _Seen], name: str, seen: _Seen) -> None:
        if name in kept:
            self.strays.append(f"{name} is drawn twice")
        kept[name] = seen

    def _points(self, text: str) -> list[Point]:
        numbers = [float(n) for n in _NUMBER.findall(text)]
        return [(x + self.dx, y + self.dy) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]

    def _shape(self, drawn: ET.Element, kind: str, place: int) -> Shape:
        if kind == "ellipse":
            x, y = float(drawn.get("cx", "nan")) + self.dx, float(drawn.get("cy", "nan")) + self.dy
            rx, ry = float(drawn.get("rx", "nan")), float(drawn.get("ry", "nan"))
            area = Area(x - rx, y - ry, x + rx, y + ry)
        else:
            points = self._points(drawn.get("points", "") or drawn.get("d", ""))
            xs, ys = [x for x, _ in points], [y for _, y in points]
            area = Area(min(xs), min(ys), max(xs), max(ys))
        return Shape(area, _colour(drawn, "stroke"), _colour(drawn, "fill"), *_pen(drawn), place)

    def _writing(self, drawn: ET.Element) -> Writing:
        text, pt = drawn.text or "", float(drawn.get("font-size", "nan"))
        bold, italic = drawn.get("font-weight") == "bold", drawn.get("font-style") == "italic"
        x, y = float(drawn.get("x", "nan")) + self.dx, float(drawn.get("y", "nan")) + self.dy
        width = width_pt(text, pt, bold=bold)
        left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[drawn.get("text-anchor", "start")] * width
        area = Area(left, y - ASCENT * pt, left + width, y + DESCENT * pt)
        return Writing(text, area, y, pt, bold, italic, drawn.get("fill", "#000000"))

    def _way(self, drawn: ET.Element, place: int) -> Way:
        points = self._points(drawn.get("d", ""))
        if re.sub(r"[-\d.e, ]", "", drawn.get("d", "")) != "MC" or len(points) % 3 != 1:
            raise DrawingError((f"a line's path is not one Bézier curve: {drawn.get('d', '')[:60]!r}",))
        segments: list[Segment] = []
        for n in range(0, len(points) - 1, 3):
            segments.extend(_squared(points[n : n + 4]))
        joined = _joined(segments)
        slanted = any(not (is_level(segment) or is_upright(segment)) for segment in joined)
        return Way(joined, _colour(drawn, "stroke"), *_pen(drawn), place, slanted)


_Seen = TypeVar("_Seen")


def _colour(drawn: ET.Element, what: str) -> str:
    colour = drawn.get(what, "none")
    return "none" if colour == "transparent" else colour


def _pen(drawn: ET.Element) -> tuple[float, bool]:
    return float(drawn.get("stroke-width", "1")), drawn.get("stroke-dasharray") is not None


def _squared(curve: list[Point]) -> list[Segment]:
    """A Bézier piece as straight segments: itself if it is straight, else the corner that it rounds."""
    start, first, second, end = curve
    if _on_line(start, first, end) and _on_line(start, second, end):
        return [(start, end)]
    corner = (end[0], start[1]) if abs(first[1] - start[1]) <= _ROUNDING else (start[0], end[1])
    return [(start, corner), (corner, end)]


def _on_line(start: Point, middle: Point, end: Point) -> bool:
    dx, dy = end[0] - start[0], end[1] - start[1]
    off = abs(dx * (middle[1] - start[1]) - dy * (middle[0] - start[0]))
    return off <= _ROUNDING * max(abs(dx), abs(dy), 1)


def _joined(segments: list[Segment]) -> tuple[Segment, ...]:
    """Pieces that go on in one direction as one segment; pieces without length are left out."""
    joined: list[Segment] = []
    for segment in segments:
        if is_level(segment) and is_upright(segment):
            continue
        if joined and _goes_on(joined[-1], segment):
            joined[-1] = joined[-1][0], segment[1]
        else:
            joined.append(segment)
    if not joined:
        raise DrawingError(("a line has no length",))
    return tuple(joined)


def _goes_on(before: Segment, after: Segment) -> bool:
    return (is_level(before) and is_level(after)) or (is_upright(before) and is_upright(after))


def extent(segment: Segment) -> Area:
    """The area that a segment's centre line covers."""
    (x0, y0), (x1, y1) = segment
    return Area(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def is_level(segment: Segment) -> bool:
    """Whether a segment runs from left to right."""
    return abs(segment[0][1] - segment[1][1]) <= _ROUNDING


def is_upright(segment: Segment) -> bool:
    """Whether a segment runs from top to bottom."""
    return abs(segment[0][0] - segment[1][0]) <= _ROUNDING
