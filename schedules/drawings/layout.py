"""A drawing as geometry: boxes, words and strokes with their places [pt], x to the right, y down."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, Literal

from schedules.drawings.ink import INK
from schedules.drawings.metrics import known

if TYPE_CHECKING:
    from schedules.drawings.ink import Coat

Point = tuple[float, float]
Face = Literal["regular", "bold", "italic"]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, or the circle that fits it."""

    id: str
    left: float
    top: float
    right: float
    bottom: float
    outline: str = INK
    fill: str = ""
    width: float = 0.8
    shape: Literal["box", "circle"] = "box"
    dashed: bool = False
    href: str = ""

    def moved(self, dx: float, dy: float) -> Box:
        """The same so far to the right and down [pt]."""
        return Box(
            self.id,
            self.left + dx,
            self.top + dy,
            self.right + dx,
            self.bottom + dy,
            self.outline,
            self.fill,
            self.width,
            self.shape,
            self.dashed,
            self.href,
        )


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text from left on, so wide, its baseline at the given height.

    room: width of the box in which an engine may set it [pt].
    """

    id: str
    left: float
    width: float
    baseline: float
    text: str
    pt: float
    face: Face = "regular"
    colour: str = INK

    @property
    def room(self) -> int:  # noqa: D102 - described above
        # Measured on two engines: up to 3.5 % wider than we do; a character outside ASCII as wide as a space for
        # each of its bytes; one that there is no glyph for as wide as a box with its number.
        if self.text.isascii():
            return ceil(self.width * 1.06) + 4
        spare = sum(2.2 if not known(character) else 0.7 for character in self.text if character > "~")
        return ceil(self.width * 1.06 + self.pt * spare) + 4

    def moved(self, dx: float, dy: float) -> Words:
        """The same so far to the right and down [pt]."""
        return Words(
            self.id,
            self.left + dx,
            self.width,
            self.baseline + dy,
            self.text,
            self.pt,
            self.face,
            self.colour,
        )


@dataclass(frozen=True, slots=True)
class Stroke:
    """One drawn way along points: its coats from the lowest. tail, head: boxes that it joins, if any."""

    id: str
    points: tuple[Point, ...]
    coats: tuple[Coat, ...]
    corner: float = 0.0
    tail: str = ""
    head: str = ""
    href: str = ""

    def moved(self, dx: float, dy: float) -> Stroke:
        """The same so far to the right and down [pt]."""
        points = tuple([(x + dx, y + dy) for x, y in self.points])
        return Stroke(self.id, points, self.coats, self.corner, self.tail, self.head, self.href)


@dataclass(frozen=True, slots=True)
class Layout:
    """One drawing's geometry. Strokes lie under boxes and words."""

    width: int
    height: int
    boxes: tuple[Box, ...]
    words: tuple[Words, ...]
    strokes: tuple[Stroke, ...]

    @property
    def links(self) -> tuple[Box, ...]:
        """Boxes that lead somewhere."""
        return tuple(box for box in self.boxes if box.href)
