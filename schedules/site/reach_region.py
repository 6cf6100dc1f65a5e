"""The part of a wall in which one end of a cable may stand so that the cable still reaches, as exact polygons.

A wall is parted into cells by the lines of the route graph. From each corner of a cell what has a length left over
reaches what lies no further along and up, together; the cell less the convex polygon that none of its corners reaches
is the region in it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.polygons import Point, Polygon, area, cut, nearest, rectangle

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.site.room import PlacedWall
    from schedules.site.zones import Zone

Signs = tuple[int, int]
"""The direction from a cell's corner into the cell: along, up."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A rectangle of a wall: what each of its corners has left [in], and whether a box may stand there."""

    zone: Zone
    left_over: Mapping[Signs, float]
    allowed: bool

    def reached(self, along: float, up: float) -> bool:
        """Whether a point of the cell is reached."""
        return any(
            sx * along + sy * up <= self._limit((sx, sy), left) + 1e-9
            for (sx, sy), left in self.left_over.items()
        )

    def at_its_end(self, along: float, up: float, near_in: float) -> bool:
        """Whether a point lies so near to where the cable ends from one of the corners [in]."""
        return any(
            abs(sx * along + sy * up - self._limit((sx, sy), left)) <= 2 * near_in
            for (sx, sy), left in self.left_over.items()
        )

    def pieces(self) -> Iterator[Polygon]:
        """What each of its corners reaches of it, as convex polygons that may overlap."""
        for (sx, sy), left in self.left_over.items():
            if left >= 0 and (piece := cut(rectangle(self.zone), sx, sy, self._limit((sx, sy), left))):
                yield piece

    @property
    def unreached(self) -> Polygon:
        """What none of its corners reaches."""
        polygon = rectangle(self.zone)
        for (sx, sy), left in self.left_over.items():
            polygon = cut(polygon, -sx, -sy, -self._limit((sx, sy), left))
        return polygon if area(polygon) > 1e-9 else ()

    def _limit(self, signs: Signs, left: float) -> float:
        x = self.zone.left if signs[0] > 0 else self.zone.right
        y = self.zone.bottom if signs[1] > 0 else self.zone.top
        return signs[0] * x + signs[1] * y + left


@dataclass(frozen=True, slots=True)
class Region:
    """Where on one wall an enclosure may stand so that the cable reaches: by the point at which its cables enter."""

    wall: PlacedWall
    cells: tuple[Cell, ...]

    @property
    def empty(self) -> bool:
        """Whether it may stand nowhere on this wall."""
        return not any(cell.allowed and any(True for _ in cell.pieces()) for cell in self.cells)

    @property
    def area_sq_in(self) -> float:
        """How large the region is [sq in]."""
        allowed = (cell for cell in self.cells if cell.allowed)
        return math.fsum(area(rectangle(cell.zone)) - area(cell.unreached) for cell in allowed)

    def holds(self, along: float, up: float) -> bool:
        """Whether it may stand with its entry at this point [in]; borders are in."""
        return any(
            cell.allowed
            and cell.zone.left - 1e-9 <= along <= cell.zone.right + 1e-9
            and cell.zone.bottom - 1e-9 <= up <= cell.zone.top + 1e-9
            and cell.reached(along, up)
            for cell in self.cells
        )

    def nearest(self, wished: Point) -> Point | None:
        """The allowed point nearest to a wished one [in], None where there is none."""
        pieces = (piece for cell in self.cells if cell.allowed for piece in cell.pieces())
        return min(
            (nearest(piece, wished) for piece in pieces),
            key=lambda point: (math.dist(point, wished), point),
            default=None,
        )

    def at_height(self, up: float) -> tuple[tuple[float, float], ...]:
        """From where to where along the wall it may stand at one height [in], left to right."""
        found = sorted(part for cell in self.cells for part in _level(cell, up))
        merged: list[tuple[float, float]] = []
        for low, high in found:
            if merged and low <= merged[-1][1] + 1e-6:
                merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
            else:
                merged.append((low, high))
        return tuple(merged)


def _level(cell: Cell, up: float) -> Iterator[tuple[float, float]]:
    zone = cell.zone
    if not cell.allowed or not zone.bottom - 1e-9 <= up <= zone.top + 1e-9:
        return
    for (sx, sy), left in cell.left_over.items():
        y = zone.bottom if sy > 0 else zone.top
        reach = left - abs(up - y)
        if reach >= 0:
            yield (
                (zone.left, min(zone.right, zone.left + reach))
                if sx > 0
                else (max(zone.left, zone.right - reach), zone.right)
            )
