"""Search for a tight packing of circles in a circle: from many fixed starts, downhill, then made exact.

Circles may overlap a little while they are pushed together; at the end they are spread until none does,
and the bore is measured round them. What comes out is therefore always a real packing.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

Place = tuple[float, float]

_GOLDEN_ANGLE = math.pi * (3 - math.sqrt(5))
# Stiffness of the contacts, round by round; each round starts where the last one ended.
_SOFT = (3.0, 1e2)
_HARD = (1e3, 1e5, 1e7)
_SOFT_STEPS = 80
_HARD_STEPS = 150
# How many of the softly packed starts are worth finishing.
_FINISHED = 4
_REMEMBERED = 8


def tightest(radii: Sequence[float]) -> tuple[float, list[Place]]:
    """Radius of the smallest bore found for circles of these radii, and their places about its centre."""
    unit = math.sqrt(sum(radius * radius for radius in radii))
    scaled = [radius / unit for radius in radii]
    soft = sorted((_settle(scaled, start, _SOFT, _SOFT_STEPS) for start in _starts(scaled)), key=_bore)
    bore, places = min(
        (_settle(scaled, place, _HARD, _HARD_STEPS) for _, place in soft[:_FINISHED]), key=_bore
    )
    return bore * unit, [(x * unit, y * unit) for x, y in places]


def _starts(radii: Sequence[float]) -> Iterator[list[Place]]:
    """The same starts every time: spirals, then rings, with the circles in turned orders."""
    count = len(radii)
    for turn in range(4 + count):
        stride = turn + 1 if math.gcd(turn + 1, count) == 1 else 1
        order = [(position * stride + turn) % count for position in range(count)]
        yield _in_order(order, _spiral(count, turn))
    for centre in (0, 1):
        for inner in range((count - centre) // 2 + 1):
            for shift in (0, 1):
                order = [(position + shift * (inner + 1)) % count for position in range(count)]
                yield _in_order(order, _rings((centre, inner, count - centre - inner), shift))


def _in_order(order: Sequence[int], places: Sequence[Place]) -> list[Place]:
    by_circle = dict(zip(order, places, strict=True))
    return [by_circle[circle] for circle in range(len(order))]


def _spiral(count: int, turn: int) -> list[Place]:
    twist = _GOLDEN_ANGLE * (1 + 0.13 * (turn % 7))
    return [
        _polar(0.9 * math.sqrt((position + 0.5 * (turn % 3)) / count), twist * position + turn)
        for position in range(count)
    ]


def _rings(counts: tuple[int, int, int], shift: int) -> list[Place]:
    return [
        _polar(distance, 2 * math.pi * position / count + 0.7 * shift * distance)
        for count, distance in zip(counts, (0.01, 0.45, 0.95), strict=True)
        for position in range(count)
    ]


def _polar(distance: float, angle: float) -> Place:
    return distance * math.cos(angle), distance * math.sin(angle)


def _bore(packing: tuple[float, list[Place]]) -> float:
    return packing[0]


def _settle(
    radii: Sequence[float], places: Sequence[Place], rounds: Sequence[float], steps: int
) -> tuple[float, list[Place]]:
    point = [coordinate for place in places for coordinate in place]
    point.append(max(math.hypot(x, y) + radius for (x, y), radius in zip(places, radii, strict=True)))
    for stiffness in rounds:
        point = _descend(partial(_strain, radii, stiffness), point, steps)
    return _spread(radii, [(point[i], point[i + 1]) for i in range(0, len(point) - 1, 2)])


def _strain(radii: Sequence[float], stiffness: float, point: Sequence[float]) -> tuple[float, list[float]]:
    """The bore's radius plus the strain of every overlap, and the gradient; the radius stands last."""
    count, bore = len(radii), point[-1]
    value, slope = bore, [0.0] * len(point)
    slope[-1] = 1.0
    for i in range(count):
        x, y, radius = point[2 * i], point[2 * i + 1], radii[i]
        distance = math.hypot(x, y)
        over = distance + radius - bore
        if over > 0:
            value += stiffness * over * over
            pull = 2 * stiffness * over
            slope[-1] -= pull
            if distance > 0:
                slope[2 * i] += pull * x / distance
                slope[2 * i + 1] += pull * y / distance
        for j in range(i):
            dx, dy, reach = x - point[2 * j], y - point[2 * j + 1], radius + radii[j]
            if abs(dx) >= reach or abs(dy) >= reach:
                continue
            apart = math.hypot(dx, dy)
            over = reach - apart
            if over > 0:
                value += stiffness * over * over
                push = 2 * stiffness * over / (apart or 1.0)
                slope[2 * i] -= push * dx
                slope[2 * i + 1] -= push * dy
                slope[2 * j] += push * dx
                slope[2 * j + 1] += push * dy
    return value, slope


def _descend(
    strain: Callable[[list[float]], tuple[float, list[float]]], point: list[float], most_steps: int
) -> list[float]:
    """Limited-memory quasi-Newton descent with a halving line search (Nocedal and Wright, algorithm 7.4)."""
    value, slope = strain(point)
    steps: list[tuple[list[float], list[float], float]] = []
    for _ in range(most_steps):
        heading = _heading(slope, steps)
        fall = _dot(heading, slope)
        if fall >= 0:
            steps.clear()
            heading, fall = [-part for part in slope], -_dot(slope, slope)
        length = 1.0 if steps else min(1.0, 0.1 / math.sqrt(-fall or 1.0))
        while True:
            trial = [at + length * part for at, part in zip(point, heading, strict=True)]
            trial_value, trial_slope = strain(trial)
            if trial_value <= value + 1e-4 * length * fall:
                break
            length /= 2
            if length < 1e-14:
                return point
        moved = [new - old for new, old in zip(trial, point, strict=True)]
        turned = [new - old for new, old in zip(trial_slope, slope, strict=True)]
        curvature = _dot(moved, turned)
        if curvature > 0:
            steps.append((moved, turned, curvature))
            del steps[:-_REMEMBERED]
        gained, point, value, slope = value - trial_value, trial, trial_value, trial_slope
        if gained < 1e-13:
            break
    return point


def _heading(slope: Sequence[float], steps: Sequence[tuple[list[float], list[float], float]]) -> list[float]:
    heading = [-part for part in slope]
    shares = []
    for moved, turned, curvature in reversed(steps):
        share = _dot(moved, heading) / curvature
        shares.append(share)
        heading = [part - share * turn for part, turn in zip(heading, turned, strict=True)]
    if steps:
        _, turned, curvature = steps[-1]
        size = curvature / _dot(turned, turned)
        heading = [size * part for part in heading]
    for (moved, turned, curvature), share in zip(steps, reversed(shares), strict=True):
        correction = share - _dot(turned, heading) / curvature
        heading = [part + correction * move for part, move in zip(heading, moved, strict=True)]
    return heading


def _dot(left: Sequence[float], right: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(left, right, strict=True))


def _spread(radii: Sequence[float], places: Sequence[Place]) -> tuple[float, list[Place]]:
    """Spread the places until no two circles overlap, and measure the bore round them."""
    factor = 1.0
    for i, (x, y) in enumerate(places):
        for j in range(i):
            apart = math.hypot(x - places[j][0], y - places[j][1])
            if apart == 0:
                return math.inf, list(places)
            factor = max(factor, (radii[i] + radii[j]) / apart)
    spread = [(factor * x, factor * y) for x, y in places]
    return max(math.hypot(x, y) + radius for (x, y), radius in zip(spread, radii, strict=True)), spread
