"""Walls set round a room, positions brought into one frame, and what can't be as it was measured."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.checks.site import check_site
from schedules.findings import Severity
from schedules.site.room import Room
from tests.small_kitchens import inches, keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.findings import Finding

SQUARE = (wall("A", 120), wall("B", 96), wall("C", 120), wall("D", 96))
# Going round to the right: one corner turns away, so that the room is an L.
ELL = (
    wall("A", 120),
    wall("B", 60),
    wall("C", 48, corner="outside"),
    wall("D", 40),
    wall("E", 72),
    wall("F", 100),
)
STUDS = {"lumber": "2x4", "spacing": "16 in", "first_stud": "16 in", "bearing": False}
APART = (place("E", 20, 40), place("F", 100, 40))
SIZED: dict[str, Any] = {"width": "4 in", "height": "4 in", "depth": "2 in"}


def room(*walls: dict[str, Any], **site: Any) -> Room:
    made = Room.of(kitchen_job(walls, (), site=site))
    assert made is not None
    return made


def test_without_walls_there_is_no_room() -> None:
    assert Room.of(kitchen_job((), ())) is None


def test_four_walls_close() -> None:
    made = room(*SQUARE)
    assert made.closed
    assert made.gap_in == (0.0, 0.0)
    assert [item.start for item in made.walls] == [(0, 0), (120, 0), (120, 96), (0, 96)]


def test_an_ell_closes_and_holds_what_is_inside() -> None:
    made = room(*ELL)
    assert made.closed
    assert made.gap_in == (0.0, 0.0)
    assert made.holds((60.0, 30.0, 40.0))
    assert made.holds((30.0, 90.0, 40.0))
    assert made.holds((100.0, 90.0, 40.0)) is False
    assert made.holds((-1.0, 30.0, 40.0)) is False


def test_the_range_wall_starts_the_frame_wherever_it_stands_in_the_row() -> None:
    made = room(*SQUARE, range_wall="C")
    assert made.main.tag == "C"
    assert made.main.start == (0.0, 0.0)
    assert made.main.right == (1.0, 0.0)
    # Opposite the range wall, seen from inside, its left corner is the range wall's right one.
    opposite = made.wall("A")
    assert opposite is not None
    assert opposite.start == (120.0, 96.0)
    assert opposite.spot(10.0, 2.0, 30.0) == (110.0, 94.0, 30.0)


def test_the_next_wall_begins_where_this_one_ends() -> None:
    made = room(*ELL)
    for one, other in zip(made.walls, made.walls[1:], strict=False):
        assert one.end == other.start
        assert made.beside(one)[1] is other
        assert made.beside(other)[0] is one


@given(
    name=st.sampled_from("ABCDEF"),
    along=st.floats(-50, 150),
    out=st.floats(-20, 100),
    up=st.floats(0, 120),
)
def test_a_position_comes_back_from_the_frame(name: str, along: float, out: float, up: float) -> None:
    here = room(*ELL).wall(name)
    assert here is not None
    there = here.local(here.spot(along, out, up))
    assert all(math.isclose(a, b, abs_tol=1e-9) for a, b in zip(there, (along, out, up), strict=True))


SIXTEENTHS = st.integers(24 * 16, 400 * 16).map(lambda count: count / 16)


@given(sides=st.tuples(SIXTEENTHS, SIXTEENTHS))
def test_mirrored_rooms_hold_mirrored_points(sides: tuple[float, float]) -> None:
    width, depth = sides
    made = room(wall("A", width), wall("B", depth), wall("C", width), wall("D", depth))
    for x, y in ((0.1, 0.9), (0.5, 0.5), (1.1, 0.5), (0.5, 1.2)):
        inside = made.holds((x * width, y * depth, 1.0))
        assert inside == made.holds(((1 - x) * width, y * depth, 1.0)) == (x < 1 and y < 1)


def found(*places: dict[str, Any], walls: tuple[dict[str, Any], ...] = SQUARE, **more: Any) -> list[Finding]:
    """What is reported of a job, but for notes of what isn't measured."""
    hood = bool(more.get("mounting"))
    derived = kitchen(kitchen_job(walls, places, **more), hood=hood)
    return [item for item in check_site(derived) if item.code != "site-not-measured"]


def codes(*places: dict[str, Any], **more: Any) -> list[tuple[str, str]]:
    return [(item.code, item.subject) for item in found(*places, **more)]


def test_a_possible_kitchen_has_no_finding() -> None:
    assert codes(*APART, place("G", 60, 20, wall="C", **SIZED)) == []


MOUNTING = {"centre": "100 in", "cooking_surface": "36 in", "clearance": "28 in"}


