"""Convex polygons on a wall: cut by a line, their area, their point nearest to another one.

Exact but for binary rounding, and all that regions of level and upright legs need: rectangles cut by slanting lines.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.site.zones import Zone

Point = tuple[float, float]
"""along, up [in]."""

Polygon = tuple[Point, ...]
"""Corners in order; none where nothing is left."""


def rectangle(zone: Zone) -> Polygon:
    """A zone's corners, from its left bottom one against the clock."""
    return (
        (zone.left, zone.bottom),
        (zone.right, zone.bottom),
        (zone.right, zone.top),
        (zone.left, zone.top),
    )


def cut(polygon: Polygon, across: float, up: float, limit: float) -> Polygon:
    """What of a convex polygon lies where across·along + up·height is at most the limit."""
    kept: list[Point] = []
    for a, b in _sides(polygon):
        here, there = (across * x + up * y - limit for x, y in (a, b))
        if here <= 0:
            kept.append(a)
        if here * there < 0:
            share = here / (here - there)
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return tuple(kept) if len(kept) > 2 else ()


def area(polygon: Polygon) -> float:
    """Area [sq in], by the trapezoids under its sides."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in _sides(polygon))) / 2


def nearest(polygon: Polygon, point: Point) -> Point:
    """The point of a convex polygon that is nearest to another point: that point itself where it lies inside.

    Raises ValueError for a polygon without corners.
    """
    if not polygon:
        raise ValueError("nothing is nearest in an empty polygon")
    sides = [
        (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) for a, b in _sides(polygon)
    ]
    if all(side >= 0 for side in sides):
        return point
    return min((_on_side(a, b, point) for a, b in _sides(polygon)), key=lambda found: math.dist(found, point))


def _on_side(a: Point, b: Point, point: Point) -> Point:
    across, up = b[0] - a[0], b[1] - a[1]
    length = across**2 + up**2
    if not length:
        return a
    share = ((point[0] - a[0]) * across + (point[1] - a[1]) * up) / length
    share = min(1.0, max(0.0, share))
    return a[0] + share * across, a[1] + share * up


def _sides(polygon: Polygon) -> Iterator[tuple[Point, Point]]:
    return zip(polygon, polygon[1:] + polygon[:1], strict=True)
