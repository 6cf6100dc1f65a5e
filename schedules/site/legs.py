"""What a way is made of: straight legs from corner to corner, and what its measured lengths may be off by."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from schedules.site.room import Spot

Medium = Literal[
    "in the wall",
    "on the wall",
    "above the ceiling",
    "below the floor",
    "in cabinets",
    "in raceway",
    "in the open",
]
"""What a leg runs in or on."""

_NOISE_IN = 1e-9
_NOISE_DEG = 1e-5


@dataclass(frozen=True, slots=True)
class Leg:
    """A straight piece of a way, in the room's frame [in]. wall: which one it runs in or on; raceway: its tag."""

    start: Spot
    end: Spot
    medium: Medium
    wall: str | None = None
    raceway: str | None = None

    @property
    def length_in(self) -> float:
        """Its length [in]."""
        return math.dist(self.start, self.end)

    @property
    def upright(self) -> bool:
        """Whether it runs straight up or down."""
        return self.start[:2] == self.end[:2]


@dataclass(frozen=True, slots=True)
class Error:
    """One measurement that a length rests on: what it is, what it may be off by [in], how many times it counts."""

    what: str
    tolerance_in: float
    times: float = 1.0

    @property
    def reach_in(self) -> float:
        """How much it can lengthen or shorten the way [in]."""
        return self.times * self.tolerance_in


@dataclass(frozen=True, slots=True)
class Span:
    """How far a way goes in one direction [in], and the measurements that this rests on.

    It is the distance of two positions, so that errors can lengthen a short one only.
    """

    direction: str
    length_in: float
    errors: tuple[Error, ...]


def joined(legs: Iterable[Leg]) -> tuple[Leg, ...]:
    """Legs without those of no length, and with those that go straight on made one."""
    whole: list[Leg] = []
    for leg in legs:
        if leg.length_in <= _NOISE_IN:
            continue
        if whole and _straight_on(whole[-1], leg):
            whole[-1] = replace(whole[-1], end=leg.end)
        else:
            whole.append(leg)
    return tuple(whole)


def corners(legs: tuple[Leg, ...]) -> tuple[Spot, ...]:
    """The points at which a way starts, turns and ends."""
    if not legs:
        return ()
    points = [legs[0].start, *(leg.end for leg in legs)]
    return tuple(
        point
        for place, point in enumerate(points)
        if place in (0, len(points) - 1) or not _in_line(points[place - 1], point, points[place + 1])
    )


def turns(points: Sequence[Spot]) -> tuple[float, ...]:
    """How far a way by these points turns at each corner [deg], none where it goes straight on."""
    found = []
    for a, b, c in zip(points, points[1:], points[2:], strict=False):
        one, other = _vector(a, b), _vector(b, c)
        across = math.hypot(*one) * math.hypot(*other)
        if across:
            cosine = sum(x * y for x, y in zip(one, other, strict=True)) / across
            angle = math.degrees(math.acos(min(1.0, max(-1.0, cosine))))
            if angle > _NOISE_DEG:
                found.append(angle)
    return tuple(found)


def _vector(a: Spot, b: Spot) -> tuple[float, ...]:
    return tuple(y - x for x, y in zip(a, b, strict=True))


def _straight_on(one: Leg, other: Leg) -> bool:
    same = (one.medium, one.wall, one.raceway) == (other.medium, other.wall, other.raceway)
    return same and _in_line(one.start, one.end, other.end)


def _in_line(a: Spot, b: Spot, c: Spot) -> bool:
    return math.dist(a, b) + math.dist(b, c) <= math.dist(a, c) + _NOISE_IN