@pytest.mark.parametrize(
    ("spoilt", "expected"),
    [
        ({"places": (place("E", -10, 40), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 130, 40), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 110), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, -3), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 40, 100), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 40, stands="attic"), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 40, stands="underfloor"), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 40, stands="elsewhere"), APART[1])}, ("outside-room", "E")),
        ({"places": (place("E", 20, 40, wall="Z"), APART[1])}, ("wall-unknown", "E")),
        ({"keep_out": (keep_out("N1", 10, 30, 30, 20),)}, ("place-taken", "E")),
        ({"keep_out": (keep_out("N1", 110, 30, 30, 20),)}, ("beyond-wall", "N1")),
        (
            {"keep_out": (keep_out("N1", 50, 30, 30, 20), keep_out("N2", 60, 30, 40, 20))},
            ("furniture-overlaps", "N1"),
        ),
        ({"places": (*APART, place("G", 22, 41, **SIZED), place("PB", 21, 40))}, ("boxes-overlap", "PB")),
        ({"places": (place("E", 1, 40, **SIZED), APART[1])}, ("beyond-wall", "E")),
        (
            {
                "walls": (wall("A", 120, **STUDS), *SQUARE[1:]),
                "places": (place("E", 33, 40, mounted="flush", **SIZED), APART[1]),
            },
            ("place-on-stud", "E"),
        ),
        ({"walls": (wall("A", 121), *SQUARE[1:])}, ("walls-do-not-close", "D")),
        ({"mounting": MOUNTING, "places": (place("E", 95, 70), APART[1])}, ("place-in-hood", "E")),
        ({"mounting": MOUNTING, "places": (place("E", 95, 55), APART[1])}, ("place-in-service-space", "E")),
    ],
    ids=lambda value: value[0] if isinstance(value, tuple) else "",
)
def test_the_impossible_is_named(spoilt: dict[str, Any], expected: tuple[str, str]) -> None:
    places = spoilt.pop("places", APART)
    reported = codes(*places, **spoilt)
    assert expected in reported
    assert len({code for code, _ in reported}) == 1


def test_the_words_say_where_and_by_how_much() -> None:
    said = found(place("E", -10, 40), APART[1])
    assert [item.says for item in said] == ['E is 10" beyond the left corner of wall A']
    assert said[0].answer == ("place", "E", "along")
    assert [edit.value for remedy in said[0].remedies for edit in remedy.edits] == ["elsewhere"]


def test_walls_may_miss_each_other_by_what_their_measurements_may_be_off() -> None:
    walls = (wall("A", 120.5), *SQUARE[1:])
    assert codes(*APART, walls=walls, tolerance="1/4 in") == []
    assert codes(*APART, walls=walls, tolerance="1/8 in") == [("walls-do-not-close", "D")]


def test_what_is_not_measured_is_said() -> None:
    derived = kitchen(kitchen_job(SQUARE, APART))
    said = [item.says for item in check_site(derived)]
    assert said == [
        "the studs of wall A aren't measured: no box or hole is held against them",
        "no size is given for E, F: held against the rest of the wall as points",
    ]


def test_studs_are_counted_from_the_first_and_measured_ones_stand_in_for_them() -> None:
    walls = (wall("A", 120, **STUDS), *SQUARE[1:])
    studs = ({"tag": "S1", "along": "33 in", "doubled": True}, {"tag": "S2", "along": "70 in", "wall": "B"})
    derived = kitchen(kitchen_job(walls, APART, stud=studs))
    assert derived.room is not None
    assert [(item.centre_in, item.thickness_in) for item in derived.room.main.studs] == [
        (16, 1.5),
        (33, 3.0),
        *((place, 1.5) for place in (48, 64, 80, 96, 112)),
    ]
    assert derived.room.walls[1].studs == ()


@given(
    shift=st.integers(-40 * 16, 150 * 16).map(lambda count: count / 16),
    height=st.integers(-20 * 16, 130 * 16).map(lambda count: count / 16),
)
def test_mirrored_kitchens_have_mirrored_findings(shift: float, height: float) -> None:
    window = keep_out("N1", 30, 24, 40, 30)
    mirrored = keep_out("N1", 120 - 54, 24, 40, 30)
    one = codes(place("E", shift, height), keep_out=(window,))
    other = codes(place("E", 120 - shift, height), keep_out=(mirrored,))
    assert one == other


def test_units_do_not_matter() -> None:
    metric = ({"enclosure": "E", "along": "-254 mm", "out": "0 m", "up": "1.016 m"}, APART[1])
    assert [item.says for item in found(*metric)] == [
        item.says for item in found(place("E", -10, 40), APART[1])
    ]
    assert inches(2.5) == "2.500000 in"


@pytest.mark.parametrize(
    ("up", "site", "says"),
    [
        (
            200,
            {"above": "closed"},
            "E is 16' 8\" up, 8' 8\" above the ceiling at 8' 0\", and what lies above it is closed",
        ),
        (-10, {"below": "slab"}, 'E is 10" below the floor, and below it is a slab'),
    ],
)
def test_without_walls_a_height_that_the_room_can_not_have_is_told(
    up: float, site: dict[str, Any], says: str
) -> None:
    (finding,) = found(place("E", 20, up), walls=(), site=site)
    assert (finding.code, finding.severity, finding.says) == ("height-beyond-room", Severity.CHECK, says)


@pytest.mark.parametrize(("up", "key"), [(96.1, "above"), (-0.1, "below")])
def test_without_walls_a_height_beyond_what_nobody_described_is_told(up: float, key: str) -> None:
    (finding,) = found(place("E", 20, up), walls=(), site={key: None})
    assert "nobody said" in finding.says


@pytest.mark.parametrize("up", [0, 40, 96])
def test_without_walls_a_height_within_the_room_is_silent(up: float) -> None:
    assert codes(place("E", 20, up), walls=(), site={"above": "closed", "below": "slab"}) == []


def test_without_walls_a_box_in_attic_or_crawlspace_or_elsewhere_is_silent() -> None:
    assert codes(place("E", 20, 110), place("F", 20, -12), walls=()) == []
    closed = {"above": "closed", "below": "slab"}
    assert codes(place("E", 20, 110, stands="elsewhere"), walls=(), site=closed) == []
