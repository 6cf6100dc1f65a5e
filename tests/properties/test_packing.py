"""Packing against published radii, an exact theorem, and brute-force checks of what is claimed to fit."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.raceways.packing import _packed as remembered
from schedules.raceways.packing import fits, needed_bore, packing, smallest_bore
from schedules.raceways.packing_search import tightest

# Radius of the smallest circle round n unit circles. 1 to 13 and 19 proved best (Graham 1968, Pirl 1969, Melissen 1994,
# Fodor 1999 to 2003), 14 proved 2024, the rest best known (Pirl 1969, Goldberg 1971, Reis 1975, Graham, Lubachevsky,
# Nurmela and Ostergard 1998). Three places from a public encyclopaedia's table; closed forms where it has them, the
# further places of 10, 12, 14, 16, 17 and 20 from memory.
PUBLISHED = {
    1: 1.0,
    2: 2.0,
    3: 1 + 2 / math.sqrt(3),
    4: 1 + math.sqrt(2),
    5: 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
    6: 3.0,
    7: 3.0,
    8: 1 + 1 / math.sin(math.pi / 7),
    9: 1 + math.sqrt(2 * (2 + math.sqrt(2))),
    10: 3.81302563,
    11: 1 + 1 / math.sin(math.pi / 9),
    12: 4.02960193,
    13: 2 + math.sqrt(5),
    14: 4.32842855,
    15: 1 + math.sqrt(6 + 2 / math.sqrt(5) + 4 * math.sqrt(1 + 2 / math.sqrt(5))),
    16: 4.61542559,
    17: 4.79203374,
    18: 1 + math.sqrt(2) + math.sqrt(6),
    19: 1 + math.sqrt(2) + math.sqrt(6),
    20: 5.12232073,
}
# As printed there, three places cut off.
PRINTED = {
    10: "3.813",
    12: "4.029",
    14: "4.328",
    15: "4.521",
    16: "4.615",
    17: "4.792",
    18: "4.863",
    20: "5.122",
}

diameters = st.floats(0.05, 1.0)


def clear_of_overlap(circles: tuple[tuple[float, float, float], ...], bore: float) -> bool:
    inside = all(math.hypot(x, y) + d / 2 <= bore / 2 * (1 + 1e-9) for x, y, d in circles)
    apart = all(
        math.hypot(a[0] - b[0], a[1] - b[1]) >= (a[2] + b[2]) / 2 * (1 - 1e-9)
        for i, a in enumerate(circles)
        for b in circles[:i]
    )
    return inside and apart


@pytest.mark.parametrize("count", PRINTED)
def test_the_published_places_are_these(count: int) -> None:
    assert f"{PUBLISHED[count]:.6f}".startswith(PRINTED[count])


@pytest.mark.parametrize("count", PUBLISHED)
def test_equal_circles_reach_the_published_radius(count: int) -> None:
    radius = smallest_bore([2.0] * count) / 2
    # Never better than the best known, and within a hundredth of a percent of it.
    assert PUBLISHED[count] * (1 - 1e-7) <= radius <= PUBLISHED[count] * 1.0001


@pytest.mark.parametrize("count", PUBLISHED)
def test_equal_circles_fit_just_above_the_published_radius_and_not_below(count: int) -> None:
    bore = 2 * PUBLISHED[count]
    assert fits(bore * 1.0002, [2.0] * count)
    assert not fits(bore * 0.999, [2.0] * count)


def test_a_packing_places_every_circle() -> None:
    placed = packing([0.4, 0.3, 0.3, 0.2, 0.1])
    assert [circle[2] for circle in placed.circles] == [0.4, 0.3, 0.3, 0.2, 0.1]
    assert clear_of_overlap(placed.circles, placed.bore_in)


@settings(max_examples=25)
@given(st.lists(diameters, min_size=1, max_size=3))
def test_up_to_three_circles_agree_with_the_search(circles: list[float]) -> None:
    exact = packing(circles)
    assert clear_of_overlap(exact.circles, exact.bore_in)
    searched, _ = tightest(sorted((d / 2 for d in circles), reverse=True))
    assert exact.bore_in == pytest.approx(2 * searched, rel=1e-6)


@settings(max_examples=25)
@given(st.lists(diameters, min_size=4, max_size=6))
def test_what_is_said_to_fit_is_placed_without_overlap(circles: list[float]) -> None:
    found = packing(circles)
    assert clear_of_overlap(found.circles, found.bore_in)
    # No packing is denser than the circles' own area, and none needs more than twice it (Fekete and others 2019);
    # the search may miss the best packing of mixed sizes by about one percent.
    area = math.sqrt(sum(d * d for d in circles))
    assert area < found.bore_in <= area * math.sqrt(2) * 1.01


@settings(max_examples=25)
@given(st.lists(diameters, min_size=1, max_size=6), st.floats(0.1, 4.0), st.floats(0.0, 1.0))
def test_a_yes_never_turns_into_a_no_when_the_bore_grows(
    circles: list[float], bore: float, more: float
) -> None:
    if fits(bore, circles):
        assert fits(bore + more, circles)


@settings(max_examples=50)
@given(st.lists(diameters, min_size=1, max_size=6), st.floats(0.1, 4.0))
def test_the_needed_bore_settles_the_question(circles: list[float], bore: float) -> None:
    assert fits(bore, circles) == (needed_bore(bore, circles) <= bore + 1e-6)


@given(st.lists(diameters, min_size=1, max_size=12))
def test_half_the_area_always_packs(circles: list[float]) -> None:
    assert fits(math.sqrt(2 * sum(d * d for d in circles)), circles)


def test_more_than_half_the_area_may_not_pack() -> None:
    # Two halves need the whole: 0.5 + 0.5 in don't go into 0.95 in, though they fill 56 % of it.
    assert not fits(0.95, [0.5, 0.5, 0.05, 0.05])
    assert fits(1.01, [0.5, 0.5, 0.05, 0.05])


@given(st.lists(diameters, min_size=2, max_size=3))
def test_one_circle_less_never_needs_more(circles: list[float]) -> None:
    assert smallest_bore(circles[1:]) <= smallest_bore(circles) + 1e-9


def test_the_same_circles_always_give_the_same_answer() -> None:
    circles = [0.41, 0.33, 0.29, 0.22, 0.2]
    remembered.cache_clear()
    first = smallest_bore(circles)
    remembered.cache_clear()
    assert smallest_bore(list(reversed(circles))) == first


def test_nothing_fits_anywhere_and_a_size_that_cannot_be_is_refused() -> None:
    assert fits(0.5, [])
    assert smallest_bore([]) == 0
    for wrong in (0.0, -1.0, math.inf, math.nan):
        with pytest.raises(ValueError, match="every diameter must be above 0 in"):
            fits(1.0, [0.5, wrong])
    with pytest.raises(ValueError, match="there must be a circle to pack"):
        packing([])
