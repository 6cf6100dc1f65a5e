"""Which pieces of the building several cables share, so that what lies together is judged piece by piece."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.site.legs import Leg, Medium
    from schedules.site.room import Spot

_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece of the way of one or several cables, between two points of the room's frame [in]."""

    start: Spot
    end: Spot
    medium: Medium
    wall: str | None
    raceway: str | None
    cables: tuple[str, ...]

    @property
    def length_in(self) -> float:
        """Its length [in]."""
        return sum(abs(b - a) for a, b in zip(self.start, self.end, strict=True))


def pieces(ways: Mapping[str, Iterable[Leg]]) -> tuple[Piece, ...]:
    """Part the legs of all ways where others join or leave them. A slanting leg is nobody else's.

    ways: the legs of each cable, by its tag.
    """
    lines: dict[tuple[object, ...], list[tuple[float, float, str, Leg]]] = {}
    alone = []
    for cable, legs in ways.items():
        for leg in legs:
            axis = _axis(leg)
            if axis is None:
                alone.append(Piece(leg.start, leg.end, leg.medium, leg.wall, leg.raceway, (cable,)))
                continue
            low, high = sorted((leg.start[axis], leg.end[axis]))
            fixed = tuple(round(value, 6) for place, value in enumerate(leg.start) if place != axis)
            key = (axis, *fixed, leg.medium, leg.wall, leg.raceway)
            lines.setdefault(key, []).append((low, high, cable, leg))
    shared = (piece for key, found in lines.items() for piece in _parted(int(str(key[0])), found))
    return (*shared, *alone)


def _axis(leg: Leg) -> int | None:
    """The only direction in which a leg runs."""
    moved = [place for place in range(3) if abs(leg.end[place] - leg.start[place]) > _NOISE_IN]
    return moved[0] if len(moved) == 1 else None


def _parted(axis: int, found: list[tuple[float, float, str, Leg]]) -> Iterable[Piece]:
    """The pieces of one line between the points at which a cable joins or leaves it."""
    stops = sorted({value for low, high, _, _ in found for value in (low, high)})
    leg = found[0][3]
    for low, high in itertools.pairwise(stops):
        cables = tuple(
            dict.fromkeys(
                cable
                for start, end, cable, _ in found
                if start <= low + _NOISE_IN and end >= high - _NOISE_IN
            )
        )
        if cables and high - low > _NOISE_IN:
            yield Piece(
                _at(leg.start, axis, low),
                _at(leg.start, axis, high),
                leg.medium,
                leg.wall,
                leg.raceway,
                cables,
            )


def _at(spot: Spot, axis: int, value: float) -> Spot:
    moved = [*spot]
    moved[axis] = value
    return moved[0], moved[1], moved[2]


def shared_lengths(found: Iterable[Piece]) -> dict[tuple[str, ...], float]:
    """How far each set of two or more cables goes the same way [in], outside raceways."""
    lengths: dict[tuple[str, ...], float] = {}
    for piece in found:
        if len(piece.cables) > 1 and piece.raceway is None:
            lengths[piece.cables] = lengths.get(piece.cables, 0.0) + piece.length_in
    return lengths
