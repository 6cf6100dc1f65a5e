"""A sheet on which things are drawn to scale: lines, rectangles, circles and words, written as SVG.

Every element has an id of ours; words know the room that they take, so that none is laid over another.
"""

from __future__ import annotations

import math
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from schedules.drawings.ink import INK, PAPER
from schedules.drawings.metrics import ASCENT, DESCENT, width_pt
from schedules.text import for_html

if TYPE_CHECKING:
    from collections.abc import Iterator

FAMILY = "Arimo, Arial, Liberation Sans, Helvetica, sans-serif"

Anchor = Literal["start", "middle", "end"]
Turn = Literal[0, -90]


@dataclass(frozen=True, slots=True)
class Room:
    """What words take of a sheet [pt]."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Room) -> bool:
        """Whether two lie over one another."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn: width [pt], dashes [pt], colour, filling (`none`, or a pattern's name in brackets)."""

    width: float = 0.8
    dashes: tuple[float, ...] = ()
    colour: str = INK
    fill: str = "none"

    def attributes(self, prefix: str) -> str:
        """As SVG attributes."""
        fill = f"url(#{prefix}{self.fill[1:-1]})" if self.fill.startswith("[") else self.fill
        dashes = f' stroke-dasharray="{" ".join(_number(d) for d in self.dashes)}"' if self.dashes else ""
        return f'fill="{fill}" stroke="{self.colour}" stroke-width="{_number(self.width)}"{dashes}'


@dataclass(frozen=True, slots=True)
class Type:
    """How words are set: size [pt], bold, colour."""

    pt: float = 8.0
    bold: bool = False
    colour: str = INK


@dataclass(slots=True)
class ScaledSheet:
    """What has been drawn so far [pt], from the sheet's left upper corner.

    prefix: put before every id. bounds: where words must stand, the whole sheet where none are set.
    """

    width: float
    height: float
    prefix: str = ""
    parts: list[str] = field(default_factory=list)
    patterns: list[str] = field(default_factory=list)
    words: list[tuple[str, Room]] = field(default_factory=list)
    kept: list[Room] = field(default_factory=list)
    bounds: Room | None = None

    @contextmanager
    def clipped(self, name: str, room: Room) -> Iterator[None]:
        """Draw so that only what lies in a part of the sheet shows; words find their places within it."""
        x, y, width, height = map(
            _number, (room.left, room.top, room.right - room.left, room.bottom - room.top)
        )
        self.patterns.append(
            f'<clipPath id="{self.prefix}{name}"><rect x="{x}" y="{y}" width="{width}" height="{height}"/></clipPath>'
        )
        self.parts.append(f'<g clip-path="url(#{self.prefix}{name})">')
        self.bounds = room
        yield
        self.bounds = None
        self.parts.append("</g>")

    def line(self, name: str, start: tuple[float, float], end: tuple[float, float], pen: Pen) -> None:
        """A straight line."""
        x1, y1, x2, y2 = (_number(value) for value in (*start, *end))
        self.parts.append(
            f'<line id="{self.prefix}{name}" x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" {pen.attributes(self.prefix)}/>'
        )

    def chain(self, name: str, points: list[tuple[float, float]], pen: Pen) -> None:
        """A line with corners."""
        laid = " ".join(f"{_number(x)},{_number(y)}" for x, y in points)
        self.parts.append(
            f'<polyline id="{self.prefix}{name}" points="{laid}" {pen.attributes(self.prefix)}/>'
        )

    def rectangle(self, name: str, first: tuple[float, float], other: tuple[float, float], pen: Pen) -> None:
        """An upright rectangle, by its left upper and its right lower corner."""
        x, y, width, height = (_number(value) for value in (*first, other[0] - first[0], other[1] - first[1]))
        size = f'x="{x}" y="{y}" width="{width}" height="{height}"'
        self.parts.append(f'<rect id="{self.prefix}{name}" {size} {pen.attributes(self.prefix)}/>')

    def circle(self, name: str, centre: tuple[float, float], radius: float, pen: Pen) -> None:
        """A circle."""
        x, y, r = (_number(value) for value in (*centre, radius))
        self.parts.append(
            f'<circle id="{self.prefix}{name}" cx="{x}" cy="{y}" r="{r}" {pen.attributes(self.prefix)}/>'
        )

    def shape(self, name: str, outlines: list[list[tuple[float, float]]], pen: Pen) -> None:
        """Closed outlines as one shape; what lies in two of them is out of it."""
        data = " ".join(
            "M" + " L".join(f"{_number(x)},{_number(y)}" for x, y in outline) + " Z" for outline in outlines
        )
        self.parts.append(
            f'<path id="{self.prefix}{name}" d="{data}" fill-rule="evenodd" {pen.attributes(self.prefix)}/>'
        )

    def hatch(self, name: str, step: float, angle: float, width: float = 0.4, colour: str = INK) -> None:
        """A pattern of parallel lines [pt, degrees] that a filling may name."""
        self.patterns.append(
            f'<pattern id="{self.prefix}{name}" width="{_number(step)}" height="{_number(step)}" '
            f'patternUnits="userSpaceOnUse" patternTransform="rotate({_number(angle)})">'
            f'<line x1="{_number(step / 2)}" y1="0" x2="{_number(step / 2)}" y2="{_number(step)}" stroke="{colour}" '
            f'stroke-width="{_number(width)}"/></pattern>'
        )

    def free(self, room: Room, apart: float = 0.0) -> bool:
        """Whether words may stand here: on the sheet, over no others and nothing that they must not hide.

        apart: how far beside others, so that two names don't read as one [pt].
        """
        bounds = self.bounds or Room(0.0, 0.0, self.width, self.height)
        inside = room.left >= bounds.left and room.right <= bounds.right
        inside = inside and room.top >= bounds.top and room.bottom <= bounds.bottom
        wide = Room(room.left - apart, room.top, room.right + apart, room.bottom)
        meets = any(wide.meets(other) for _, other in self.words) or any(map(room.meets, self.kept))
        return inside and not meets

    def write(
        self,
        name: str,
        at: tuple[float, float],
        text: str,
        kind: Type,
        *,
        anchor: Anchor = "start",
        turn: Turn = 0,
        ground: bool = False,
    ) -> Room:
        """Words on a baseline that begins, ends or is centred at a point. ground: paper under them keeps lines off."""
        room = room_of(text, at, kind, anchor, turn)
        self.words.append((name, room))
        if ground:
            pen = Pen(0.0, colour="none", fill=PAPER)
            self.rectangle(f"{name}-ground", (room.left - 1, room.top), (room.right + 1, room.bottom), pen)
        x, y = (_number(value) for value in at)
        turned = f' transform="rotate({turn} {x} {y})"' if turn else ""
        weight = ' font-weight="bold"' if kind.bold else ""
        face = f'font-family="{FAMILY}" font-size="{_number(kind.pt)}"{weight}'
        self.parts.append(
            f'<text id="{self.prefix}{name}" x="{x}" y="{y}" {face} '
            f'text-anchor="{anchor}" fill="{kind.colour}"{turned}>{for_html(text)}</text>'
        )
        return room

    def svg(self, title: str, description: str) -> str:
        """The sheet as an SVG document, in points, so that it prints to scale at its full size."""
        width, height = _number(self.width), _number(self.height)
        defs = f"<defs>{''.join(self.patterns)}</defs>" if self.patterns else ""
        named = f'role="img" aria-labelledby="{self.prefix}title-text {self.prefix}description-text"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}pt" height="{height}pt" '
            f'viewBox="0 0 {width} {height}" {named}>\n'
            f'<title id="{self.prefix}title-text">{for_html(title)}</title>\n'
            f'<desc id="{self.prefix}description-text">{for_html(description)}</desc>\n{defs}\n'
            f'<rect id="{self.prefix}sheet" x="0" y="0" width="{width}" height="{height}" fill="{PAPER}"/>\n'
            + "\n".join(self.parts)
            + "\n</svg>\n"
        )


