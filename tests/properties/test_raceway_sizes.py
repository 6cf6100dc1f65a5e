"""What must always hold of raceway sizes, whatever goes in."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.raceways.bends import (
    Bend,
    bend_total,
    between_pulls,
    least_bend_radius,
    least_cable_bend,
    with_pull_boxes,
)
from schedules.raceways.fill import fill, least_trade_size, most_conductors, trade_sizes
from schedules.raceways.occupants import Occupant, bare_conductor, conductor, flat_cable, round_cable
from schedules.raceways.passage import round_plug
from schedules.raceways.pulling import Pull
from schedules.raceways.trade_size import (
    FILL,
    PASSAGE,
    PRESCRIBED,
    ROOM,
    TWO_THICKEST,
    RacewaySize,
    size_raceway,
)
from schedules.working import Confidence

E = "2023"
KINDS = ("EMT", "ENT", "FMC", "LFMC", "LFNC-B", "RMC", "PVC-40", "PVC-80")
SIZES = ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250")

kinds = st.sampled_from(KINDS)
places = st.integers(0, len(SIZES) - 2)
sets = st.lists(st.integers(0, len(SIZES) - 2), min_size=1, max_size=9)
connectors = st.lists(
    st.tuples(st.floats(0.1, 0.35), st.floats(0.2, 0.9), st.floats(0.5, 2.5)), min_size=1, max_size=3
)


def wires(picks: list[int]) -> list[Occupant]:
    return [conductor(SIZES[pick], edition=E) for pick in picks]


def rank(raceway: str, size: str | None) -> int:
    """Place among the sizes made; beyond the last where none is large enough."""
    made = trade_sizes(raceway)
    return len(made) if size is None else made.index(size)


def sized(raceway: str, occupants: list[Occupant], nipple_in: float | None = None) -> int:
    found = size_raceway(raceway, [Pull(occupant) for occupant in occupants], nipple_in=nipple_in, edition=E)
    return rank(raceway, found.trade_size)


@settings(max_examples=60)
@given(kinds, sets, st.data())
def test_a_larger_conductor_never_needs_a_smaller_raceway(
    raceway: str, picks: list[int], data: st.DataObject
) -> None:
    which = data.draw(st.integers(0, len(picks) - 1))
    larger = [*picks[:which], picks[which] + 1, *picks[which + 1 :]]
    assert sized(raceway, wires(larger)) >= sized(raceway, wires(picks))


@settings(max_examples=60)
@given(kinds, sets, places)
def test_adding_a_conductor_never_shrinks_a_raceway(raceway: str, picks: list[int], more: int) -> None:
    assert sized(raceway, wires([*picks, more])) >= sized(raceway, wires(picks))


@settings(max_examples=60)
@given(kinds, sets)
def test_a_nipple_never_needs_more_than_a_longer_raceway(raceway: str, picks: list[int]) -> None:
    by_letter = least_trade_size(raceway, wires(picks), nipple_in=24, edition=E).trade_size
    longer = least_trade_size(raceway, wires(picks), edition=E).trade_size
    assert rank(raceway, by_letter) <= rank(raceway, longer)


@settings(max_examples=60)
@given(kinds, sets)
def test_the_letter_never_asks_for_more_than_is_given(raceway: str, picks: list[int]) -> None:
    found = size_raceway(raceway, [Pull(wire) for wire in wires(picks)], edition=E)
    assert rank(raceway, found.by_the_letter.trade_size) <= rank(raceway, found.trade_size)


@settings(max_examples=60)
@given(kinds, st.integers(0, len(SIZES) - 1), st.integers(1, 30))
def test_the_count_and_the_fill_of_equal_conductors_agree(raceway: str, pick: int, count: int) -> None:
    wire = conductor(SIZES[pick], edition=E)
    for size in trade_sizes(raceway):
        most = most_conductors(raceway, size, wire, edition=E).count
        allowed = fill(raceway, size, [wire] * count, edition=E).allowed
        assert allowed == (count <= most), (raceway, size, most)


@settings(max_examples=60)
@given(kinds, st.integers(0, len(SIZES) - 2))
def test_a_larger_trade_size_never_holds_fewer_and_a_thicker_wire_never_more(raceway: str, pick: int) -> None:
    thin, thick = conductor(SIZES[pick], edition=E), conductor(SIZES[pick + 1], edition=E)
    counts = [most_conductors(raceway, size, thin, edition=E).count for size in trade_sizes(raceway)]
    thicker = [most_conductors(raceway, size, thick, edition=E).count for size in trade_sizes(raceway)]
    assert counts == sorted(counts)
    assert all(fewer <= more for fewer, more in zip(thicker, counts, strict=True))


def with_plugs(sizes: list[tuple[float, float, float]]) -> list[Pull]:
    return [
        Pull(round_cable(f"W{n}", cable, edition=E), round_plug(f"plug {n}", plug, length))
        for n, (cable, plug, length) in enumerate(sizes, start=1)
    ]


@settings(max_examples=40)
@given(kinds, connectors, st.lists(st.sampled_from([30.0, 45.0, 90.0]), max_size=4), st.floats(0.0, 0.3))
def test_a_larger_connector_or_another_bend_never_shrinks_a_raceway(
    raceway: str, sizes: list[tuple[float, float, float]], angles: list[float], thicker: float
) -> None:
    bends = [Bend(angle) for angle in angles]
    straight = size_raceway(raceway, with_plugs(sizes), edition=E)
    bent = size_raceway(raceway, with_plugs(sizes), bends=bends, edition=E)
    cable, plug, length = sizes[0]
    larger = size_raceway(
        raceway, with_plugs([(cable, plug + thicker, length), *sizes[1:]]), bends=bends, edition=E
    )
    assert (
        rank(raceway, straight.trade_size)
        <= rank(raceway, bent.trade_size)
        <= rank(raceway, larger.trade_size)
    )
    if bent.trade_size is not None:
        assert bent.pulls is not None
        assert bent.pulls.passes
        assert bent.fill.allowed


def one(pull: Pull, *, bends: tuple[Bend, ...] = ()) -> RacewaySize:
    return size_raceway("EMT", [pull], bends=bends, edition=E)


def test_which_rule_governs_and_by_how_much() -> None:
    cable = round_cable("W7", 0.31, edition=E)
    assert one(Pull(cable)).governed_by == (FILL,)
    plug = round_plug("control plug", 0.7, 1.5)
    # By hand, 90 degrees: 1/2 EMT, 0.622 - 0.05 in, is narrower than the plug; 3/4, R 4.5 in, offers 0.774 in, and
    # 0.7 + 1.5^2 / (4 x 9.7) = 0.758 in passes, 0.7 + 1.9^2 / (4 x 9.7) = 0.793 in lacks 0.019 in.
    by_plug = one(Pull(cable, plug), bends=(Bend(90),))
    assert by_plug.governed_by == (PASSAGE,)
    assert by_plug.trade_size == "3/4"
    longer = one(Pull(cable, round_plug("control plug", 0.7, 1.9)), bends=(Bend(90),))
    assert longer.trade_size == "1"
    lacking = "control plug through EMT 3/4, bend of 90 degrees, radius 4.5 in lacks 0.019 in"
    assert longer.working.note.startswith(lacking)
    prescribed = one(Pull(cable, plug, prescribed="1-1/4"))
    assert prescribed.trade_size == "1-1/4"
    assert prescribed.governed_by == (PRESCRIBED,)
    assert prescribed.working.note.startswith("the maker of W7 asks for at least 1-1/4")


def test_the_smallest_size_is_one_for_general_use() -> None:
    thin = Pull(round_cable("W7", 0.1, edition=E))
    assert size_raceway("FMC", [thin], edition=E).trade_size == "1/2"
    assert size_raceway("FMC", [thin], edition=E).by_the_letter.trade_size == "3/8"


def test_a_prescribed_size_that_a_raceway_is_not_made_in_goes_up() -> None:
    cable = round_cable("W7", 0.2, edition=E)
    assert size_raceway("EMT", [Pull(cable, prescribed="3/8")], edition=E).trade_size == "1/2"
    none = size_raceway("ENT", [Pull(cable, prescribed="3")], edition=E)
    assert none.trade_size is None
    assert none.governed_by == (PRESCRIBED,)


def test_a_third_thin_wire_does_not_shrink_a_raceway_though_the_letter_lets_it() -> None:
    thick = conductor("1", edition=E)
    two = size_raceway("EMT", [Pull(thick)] * 2, edition=E)
    three = size_raceway("EMT", [Pull(thick), Pull(thick), Pull(conductor("14", edition=E))], edition=E)
    assert two.trade_size == three.trade_size == "1-1/4"
    assert three.governed_by == (TWO_THICKEST,)
    assert three.by_the_letter.trade_size == "1"
    assert "fill alone allows 1 by the letter" in three.working.note


def test_two_conductors_in_a_nipple_must_have_room_though_60_percent_is_allowed() -> None:
    # Two equal circles never fill more than half of a circle: the 60 % of a nipple lets in what can't lie there.
    # By hand in 3/4 PVC 80: 2 x 0.1075 of 0.409 sq in are 53 %, but 2 x 0.37 in don't go into 0.722 in.
    thick = round_cable("cable", 0.37, edition=E)
    nipple = size_raceway("PVC-80", [Pull(thick)] * 2, nipple_in=12, edition=E)
    assert nipple.by_the_letter.trade_size == "3/4"
    assert nipple.trade_size == "1"
    assert nipple.governed_by == (ROOM,)


def test_twenty_two_equal_wires_by_the_letter_only() -> None:
    # Annex C: 22 of 14 AWG in 3/4 EMT, the count 21.98 rounded up; sizing a raceway doesn't round.
    found = size_raceway("EMT", [Pull(conductor("14", edition=E))] * 22, edition=E)
    assert found.by_the_letter.trade_size == "3/4"
    assert found.by_the_letter.fill.rounded_up
    assert found.trade_size == "1"


def test_bends() -> None:
    assert bend_total([90, 90, 90, 90], edition=E).allowed
    assert not bend_total([90, 90, 90, 90, 10], edition=E).allowed
    assert bend_total([], edition=E).allowed
    assert least_bend_radius("EMT", "1/2", edition=E).radius_in == 4
    assert least_bend_radius("FMC", "1/2", edition=E).radius_in == 4
    assert least_bend_radius("EMT", "2", edition=E).radius_in == 9.5
    assert least_bend_radius("FMC", "2", edition=E).radius_in == 12
    assert least_cable_bend(0.422, edition=E).radius_in == pytest.approx(2.11)
    with pytest.raises(ValueError, match="a bend's angle can't be negative"):
        bend_total([90, -5], edition=E)
    with pytest.raises(ValueError, match="a cable's width must be above 0 in"):
        least_cable_bend(0, edition=E)


def test_a_size_rests_on_its_weakest_value() -> None:
    by_memory = size_raceway("EMT", [Pull(bare_conductor("10", edition=E))], edition=E)
    assert by_memory.working.source.confidence is Confidence.MEMORY
    plain = size_raceway("EMT", [Pull(conductor("12", edition=E))] * 3, edition=E)
    assert plain.working.source.confidence is Confidence.TWO_TEXTS
    unread = size_raceway("EMT", [Pull(conductor("12", edition=E))] * 3, edition="2026")
    assert unread.working.source.confidence is Confidence.MEMORY


def test_input_that_cannot_be_is_refused() -> None:
    with pytest.raises(LookupError, match="no raceway 'IMC'; there are: EMT, ENT"):
        trade_sizes("IMC")
    with pytest.raises(LookupError, match="no insulation 'TW'; there are: THHN, THWN"):
        conductor("12", "TW", edition=E)
    with pytest.raises(LookupError, match="no edition '2017'"):
        fill("EMT", "1/2", [conductor("12", edition="2017")], edition="2017")
    with pytest.raises(ValueError, match="needs at least one conductor"):
        size_raceway("EMT", [], edition=E)
    with pytest.raises(ValueError, match="length must be above 0 in"):
        size_raceway("EMT", [Pull(conductor("12", edition=E))], nipple_in=0, edition=E)
    with pytest.raises(ValueError, match="the diameter must be above 0 in"):
        flat_cable("cable", -0.4, edition=E)


@given(
    angles=st.lists(st.sampled_from((15.0, 30.0, 45.0, 60.0, 90.0)), max_size=14), given_at=st.integers(0, 13)
)
def test_pull_boxes_keep_each_stretch_within_the_limit(angles: list[float], given_at: int) -> None:
    bends = tuple(Bend(angle, pull_box=place == given_at) for place, angle in enumerate(angles))
    boxed = with_pull_boxes(bends, edition=E)
    assert [bend.degrees for bend in boxed] == angles
    assert all(new.pull_box or not old.pull_box for old, new in zip(bends, boxed, strict=True))
    for stretch in between_pulls(boxed):
        assert bend_total([bend.degrees for bend in stretch], edition=E).allowed


@given(angles=st.lists(st.sampled_from((30.0, 45.0, 90.0, 180.0)), max_size=10))
def test_no_fewer_pull_boxes_would_do(angles: list[float]) -> None:
    """The fewest stretches by trying every place of the last cut."""
    fewest = [0]
    for end in range(1, len(angles) + 1):
        fewest.append(1 + min(fewest[start] for start in range(end) if sum(angles[start:end]) <= 360))
    boxed = with_pull_boxes([Bend(angle) for angle in angles], edition=E)
    assert sum(bend.pull_box for bend in boxed) == max(fewest[-1] - 1, 0)


def test_a_box_to_pull_from_parts_the_bends_that_are_added_up() -> None:
    four = tuple(Bend(90.0) for _ in range(4))
    pull = [Pull(conductor("12", edition=E))]
    bent = size_raceway("EMT", pull, bends=(*four, Bend(90.0)), edition=E).bends
    assert (bent.degrees, bent.allowed) == (450.0, False)
    parted = size_raceway(
        "EMT", pull, bends=(*four[:3], Bend(90.0, pull_box=True), Bend(90.0)), edition=E
    ).bends
    assert (parted.degrees, parted.allowed) == (360.0, True)
