"""Do these round things go side by side into one round bore?

Up to three are decided exactly. Any number goes in whose areas add up to no more than half the bore's
(Fekete, Keldenich and Scheffer 2019). Between that and the plain limits a search decides. It always ends in
circles that are placed without overlap, so a yes is certain; a no says that none was found. For up to
twenty equal circles that agrees with the best packings known; for mixed sizes the search may ask for a bore
about one percent too wide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.raceways.packing_search import tightest

if TYPE_CHECKING:
    from collections.abc import Iterable

# Share of the bore's area that any set of circles may fill and still be packed.
_ALWAYS_PACKS = 0.5
# Room for rounding in the last place, so that a bore is not refused for what it was computed from [in].
_SLACK_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Packing:
    """Circles placed in a bore about the origin: x, y and diameter of each [in], largest first."""

    bore_in: float
    circles: tuple[tuple[float, float, float], ...]


def fits(bore_in: float, diameters_in: Iterable[float]) -> bool:
    """Whether circles of these diameters [in] lie side by side in a bore [in].

    A yes never turns into a no when the bore grows. Raises ValueError for a size that is not above zero.
    """
    return bore_in + _SLACK_IN >= needed_bore(bore_in, diameters_in)


def needed_bore(bore_in: float, diameters_in: Iterable[float]) -> float:
    """A bore [in] that takes these circles [in], as near to the smallest as it takes to judge bore_in [in].

    Above three circles the search is spared where a simple bound already answers for this bore.
    Raises ValueError for a size that is not above zero.
    """
    circles = _largest_first(diameters_in)
    if len(circles) <= 3:
        return _packed(circles).bore_in if circles else 0.0
    simple = _at_most(circles)
    if bore_in + _SLACK_IN >= simple:
        return simple
    least = _at_least(circles)
    return least if bore_in + _SLACK_IN < least else _packed(circles).bore_in


def smallest_bore(diameters_in: Iterable[float]) -> float:
    """Diameter [in] of the smallest bore found that takes circles of these diameters [in]; 0 for none.

    Raises ValueError for a size that is not above zero.
    """
    circles = _largest_first(diameters_in)
    return _packed(circles).bore_in if circles else 0.0


def packing(diameters_in: Iterable[float]) -> Packing:
    """The tightest packing found for one or more circles of these diameters [in].

    Raises ValueError for no circles, or a size that is not above zero.
    """
    circles = _largest_first(diameters_in)
    if not circles:
        raise ValueError("there must be a circle to pack")
    return _packed(circles)


def _largest_first(diameters_in: Iterable[float]) -> tuple[float, ...]:
    circles = tuple(sorted((float(diameter) for diameter in diameters_in), reverse=True))
    if not all(0 < diameter < math.inf for diameter in circles):
        raise ValueError(f"every diameter must be above 0 in, not {circles}")
    return circles


def _at_least(circles: tuple[float, ...]) -> float:
    """No bore below this takes them: by their area, and by the three largest alone."""
    return max(math.sqrt(sum(diameter**2 for diameter in circles)), _exact(circles[:3]).bore_in)


def _at_most(circles: tuple[float, ...]) -> float:
    """A bore of this takes them, however they are mixed."""
    return math.sqrt(sum(diameter**2 for diameter in circles) / _ALWAYS_PACKS)


@lru_cache(maxsize=4096)
def _packed(circles: tuple[float, ...]) -> Packing:
    if len(circles) <= 3:
        return _exact(circles)
    radius, places = tightest([diameter / 2 for diameter in circles])
    placed = tuple((x, y, diameter) for (x, y), diameter in zip(places, circles, strict=True))
    return Packing(2 * radius, placed)


def _exact(circles: tuple[float, ...]) -> Packing:
    """The smallest bore of one, two or three circles, largest first."""
    if len(circles) == 1:
        return Packing(circles[0], ((0.0, 0.0, circles[0]),))
    a, b = circles[0] / 2, circles[1] / 2
    # Two circles span the bore between them.
    pair = ((-b, 0.0, 2 * a), (a, 0.0, 2 * b))
    if len(circles) == 2:
        return Packing(2 * (a + b), pair)
    c = circles[2] / 2
    # The gap beside two circles that span the bore takes a third of at most this radius (Descartes' theorem).
    gap = a * b * (a + b) / (a * a + a * b + b * b)
    if c <= gap:
        x, y = _apex(a + gap, b + gap, a + b)
        return Packing(2 * (a + b), (*pair, (x - b, y, 2 * c)))
    # Otherwise all three touch one another and the bore (the same theorem, for the circle round them).
    bends = (1 / a, 1 / b, 1 / c)
    bore = 1 / (2 * math.sqrt(bends[0] * bends[1] + bends[1] * bends[2] + bends[2] * bends[0]) - sum(bends))
    second = _apex(a + b, bore - b, bore - a)
    third = _apex(a + c, bore - c, bore - a)
    return Packing(
        2 * bore,
        (
            (a - bore, 0.0, 2 * a),
            (second[0] + a - bore, second[1], 2 * b),
            (third[0] + a - bore, -third[1], 2 * c),
        ),
    )


def _apex(from_left: float, from_right: float, between: float) -> tuple[float, float]:
    """Where a point stands at these distances from (0, 0) and (between, 0), above the line."""
    x = (from_left**2 - from_right**2 + between**2) / (2 * between)
    return x, math.sqrt(max(0.0, from_left**2 - x * x))
