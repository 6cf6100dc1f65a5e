"""The take-off: every field cable and raceway bought once, cut once, and fastened as the code spaces supports."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.planned import plan_file
from schedules.rows.takeoff import cuts, takeoff
from schedules.takeoff.take_off import TakeOff, supports, take_off
from tests.small_kitchens import kitchen, kitchen_job, place, wall

SAMPLES = Path(__file__).parents[2] / "samples" / "jobs"
JOBS = sorted(path.stem for path in SAMPLES.glob("*.toml"))
ENDS = (place("E", 20, 60), place("F", 180, 60))


def of_kitchen(*, make: str = "field", **more: object) -> TakeOff:
    job = kitchen_job((wall("A", 240),), ENDS, **more)  # type: ignore[arg-type]
    derived = kitchen(job, "60 ft", make=make)
    return take_off(derived.job, derived.selection, derived.lengths, derived.raceways)


@pytest.mark.parametrize("job", JOBS)
def test_every_field_cable_and_raceway_is_bought_or_named_as_unknown(job: str) -> None:
    derived = plan_file(SAMPLES / f"{job}.toml", remedies=False).plan.derived
    found = take_off(derived.job, derived.selection, derived.lengths, derived.raceways)
    bought = {piece.for_what.split()[0] for item in found.bought for piece in item.pieces}
    field = {cable.tag for cable in derived.selection.cables if cable.make == "field"}
    raceways = {plan.raceway for plan in derived.raceways}
    assert bought | set(found.unknown) == field | raceways
    assert not bought & set(found.unknown)
    for length in derived.lengths:
        pieces = [
            piece.length_in
            for item in found.bought
            for piece in item.pieces
            if piece.for_what.split()[0] == length.cable
        ]
        assert set(pieces) <= {length.cut_in}


@pytest.mark.parametrize("job", JOBS)
def test_the_cut_list_gives_every_piece_once(job: str) -> None:
    plan = plan_file(SAMPLES / f"{job}.toml", remedies=False).plan
    derived = plan.derived
    found = take_off(derived.job, derived.selection, derived.lengths, derived.raceways)
    wanted = sorted(piece.for_what for item in found.bought if item.cutting for piece in item.pieces)
    parts = [part for row in cuts(plan).rows for part in row.pieces.split("; ")]
    # The tag and perhaps the core's colour, then the length.
    listed = sorted(re.split(r" (?=\d)", part, maxsplit=1)[0] for part in parts)
    assert listed == wanted
    for row in takeoff(plan).rows:
        assert row.bought_in is None or row.needed_in is None or row.bought_in >= row.needed_in


@given(length=st.integers(1, 1200), every=st.integers(10, 120), first=st.integers(1, 40))
def test_supports_are_as_few_as_the_spacing_allows(length: int, every: int, first: int) -> None:
    """By laying them out: each as far on as it may be, until the last is near enough to the end."""
    position = min(first, length)
    count = 1
    while length - position > first:
        position = min(position + every, length - first)
        count += 1
    if length <= first:
        assert supports(length, every, first) == 1
    elif length <= 2 * first:
        assert supports(length, every, first) == 2
    else:
        assert supports(length, every, first) == count


def test_a_long_raceway_takes_whole_sticks_couplings_and_straps() -> None:
    """By hand: 160 in of EMT are a stick of 120 in and 40 in, one coupling; straps at 36 and 124 in."""
    raceway = {"tag": "R1", "kind": "EMT", "cables": ("W1",), "trade_size": "1"}
    found = of_kitchen(raceway=(raceway,))
    (tube,) = [item for item in found.bought if item.kind == "raceway"]
    assert [piece.length_in for piece in tube.pieces] == [120, 40]
    assert tube.cutting is not None
    assert tube.cutting.bought_in == 240
    counted = {item.item: item.count for item in found.counted}
    assert counted == {
        "EMT 1 connector": 2,
        "EMT 1 coupling": 1,
        "EMT 1 strap": 2,
        # 160 in of cable: near both ends, and 136 in between at no more than 54 in.
        "staple for NM cable, at most": 4,
    }


def test_bends_of_a_course_are_counted_and_its_length_is_its_own() -> None:
    path = tuple(
        {"along": f"{x} in", "out": "0 in", "up": f"{z} in"} for x, z in ((20, 60), (20, 90), (180, 90))
    )
    raceway = {"tag": "R1", "kind": "EMT", "cables": ("W1",), "trade_size": "1", "path": path}
    found = of_kitchen(raceway=(raceway,))
    assert (
        sum(piece.length_in for item in found.bought if item.kind == "raceway" for piece in item.pieces)
        == 190
    )
    assert {item.item: item.count for item in found.counted}["EMT 1 bend"] == 1


def test_the_job_s_stock_comes_before_the_trade_s() -> None:
    stock = ({"tag": "L1", "item": "NM-B 14/2 G", "length": "20 ft"},)
    (cable,) = of_kitchen(stock=stock).bought
    assert cable.cutting is not None
    assert [stick.stock_in for stick in cable.cutting.sticks] == [240]
    assert str(cable.stock) == "stock lengths of the job"
    (usual,) = of_kitchen().bought
    assert usual.cutting is not None
    assert [stick.stock_in for stick in usual.cutting.sticks] == [300]


def test_what_is_longer_than_any_stock_is_said_to_be() -> None:
    stock = ({"tag": "L1", "item": "NM-B 14/2 G", "length": "10 ft"},)
    (cable,) = of_kitchen(stock=stock).bought
    assert cable.cutting is None
    assert math.isclose(cable.length_in, 160)


def test_a_factory_cable_is_not_bought_by_length() -> None:
    assert of_kitchen(make="factory") == TakeOff((), (), ())
