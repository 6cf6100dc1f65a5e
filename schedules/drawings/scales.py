"""The scales of building drawings, and how a wall is laid on a sheet at one of them."""

from __future__ import annotations

from dataclasses import dataclass

POINTS_PER_INCH = 72.0
_IN_PER_FT = 12.0


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale: how it is written, and points on paper for an inch of the building [pt/in]."""

    words: str
    points_per_in: float


def _architect(words: str, inch_per_foot: float) -> Scale:
    ratio = _IN_PER_FT / inch_per_foot
    return Scale(f"{words}\" = 1' (1:{ratio:g})", POINTS_PER_INCH / ratio)


SCALES = (
    _architect("3", 3),
    _architect("1-1/2", 1.5),
    _architect("1", 1),
    _architect("3/4", 0.75),
    _architect("1/2", 0.5),
    _architect("3/8", 0.375),
    _architect("1/4", 0.25),
    _architect("3/16", 0.1875),
    _architect("1/8", 0.125),
    _architect("1/16", 0.0625),
)
"""What an architect's scale rule carries, the largest first."""


@dataclass(frozen=True, slots=True)
class Mapping:
    """From inches, along from a wall's left corner and up from the floor, to a sheet's points, down from its top.

    down: the second measure runs down the sheet instead: out from the wall, where one looks down on the kitchen.
    """

    left: float
    floor: float
    points_per_in: float
    down: bool = False

    def at(self, along_in: float, up_in: float) -> tuple[float, float]:
        """Where a point of the building lies on the sheet [pt]."""
        rise = -up_in if self.down else up_in
        return self.left + along_in * self.points_per_in, self.floor - rise * self.points_per_in
