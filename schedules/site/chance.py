"""What a length may be off by: at worst, by root-sum-square, and the chance that it stays within what there is.

Every measurement is taken as normally distributed about what was written down, with its tolerance as the expanded
uncertainty of coverage factor 2, about 95 % (JCGM 100:2008, 6.2 and 6.3.3). A distance of two positions can't fall
below nothing: where it is not long against its own error, the error only lengthens it.
"""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from schedules.site.legs import Span

COVERAGE = 2.0
"""How many standard deviations a tolerance is (JCGM 100:2008, 6.3.3)."""

# Beyond so many standard deviations nothing is left that shows in a chance.
_FAR = 8.0
# Subintervals of Simpson's rule between two places where an integrand bends.
_STEPS = 16


def worst_case(spans: Iterable[Span]) -> float:
    """What a way may be longer by with every measurement off to the wrong side [in]."""
    return math.fsum(error.reach_in for span in spans for error in span.errors)


def root_sum_square(spans: Iterable[Span]) -> float:
    """What a way may be off by when errors make up for one another by chance [in]."""
    return math.hypot(*(error.reach_in for span in spans for error in span.errors))


def chance_within(spans: Sequence[Span], spare_in: float) -> float:
    """The chance that a way comes out no more than this longer than measured [in]: 0 to 1."""
    deviations = [(span.length_in, root_sum_square((span,)) / COVERAGE) for span in spans]
    straight = math.hypot(*(sigma for length, sigma in deviations if length >= _FAR * sigma))
    folded = sorted((pair for pair in deviations if pair[0] < _FAR * pair[1]), key=lambda pair: pair[1])
    return _within(spare_in, straight, folded)


def in_percent(chance: float) -> str:
    """A chance as printed: never as sure as it isn't."""
    if chance >= 0.9995:
        return "over 99.9 %" if chance < 1 else "100 %"
    return "under 0.1 %" if 0 < chance < 0.0005 else f"{100 * chance:.1f} %"


def _within(spare: float, sigma: float, folded: list[tuple[float, float]]) -> float:
    """The chance that a normal error and what folded spans add stay within a spare length."""
    if not folded:
        return _normal(spare, sigma)
    (length, own), rest = folded[0], folded[1:]
    if not sigma and not rest:
        # The distance stays between nothing and its length with the spare.
        return max(0.0, _normal(spare, own) - _normal(-2 * length - spare, own)) if spare >= -length else 0.0

    def share(off: float) -> float:
        density = math.exp(-((off / own) ** 2) / 2) / (own * math.sqrt(2 * math.pi))
        return density * _within(spare - abs(length + off) + length, sigma, rest)

    bends = {
        -length,
        # The bell of the error itself is never taken in wide strides.
        *(k * own for k in (-4, -2, 0, 2, 4)),
        *(root + k * sigma for root in (spare, -2 * length - spare) for k in (-6, -3, -1, 0, 1, 3, 6)),
    }
    inside = sorted(at for at in bends if -_FAR * own < at < _FAR * own)
    stops = [-_FAR * own, *inside, _FAR * own]
    return math.fsum(_simpson(share, low, high) for low, high in itertools.pairwise(stops))


def _simpson(function: Callable[[float], float], low: float, high: float) -> float:
    """Integral over an interval by Simpson's rule."""
    step = (high - low) / _STEPS
    total = function(low) + function(high)
    total += math.fsum((4 if n % 2 else 2) * function(low + n * step) for n in range(1, _STEPS))
    return total * step / 3


def _normal(value: float, sigma: float) -> float:
    """The chance that a normal error of no mean stays at or below a value."""
    if not sigma:
        return 1.0 if value >= 0 else 0.0
    return math.erfc(-value / (sigma * math.sqrt(2))) / 2