def room_of(text: str, at: tuple[float, float], kind: Type, anchor: Anchor = "start", turn: Turn = 0) -> Room:
    """The room that words would take [pt]."""
    width = width_pt(text, kind.pt, bold=kind.bold)
    before = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    up, down = ASCENT * kind.pt, DESCENT * kind.pt
    x, y = at
    if turn == 0:
        return Room(x - before, y - up, x - before + width, y + down)
    # Turned against the clock, words run up the sheet from their baseline.
    return Room(x - up, y + before - width, x + down, y + before)


def spread(places: list[float], gap: float, low: float, high: float) -> list[float]:
    """Move places in rising order apart so that none is nearer than a gap, each as little as possible.

    Where they don't all fit between low and high, they stand evenly from one to the other.
    """
    if len(places) * gap > high - low + gap:
        step = (high - low) / max(1, len(places) - 1)
        return [low + n * step for n in range(len(places))]
    # Least squares: places that would meet stand as one row, at the mean of where each would have it begin.
    rows: list[tuple[float, int]] = []
    for place in places:
        rows.append((place, 1))
        while len(rows) > 1 and rows[-1][0] < rows[-2][0] + rows[-2][1] * gap:
            (later, m), (first, n) = rows.pop(), rows.pop()
            rows.append(((first * n + (later - n * gap) * m) / (n + m), n + m))
    moved = [first + step * gap for first, count in rows for step in range(count)]
    for n, _ in enumerate(moved):
        moved[n] = max(moved[n], low + n * gap, moved[n - 1] + gap if n else low)
    for n in reversed(range(len(moved))):
        ceiling = high if n == len(moved) - 1 else moved[n + 1] - gap
        moved[n] = min(moved[n], ceiling)
    return moved


def _number(value: float) -> str:
    """A coordinate: to a ten-thousandth of a point, which no eye and no ruler sees; never -0."""
    if not math.isfinite(value):
        raise ValueError(f"a coordinate must be finite, not {value}")
    written = f"{round(value, 4) + 0.0:.4f}"
    return written.rstrip("0").rstrip(".")
