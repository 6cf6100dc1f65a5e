"""Upright rectangles on a wall: seen from the room, left to right and floor to ceiling."""

from __future__ import annotations

from dataclasses import dataclass

_NOISE_IN = 1e-9


@dataclass(frozen=True, slots=True)
class Zone:
    """A rectangle on a wall [in]: left and right from the wall's left corner, bottom and top from the floor."""

    left: float
    right: float
    bottom: float
    top: float

    @classmethod
    def sized(cls, left: float, width: float, bottom: float, height: float) -> Zone:
        """A zone by its left bottom corner and its size [in]."""
        return cls(left, left + width, bottom, bottom + height)

    @property
    def width(self) -> float:
        """Width [in], negative where nothing is left."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height [in], negative where nothing is left."""
        return self.top - self.bottom

    @property
    def centre(self) -> tuple[float, float]:
        """Its middle: along and up [in]."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, across: float, up: float | None = None) -> Zone:
        """The zone with so much added on both sides, and above and below [in]; less where negative."""
        by = across if up is None else up
        return Zone(self.left - across, self.right + across, self.bottom - by, self.top + by)

    def holds(self, along: float, up: float) -> bool:
        """Whether a point lies inside; its border is outside."""
        return (
            self.left + _NOISE_IN < along < self.right - _NOISE_IN
            and self.bottom + _NOISE_IN < up < self.top - _NOISE_IN
        )

    def overlaps(self, other: Zone) -> bool:
        """Whether two zones share more than a border; one without extent overlaps what it lies inside."""
        return (
            self.left + _NOISE_IN < other.right
            and other.left + _NOISE_IN < self.right
            and self.bottom + _NOISE_IN < other.top
            and other.bottom + _NOISE_IN < self.top
        )

    def within(self, other: Zone) -> bool:
        """Whether it lies wholly in another one, borders included."""
        return (
            self.left >= other.left - _NOISE_IN
            and self.right <= other.right + _NOISE_IN
            and self.bottom >= other.bottom - _NOISE_IN
            and self.top <= other.top + _NOISE_IN
        )

    def met_by(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """Whether a level or upright line from start to end passes its inside."""
        low, high = sorted((start[0], end[0])), sorted((start[1], end[1]))
        return (
            low[0] < self.right - _NOISE_IN
            and low[1] > self.left + _NOISE_IN
            and high[0] < self.top - _NOISE_IN
            and high[1] > self.bottom + _NOISE_IN
        )
