"""Which measurements a way's length rests on, and how often each of them counts."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.site.legs import Error, Span

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.site.ends import End
    from schedules.site.legs import Leg
    from schedules.site.room import PlacedWall, Room, Spot

_DIRECTIONS = ("along", "out", "up")
_NOISE_IN = 1e-9


def spans(
    legs: Sequence[Leg],
    ends: tuple[End, End],
    room: Room | None,
    *,
    tolerance_in: float,
    run_height_in: float | None,
) -> tuple[Span, ...]:
    """How far a way goes in each direction, and what that rests on.

    Both ends' coordinates count once; what lies in its wall's face is not measured out from it. The walls between them
    count by their lengths, and the height at which the way crosses as often as it rises to it and drops from it.
    run_height_in: that height, None where there is none.
    """
    return tuple(
        Span(
            direction,
            sum(abs(leg.end[axis] - leg.start[axis]) for leg in legs),
            (
                *_of_ends(ends, axis),
                *_of_walls(room, ends, axis, tolerance_in),
                *_of_height(ends, axis, tolerance_in, run_height_in),
            ),
        )
        for axis, direction in enumerate(_DIRECTIONS)
    )


def spans_by_points(
    points: Sequence[Spot], ends: tuple[End, End], room: Room | None, tolerance_in: float
) -> tuple[Span, ...]:
    """The same for a way by given points: one at which it turns back in a direction counts twice."""
    return tuple(
        Span(
            direction,
            sum(abs(b[axis] - a[axis]) for a, b in itertools.pairwise(points)),
            (
                *_of_ends(ends, axis),
                *_of_walls(room, ends, axis, tolerance_in),
                *_of_points(points, axis, tolerance_in),
            ),
        )
        for axis, direction in enumerate(_DIRECTIONS)
    )


def _of_ends(ends: tuple[End, End], axis: int) -> Iterator[Error]:
    for end in ends:
        if axis == 2:
            yield Error(f"{end.enclosure} up", end.tolerance_in)
        elif end.wall is None:
            yield Error(f"{end.enclosure} {_DIRECTIONS[axis]}", end.tolerance_in)
        elif end.wall.right[axis] != 0:
            yield Error(f"{end.enclosure} along", end.tolerance_in)
        elif end.out != 0:
            yield Error(f"{end.enclosure} out", end.tolerance_in)


def _of_walls(room: Room | None, ends: tuple[End, End], axis: int, tolerance_in: float) -> Iterator[Error]:
    if room is not None and axis < 2:
        for wall in _between(room, ends):
            if wall.right[axis] != 0:
                yield Error(f"length of wall {wall.tag}", tolerance_in)


def _between(room: Room, ends: tuple[End, End]) -> tuple[PlacedWall, ...]:
    """The walls whose lengths part the walls of the two ends, the shorter way round."""
    places = sorted(room.walls.index(end.wall or room.main) for end in ends)
    forward = room.walls[places[0] : places[1]]
    if not room.closed:
        return forward
    backward = (*room.walls[places[1] :], *room.walls[: places[0]])
    return forward if len(forward) <= len(backward) else backward


def height_band(tolerance_in: float, end: End) -> float:
    """How near the height of a run an end stands that may be above it or below, for all that is known [in]."""
    return tolerance_in + end.tolerance_in


def _of_height(
    ends: tuple[End, End], axis: int, tolerance_in: float, height: float | None
) -> Iterator[Error]:
    if axis == 2 and height is not None:
        # Whether a way rises to the run or drops to it is open where an end stands about as high: the worse one counts.
        sides = (_sides(height - end.up, height_band(tolerance_in, end)) for end in ends)
        times = max(abs(sum(chosen)) for chosen in itertools.product(*sides))
        if times:
            yield Error("height of the run", tolerance_in, times)


def _sides(above_in: float, band_in: float) -> tuple[float, ...]:
    return (1.0, -1.0) if abs(above_in) < band_in - _NOISE_IN else (_sign(above_in),)


def _of_points(points: Sequence[Spot], axis: int, tolerance_in: float) -> Iterator[Error]:
    for number, (before, point, after) in enumerate(zip(points, points[1:], points[2:], strict=False), 1):
        times = abs(_sign(point[axis] - before[axis]) - _sign(after[axis] - point[axis]))
        if times:
            yield Error(f"point {number} {_DIRECTIONS[axis]}", tolerance_in, times)


def _sign(value: float) -> float:
    return (value > 0) - (value < 0)
