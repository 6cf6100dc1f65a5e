"""What several cables share of their ways, and what is reported of ways that are barred or lie together."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.checks.ways import check_ways
from schedules.site.legs import Leg
from schedules.site.routes import Route
from schedules.site.shared_ways import pieces, shared_lengths
from tests.small_kitchens import inches, keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.site.room import Spot

WALLS = (wall("A", 240), wall("B", 120), wall("C", 240), wall("D", 120))


def legs(*points: Spot) -> tuple[Leg, ...]:
    return tuple(Leg(a, b, "in the wall", "A") for a, b in itertools.pairwise(points))


def test_two_cables_share_what_lies_on_both_ways() -> None:
    found = pieces(
        {"W1": legs((0, 0, 40), (100, 0, 40), (100, 0, 60)), "W2": legs((30, 0, 40), (120, 0, 40))}
    )
    assert [
        (piece.start[0], piece.end[0], piece.cables) for piece in found if piece.start[2] == piece.end[2]
    ] == [
        (0, 30, ("W1",)),
        (30, 100, ("W1", "W2")),
        (100, 120, ("W2",)),
    ]
    assert shared_lengths(found) == {("W1", "W2"): 70}


walks = st.lists(
    st.tuples(st.sampled_from((0, 2)), st.integers(-12, 12).filter(bool)), min_size=1, max_size=5
).map(
    lambda steps: [*itertools.accumulate(steps, lambda at, step: moved(at, *step), initial=(5.0, 0.0, 5.0))]
)


def moved(spot: Spot, axis: int, by: int) -> Spot:
    parts = [*spot]
    parts[axis] += by
    return parts[0], parts[1], parts[2]


@given(ways=st.lists(walks, min_size=1, max_size=4))
def test_pieces_add_up_and_agree_with_inch_by_inch(ways: list[list[Spot]]) -> None:
    """By an independent count: each cable's unit steps, compared as sets."""
    named = {f"W{n}": legs(*points) for n, points in enumerate(ways)}
    found = pieces(named)
    steps = {
        cable: set(itertools.chain.from_iterable(map(unit_steps, parts))) for cable, parts in named.items()
    }
    for piece in found:
        for step in unit_steps(Leg(piece.start, piece.end, "in the wall", "A")):
            assert {cable for cable, taken in steps.items() if step in taken} == set(piece.cables)
    assert sum(piece.length_in for piece in found) == len(set().union(*steps.values()))


def unit_steps(leg: Leg) -> set[tuple[Spot, Spot]]:
    a, b = sorted((leg.start, leg.end))
    axis = 0 if a[0] != b[0] else 2
    count = round(b[axis] - a[axis])
    return {(moved(a, axis, n), moved(a, axis, n + 1)) for n in range(count)}


def codes(*ends: dict[str, Any], route: str = "direct", **more: Any) -> list[tuple[str, str]]:
    derived = kitchen(kitchen_job(WALLS, ends, route, **more))
    return [(item.code, item.severity.value) for item in check_ways(derived)]


ENDS = (place("E", 20, 60), place("F", 180, 60))


def test_a_free_way_has_no_finding() -> None:
    assert codes(*ENDS) == []


def test_a_way_through_what_is_barred_stops_the_work() -> None:
    blocks = tuple(keep_out(f"N{n}", 50, 40, 0, 96, wall=tag) for n, tag in enumerate("ABCD"))
    assert codes(*ENDS, keep_out=blocks) == [("way-barred", "stop")]


def test_a_straight_way_through_a_window_is_seen_too() -> None:
    assert codes(*ENDS, route="straight", keep_out=(keep_out("N1", 90, 20, 50, 20),)) == [
        ("way-barred", "stop")
    ]
    assert codes(*ENDS, route="straight", keep_out=(keep_out("N1", 90, 20, 65, 20),)) == []


@pytest.mark.parametrize(
    ("left", "width", "expected"), [(20, 160, []), (20, 150, [("outside-cabinets", "check")])]
)
def test_a_run_through_cabinets_lies_in_cabinets(left: float, width: float, expected: list[Any]) -> None:
    cabinet = {
        "tag": "C1",
        "left": inches(left),
        "width": inches(width),
        "bottom": "54 in",
        "height": "40 in",
        "depth": "13 in",
    }
    assert codes(*ENDS, route="cabinets", cabinet=(cabinet,)) == expected


def test_a_run_through_cabinets_goes_into_the_wall_behind_one_that_may_not_be_drilled() -> None:
    cabinet = {
        "tag": "C1",
        "left": "90 in",
        "width": "20 in",
        "bottom": "54 in",
        "height": "40 in",
        "depth": "13 in",
        "carries": False,
    }
    derived = kitchen(kitchen_job(WALLS, ENDS, "cabinets", cabinet=(cabinet,)))
    route = derived.lengths[0].route
    assert isinstance(route, Route)
    assert route.length_in == 24 + 160 + 24
    level = [(leg.start[0], leg.end[0], leg.medium) for leg in route.legs if not leg.upright]
    # In cabinets wherever it may be: it leaves them behind this one alone.
    assert level == [(20, 90, "in cabinets"), (90, 110, "in the wall"), (110, 180, "in cabinets")]


def test_a_run_through_cabinets_goes_round_a_window_in_the_wall() -> None:
    """By hand: down 6 in under the window, up 30 in past it to the run, down 24 in; 160 in along."""
    window = keep_out("N1", 90, 20, 54, 40)
    derived = kitchen(kitchen_job(WALLS, ENDS, "cabinets", keep_out=(window,)))
    assert derived.lengths[0].required_in == 6 + 30 + 24 + 160
