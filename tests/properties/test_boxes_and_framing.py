"""What must always hold of box volumes, pull boxes and holes, whatever goes in."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from schedules.boxes.pull_boxes import angle_pull_distance, free_conductor, straight_pull_length
from schedules.boxes.volume import BoxContents, Yoke, box_fill, boxes_that_hold, check_box
from schedules.framing.cuts import joist_hole, joist_hole_limit, stud_hole, stud_hole_limit
from schedules.framing.nail_plates import CABLE, plate_for_hole
from schedules.framing.walls import bored_for
from schedules.site.lumber import lumber_sizes

E = "2023"
SIZES = ("18", "16", "14", "12", "10", "8", "6")
TRADE = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4")

size = st.sampled_from(SIZES)
contents = st.builds(
    BoxContents,
    conductors=st.dictionaries(size, st.integers(1, 6), min_size=1, max_size=3),
    looped=st.dictionaries(size, st.integers(1, 3), max_size=2),
    grounding=st.lists(size, max_size=8),
    internal_clamps=st.booleans(),
    fitting_kinds=st.integers(0, 2),
    devices=st.lists(st.builds(Yoke, size=size, gangs=st.integers(1, 2)), max_size=3),
    terminal_blocks=st.lists(size, max_size=2),
)
lumber = st.sampled_from(lumber_sizes())
trade = st.sampled_from(TRADE)


def volume(inside: BoxContents) -> float:
    return box_fill(inside, edition=E).volume_cu_in


@given(contents, size)
def test_adding_anything_never_shrinks_a_box(inside: BoxContents, more: str) -> None:
    before = volume(inside)
    conductors = {**inside.conductors, more: inside.conductors.get(more, 0) + 1}
    assert volume(replace(inside, conductors=conductors)) > before
    assert volume(replace(inside, grounding=[*inside.grounding, more])) >= before
    assert volume(replace(inside, devices=[*inside.devices, Yoke(more)])) > before
    assert volume(replace(inside, internal_clamps=True)) >= before
    assert volume(replace(inside, terminal_blocks=[*inside.terminal_blocks, more])) > before


@given(contents, st.integers(0, len(SIZES) - 2))
def test_a_larger_conductor_never_needs_a_smaller_box(inside: BoxContents, pick: int) -> None:
    smaller = {**inside.conductors, SIZES[pick]: inside.conductors.get(SIZES[pick], 0) + 1}
    larger = {**inside.conductors, SIZES[pick + 1]: inside.conductors.get(SIZES[pick + 1], 0) + 1}
    assert volume(replace(inside, conductors=larger)) >= volume(replace(inside, conductors=smaller))


@given(contents)
def test_the_volume_is_the_sum_of_its_allowances(inside: BoxContents) -> None:
    needed = box_fill(inside, edition=E)
    assert needed.volume_cu_in == sum(item.count * item.each_cu_in for item in needed.allowances)
    assert len(needed.working.inputs) == len(needed.allowances)


@given(contents)
def test_boxes_that_hold_do_hold_and_are_in_order(inside: BoxContents) -> None:
    boxes = boxes_that_hold(inside, edition=E)
    volumes = [box.volume_cu_in for box in boxes]
    assert volumes == sorted(volumes)
    assert all(check_box([box], inside, edition=E).holds for box in volumes)


@given(st.lists(trade, min_size=1, max_size=5), trade)
def test_another_raceway_never_shortens_a_pull_box(raceways: list[str], more: str) -> None:
    straight = straight_pull_length(raceways, edition=E).length_in
    assert straight_pull_length([*raceways, more], edition=E).length_in >= straight
    angle = angle_pull_distance([raceways], edition=E).length_in
    assert angle_pull_distance([[*raceways, more]], edition=E).length_in > angle
    assert angle_pull_distance([raceways, [more]], edition=E).length_in >= angle


@given(st.floats(0.5, 12.0), st.floats(0.0, 12.0), st.floats(0.0, 6.0))
def test_a_deeper_box_never_needs_less_free_conductor(opening: float, depth: float, deeper: float) -> None:
    shallow = free_conductor(opening_in=opening, depth_in=depth, edition=E).length_in
    assert free_conductor(opening_in=opening, depth_in=depth + deeper, edition=E).length_in >= shallow >= 6


@given(lumber, st.floats(0.1, 8.0), st.booleans(), st.floats(0.0, 1.0))
def test_a_larger_hole_is_never_allowed_where_a_smaller_is_not(
    stud: str, diameter: float, bearing: bool, more: float
) -> None:
    if not stud_hole(stud, diameter, bearing=bearing, edition="2018").allowed:
        assert not stud_hole(stud, diameter + more, bearing=bearing, edition="2018").allowed
    if not joist_hole(stud, diameter, edition="2018").allowed:
        assert not joist_hole(stud, diameter + more, edition="2018").allowed


@given(lumber)
def test_bearing_never_allows_more_and_doubling_never_less(stud: str) -> None:
    bearing = stud_hole_limit(stud, bearing=True, edition="2018").limit_in
    doubled = stud_hole_limit(stud, bearing=True, doubled=True, edition="2018").limit_in
    free = stud_hole_limit(stud, bearing=False, edition="2018").limit_in
    assert bearing <= doubled <= free


def test_deeper_lumber_never_allows_a_smaller_hole() -> None:
    studs = [stud_hole_limit(stud, bearing=True, edition="2018").limit_in for stud in lumber_sizes()]
    joists = [joist_hole_limit(joist, edition="2018").limit_in for joist in lumber_sizes()]
    assert studs == sorted(studs)
    assert joists == sorted(joists)


@given(st.floats(0.0, 3.0), st.floats(0.0, 2.0))
def test_nearer_to_the_edge_never_spares_the_plate(edge: float, farther: float) -> None:
    if plate_for_hole(edge + farther, wiring=CABLE, edition=E).holds:
        assert plate_for_hole(edge, wiring=CABLE, edition=E).holds


@given(st.floats(0.1, 6.0))
def test_a_hole_is_bored_a_little_larger_in_eighths(outside: float) -> None:
    hole = bored_for(outside)
    assert 1 / 16 - 1e-6 <= hole - outside <= 3 / 16 + 1e-6
    assert (hole * 8).is_integer()
