"""Where the hood hangs and what its bracket meets: windows, fits, holes against studs, blocks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.mounting.height import (
    box_room,
    bracket_height,
    combustible_clearance,
    height_window,
    keep_clear,
    room_above,
    room_beside,
)
from schedules.mounting.stud_hits import Hit, aim_tolerance, blocking, hole_hits
from schedules.site.lumber import lumber
from schedules.working import Confidence

STUDS = (0.0, 16.0, 32.0, 48.0, 64.0)


def test_the_sheets_window_comes_before_common_practice() -> None:
    silent = height_window(sheet_lowest_in=None, sheet_highest_in=None, range_lowest_in=None)
    assert (silent.lowest_in, silent.highest_in) == (24, 30)
    assert silent.working.source.confidence is Confidence.COMMON_PRACTICE
    given_by_maker = height_window(sheet_lowest_in=27, sheet_highest_in=33, range_lowest_in=None)
    assert (given_by_maker.lowest_in, given_by_maker.highest_in) == (27, 33)
    assert given_by_maker.holds(27)
    assert not given_by_maker.holds(26.9)
    assert not given_by_maker.holds(33.1)


def test_the_range_can_raise_the_window_and_empty_it() -> None:
    raised = height_window(sheet_lowest_in=24, sheet_highest_in=33, range_lowest_in=30)
    assert (raised.lowest_in, raised.lowest_from) == (30, "range's maker")
    with pytest.raises(
        ValueError, match=r"range's maker wants at least 3' 0\", common practice at most 2' 6\""
    ):
        height_window(sheet_lowest_in=None, sheet_highest_in=None, range_lowest_in=36)


@pytest.mark.parametrize("edition", ["2012", "2018", "2021", "2024"])
def test_irc_m1901_1_clearance_to_combustibles(edition: str) -> None:
    assert combustible_clearance(protected=False, edition=edition).height_in == 30
    assert combustible_clearance(protected=True, edition=edition).height_in == 24


def test_bracket_height_counts_the_floor_to_come() -> None:
    found = bracket_height(
        cooking_surface_in=36, clearance_in=28, hole_above_underside_in=17.25, floor_finish_in=0.75
    )
    assert found.height_in == 82


def test_rooms_and_boxes_say_how_much_is_missing() -> None:
    assert room_above(top_in=88, limit_in=96, limit_name="ceiling").spare_in == 7.5
    assert not room_above(top_in=95.75, limit_in=96, limit_name="ceiling").fits
    assert room_beside(body_width_in=36, opening_width_in=35.875).spare_in == pytest.approx(-0.125)
    assert box_room((10, 12, 4), (10.5, 11, 4)) == (0.5, -1, 0)


def test_service_position_is_measured_from_the_cooking_surface() -> None:
    swept = keep_clear(
        centre_in=60,
        body_width_in=36,
        body_height_in=18,
        body_depth_in=20,
        underside_in=64,
        cooking_surface_in=36,
        lowered_in=12,
        drawn_out_in=6,
    )
    assert swept.above_surface_in == 16
    assert (swept.along_in, swept.out_in, swept.up_in) == ((42, 78), (0, 26), (52, 82))


@pytest.mark.parametrize(("diameter", "off"), [(0.25, 0.375), (0.3125, 0.28125), (0.375, 0.1875), (0.5, 0)])
def test_nds_aim_off_a_stud_of_an_inch_and_a_half(diameter: float, off: float) -> None:
    found = aim_tolerance(stud_thickness_in=1.5, diameter_in=diameter, edition="2018")
    assert found.off_in == off


def test_a_hole_holds_nears_the_edge_or_misses() -> None:
    hits = hole_hits(
        (16.0, 16.2, 16.5, 24.0), STUDS, stud_thickness_in=1.5, aim_in=0.28125, tolerance_in=0.125
    )
    assert [item.hit for item in hits] == [Hit.HOLDS, Hit.NEAR_EDGE, Hit.NEAR_EDGE, Hit.MISSES]
    assert [item.stud_in for item in hits] == [16.0, 16.0, 16.0, 16.0]
    assert hole_hits((3.0,), (), stud_thickness_in=1.5, aim_in=0.3, tolerance_in=0.1)[0].hit is Hit.MISSES


@given(st.floats(0, 64), st.floats(0, 0.5), st.floats(0, 0.25), st.sampled_from((0.25, 0.3125, 0.375)))
def test_less_tolerance_never_loses_a_hole(
    hole: float, tolerance: float, more: float, diameter: float
) -> None:
    aim = aim_tolerance(stud_thickness_in=1.5, diameter_in=diameter, edition="2018").off_in
    order = [Hit.MISSES, Hit.NEAR_EDGE, Hit.HOLDS]
    sharp, blunt = (
        hole_hits((hole,), STUDS, stud_thickness_in=1.5, aim_in=aim, tolerance_in=each)[0].hit
        for each in (tolerance, tolerance + more)
    )
    assert order.index(blunt) <= order.index(sharp)


@given(st.lists(st.floats(0, 64), min_size=1, max_size=8, unique=True), st.floats(0, 3), st.floats(0, 0.25))
def test_a_block_keeps_every_distance_to_the_holes_it_takes(
    holes: list[float], rise: float, tolerance: float
) -> None:
    rows = (80.0, 80.0 + rise)
    hits = hole_hits(tuple(holes), STUDS, stud_thickness_in=1.5, aim_in=0.28125, tolerance_in=tolerance)
    blocks = blocking(
        hits,
        STUDS,
        rows,
        stud_thickness_in=1.5,
        diameter_in=0.3125,
        tolerance_in=tolerance,
        edition="2018",
    )
    taken = [hole for block in blocks for hole in block.holes]
    assert len(taken) == len(set(taken))
    held = {item.along_in for item in hits if item.hit is Hit.HOLDS}
    assert held.isdisjoint(taken)
    for block in blocks:
        assert block.top_in - block.bottom_in == pytest.approx(lumber(block.size).depth_in)
        assert block.to_in - block.from_in == pytest.approx(14.5)
        slack = 1.5 * 0.3125 + tolerance - 1e-9
        assert min(rows) - block.bottom_in >= slack
        assert block.top_in - max(rows) >= slack
        for hole in block.holes:
            assert block.from_in + 1.25 <= hole <= block.to_in - 1.25


def test_rows_too_far_apart_for_any_lumber_are_refused() -> None:
    hits = hole_hits((8.0,), STUDS, stud_thickness_in=1.5, aim_in=0.28, tolerance_in=0)
    with pytest.raises(LookupError, match="no lumber carried is 1' 4-15/16\" wide"):
        blocking(
            hits,
            STUDS,
            (60.0, 76.0),
            stud_thickness_in=1.5,
            diameter_in=0.3125,
            tolerance_in=0,
            edition="2018",
        )
