"""Ways through measured rooms, against a search of our own over sampled points of the walls, and their properties."""

from __future__ import annotations

import heapq
import itertools
import math
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.site.routes import Route
from tests.small_kitchens import keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.job.records import Job

WALLS = (wall("A", 40), wall("B", 30), wall("C", 40), wall("D", 30))
HEIGHT = 24
LENGTHS = (40, 30, 40, 30)
LOW: dict[str, Any] = {
    "ceiling": f"{HEIGHT} in",
    "rise_above": "3 in",
    "drop_below": "5 in",
    "cabinet_height": "18 in",
}
Block = tuple[int, int, int, int, int]
"""Wall's place in the row, left, width, bottom, height: whole inches."""


def route(job: Job) -> Route:
    found = kitchen(job).lengths[0].route
    assert isinstance(found, Route)
    return found


def way(a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block], kind: str) -> Route:
    """The route between two points, each given by wall, along, up."""
    outs = [
        keep_out(f"N{n}", left, width, bottom, height, wall="ABCD"[place_])
        for n, (place_, left, width, bottom, height) in enumerate(blocks)
    ]
    ends = (place("E", a[1], a[2], wall="ABCD"[a[0]]), place("F", b[1], b[2], wall="ABCD"[b[0]]))
    return route(kitchen_job(WALLS, ends, kind, site=LOW, keep_out=tuple(outs)))


# The walls unrolled into a ring, one sample each inch; blocked where both neighbours lie in a block's inside.
RING = sum(LENGTHS)
STARTS = list(itertools.accumulate(LENGTHS, initial=0))


def sampled(a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block]) -> float:
    """Length of the shortest way on the walls over whole inches, by Dijkstra's algorithm."""
    start, goal = (STARTS[a[0]] + a[1], a[2]), (STARTS[b[0]] + b[1], b[2])
    best = {start: 0.0}
    queue = [(0.0, start)]
    while queue:
        length, (s, z) = heapq.heappop(queue)
        if (s % RING, z) == (goal[0] % RING, z) and z == goal[1]:
            return length
        if length > best.get((s, z), math.inf):
            continue
        for ds, dz in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            other = ((s + ds) % RING, z + dz)
            if 0 <= other[1] <= HEIGHT and not barred(s, z, ds, dz, blocks):
                reached = length + 1
                if reached < best.get(other, math.inf):
                    best[other] = reached
                    heapq.heappush(queue, (reached, other))
    return math.inf


def barred(s: int, z: int, ds: int, dz: int, blocks: list[Block]) -> bool:
    """Whether the middle of a step lies inside a block; blocks at floor, ceiling or corner leave no room there."""
    x, y = (s + ds / 2) % RING, z + dz / 2
    for place_, left, width, bottom, height in blocks:
        begin = STARTS[place_] + left
        stop = begin + width
        low, high = (
            (-1 if bottom <= 0 else bottom),
            (HEIGHT + 1 if bottom + height >= HEIGHT else bottom + height),
        )
        reaches_corner = begin == STARTS[place_] or stop == STARTS[place_ + 1]
        inside = begin <= x <= stop if ds and reaches_corner else begin < x < stop
        at_corner = (
            reaches_corner
            and not ds
            and (
                (begin == STARTS[place_] and x in (begin, begin % RING))
                or (stop == STARTS[place_ + 1] and x == stop % RING)
            )
        )
        if (inside or at_corner) and low < y < high:
            return True
    return False


points = st.integers(0, 3).flatmap(
    lambda n: st.tuples(st.just(n), st.integers(1, LENGTHS[n] - 1), st.integers(1, HEIGHT - 1))
)
HEIGHTS = (st.integers(1, HEIGHT - 1),) * 3
blocks_of = st.lists(
    st.integers(0, 3).flatmap(
        lambda n: st.tuples(
            st.just(n),
            st.integers(2, LENGTHS[n] - 8),
            st.integers(2, 20),
            st.integers(0, HEIGHT - 4),
            st.integers(2, HEIGHT),
        )
    ),
    max_size=4,
).map(lambda found: [(n, x, min(w, LENGTHS[n] - x - 1), z, min(h, HEIGHT - z)) for n, x, w, z, h in found])


def free(point: tuple[int, int, int], blocks: list[Block]) -> bool:
    wall_, x, z = point
    return not any(
        wall_ == n and left <= x <= left + width and bottom <= z <= bottom + height
        for n, left, width, bottom, height in blocks
    )


@settings(max_examples=60)
@given(a=points, b=points, blocks=blocks_of)
def test_ways_on_the_walls_are_as_short_as_over_sampled_points(
    a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block]
) -> None:
    if not (free(a, blocks) and free(b, blocks)):
        return
    found, shortest = way(a, b, blocks, "direct"), sampled(a, b, blocks)
    if math.isinf(shortest):
        assert found.through
    else:
        assert not found.through
        assert found.length_in == pytest.approx(shortest, abs=1e-6)


@settings(max_examples=40)
@given(a=points, b=points, blocks=blocks_of)
def test_ways_above_the_ceiling_are_as_short_as_over_sampled_risers(
    a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block]
) -> None:
    """Up from each end by the sampled shortest way in its own wall to every inch of the ceiling, then across."""
    if not (free(a, blocks) and free(b, blocks)):
        return
    risers = [
        {x: up_to(end, x, [item for item in blocks if item[0] == end[0]]) for x in range(LENGTHS[end[0]] + 1)}
        for end in (a, b)
    ]
    shortest = min(
        one + other + 6 + across((a[0], x), (b[0], y))
        for x, one in risers[0].items()
        for y, other in risers[1].items()
    )
    found = way(a, b, blocks, "overhead")
    if math.isinf(shortest):
        assert found.through
    else:
        assert found.length_in == pytest.approx(shortest, abs=1e-6)


def up_to(end: tuple[int, int, int], x: int, blocks: list[Block]) -> float:
    """Sampled length in one wall alone from an end to the ceiling at x."""
    n, begin, z = end
    best = {(begin, z): 0}
    queue = [(0, begin, z)]
    while queue:
        length, here, up = heapq.heappop(queue)
        if (here, up) == (x, HEIGHT):
            return length
        for ds, dz in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            other = (here + ds, up + dz)
            on_wall = 0 <= other[0] <= LENGTHS[n] and 0 <= other[1] <= HEIGHT
            if (
                on_wall
                and not barred(STARTS[n] + here, up, ds, dz, blocks)
                and length + 1 < best.get(other, math.inf)
            ):
                best[other] = length + 1
                heapq.heappush(queue, (length + 1, *other))
    return math.inf


def across(one: tuple[int, int], other: tuple[int, int]) -> float:
    """Along and out between two points of the walls, seen from above."""

    def plan(place_: int, x: int) -> tuple[int, int]:
        return ((x, 0), (40, x), (40 - x, 30), (0, 30 - x))[place_]

    (x1, y1), (x2, y2) = plan(*one), plan(*other)
    return abs(x1 - x2) + abs(y1 - y2)


@settings(max_examples=25)
@given(a=points, b=points)
@pytest.mark.parametrize("kind", ["direct", "overhead", "underfloor", "cabinets"])
def test_a_way_is_as_long_backwards(kind: str, a: tuple[int, int, int], b: tuple[int, int, int]) -> None:
    assert way(a, b, [], kind).length_in == pytest.approx(way(b, a, [], kind).length_in)


@settings(max_examples=25)
@given(a=points, b=points, blocks=blocks_of)
@pytest.mark.parametrize("kind", ["direct", "overhead", "underfloor", "cabinets"])
def test_mirrored_kitchens_have_mirrored_ways(
    kind: str, a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block]
) -> None:
    def turned(point: tuple[int, ...]) -> tuple[int, ...]:
        # Mirrored left to right, walls B and D change places.
        return ((0, 3, 2, 1)[point[0]], LENGTHS[point[0]] - point[1], *point[2:])

    mirrored = [(*turned((n, x + w)), w, z, h) for n, x, w, z, h in blocks]
    one = way(a, b, blocks, kind)
    other = way(turned(a), turned(b), mirrored, kind)  # type: ignore[arg-type]
    assert one.length_in == pytest.approx(other.length_in)
    assert bool(one.through) == bool(other.through)


@settings(max_examples=60)
@given(a=points, b=points, blocks=blocks_of)
def test_the_shortest_kind_is_no_longer_than_any(
    a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block]
) -> None:
    lengths = [way(a, b, blocks, kind) for kind in ("direct", "overhead", "underfloor", "cabinets")]
    allowed = [item.length_in for item in lengths if not item.through]
    if allowed:
        assert way(a, b, blocks, "shortest").length_in == pytest.approx(min(allowed))


@settings(max_examples=60)
@given(a=points, b=points, blocks=blocks_of, step=st.integers(0, 200))
def test_moving_a_device_along_its_way_shortens_it_by_as_much(
    a: tuple[int, int, int], b: tuple[int, int, int], blocks: list[Block], step: int
) -> None:
    """Nearer by the way means shorter: a device moved back along its own way needs just that much less."""
    if not (free(a, blocks) and free(b, blocks)):
        return
    found = way(a, b, blocks, "direct")
    if found.through or not found.legs:
        return
    leg = found.legs[-1]
    back = min(step, int(leg.length_in))
    share = back / leg.length_in
    spot = tuple(end + (start - end) * share for start, end in zip(leg.start, leg.end, strict=True))
    named = "ABCD".index(leg.wall or "A")
    here = kitchen(kitchen_job(WALLS, ())).room
    assert here is not None
    along, _, up = here.walls[named].local(spot)  # type: ignore[arg-type]
    if free((named, round(along), round(up)), blocks):
        nearer = way(a, (named, round(along), round(up)), blocks, "direct")
        assert nearer.length_in == pytest.approx(found.length_in - back)


@settings(max_examples=12)
@given(
    on=st.integers(0, 3), alongs=st.lists(st.integers(1, 29), min_size=3, max_size=3), ups=st.tuples(*HEIGHTS)
)
@pytest.mark.parametrize("kind", ["direct", "overhead", "underfloor", "cabinets", "shortest"])
def test_moving_a_device_nearer_never_lengthens_its_way(
    kind: str, on: int, alongs: list[int], ups: tuple[int, int, int]
) -> None:
    """On a wall with nothing on it; up and down too where the way goes straight from one to the other."""
    for a, nearer, b in (sorted(alongs), sorted(alongs, reverse=True)):
        low, middle, high = sorted(ups) if kind == "direct" else (ups[0], ups[1], ups[1])
        far_way = way((on, a, low), (on, b, high), [], kind)
        near_way = way((on, a, low), (on, nearer, middle), [], kind)
        assert near_way.length_in <= far_way.length_in + 1e-9


@settings(max_examples=40)
@given(a=points, b=points, c=points, blocks=blocks_of)
def test_moving_a_device_lengthens_its_way_by_no_more_than_the_move(
    a: tuple[int, int, int], b: tuple[int, int, int], c: tuple[int, int, int], blocks: list[Block]
) -> None:
    """Wherever it is moved to, past whatever stands on the walls."""
    if not all(free(point, blocks) for point in (a, b, c)):
        return
    before, move, after = (
        way(a, b, blocks, "direct"),
        way(b, c, blocks, "direct"),
        way(a, c, blocks, "direct"),
    )
    if not before.through and not move.through:
        assert not after.through
        assert after.length_in <= before.length_in + move.length_in + 1e-9


def test_a_window_turns_the_way_aside() -> None:
    """By hand: 20 in along, round a window whose sill is 4 in below both ends."""
    found = way((0, 10, 12), (0, 30, 12), [(0, 15, 10, 8, 12)], "direct")
    assert found.length_in == 20 + 2 * 4
    assert [spot[0::2] for spot in found.spots] == [(10, 12), (10, 8), (30, 8), (30, 12)]


def test_a_corner_that_costs_makes_the_way_straighter() -> None:
    ends = (place("E", 5, 6), place("F", 35, 18))
    blocks = (keep_out("N0", 0, 20, 7, 16), keep_out("N1", 25, 15, 2, 10))
    cheap = route(kitchen_job(WALLS, ends, site=LOW, keep_out=blocks))
    assert cheap.length_in == 42
    assert len(cheap.spots) == 4
    dear = route(kitchen_job(WALLS, ends, site=LOW, keep_out=blocks, routing={"per_corner": "200 in"}))
    assert len(dear.spots) <= 4


def test_bored_studs_that_cost_send_the_way_overhead() -> None:
    studs: dict[str, Any] = {"lumber": "2x4", "spacing": "8 in", "first_stud": "4 in"}
    walls = (wall("A", 40, **studs), *WALLS[1:])
    ends = (place("E", 2, 20), place("F", 38, 20))
    room = LOW | {"cabinet_height": None}
    plain = route(kitchen_job(walls, ends, "shortest", site=room))
    assert (plain.kind, plain.length_in) == ("direct", 36)
    dear = route(kitchen_job(walls, ends, "shortest", site=room, routing={"per_stud": "10 in"}))
    assert (dear.kind, dear.length_in) == ("overhead", 36 + 2 * 7)
    dearer = {"per_stud": "10 in", "per_plate": "30 in"}
    assert route(kitchen_job(walls, ends, "shortest", site=room, routing=dearer)).kind == "direct"


def test_on_the_surface_studs_do_not_count_and_boxes_on_the_wall_bar() -> None:
    ends = (place("E", 5, 12), place("F", 35, 12))
    box = place("G", 20, 12, width="6 in", height="6 in", depth="3 in", mounted="surface")
    surface = {"wiring": "on the surface"}
    assert route(kitchen_job(WALLS, (*ends, box), site=LOW)).length_in == 30
    assert route(kitchen_job(WALLS, (*ends, box), site=LOW, routing=surface)).length_in == 36


def test_no_way_is_chosen_past_an_open_side() -> None:
    walls = (WALLS[0], wall("B", 30, open=True), *WALLS[2:])
    ends = (place("E", 30, 12), place("F", 5, 12, wall="C"))
    found = route(kitchen_job(walls, ends, site=LOW))
    assert found.length_in == 30 + 30 + 35
    assert "B" not in {leg.wall for leg in found.legs}


def test_where_everything_is_barred_the_way_says_what_it_passes() -> None:
    found = way((0, 5, 12), (0, 35, 12), [(n, 10, 8, 0, HEIGHT) for n in range(4)], "direct")
    assert found.through == ("window N0",)
    assert found.length_in == 30


def test_a_box_outside_the_kitchen_is_reached_from_where_it_stands() -> None:
    ends = (place("E", -30, 10, 12, stands="elsewhere"), place("F", 20, 10))
    found = route(kitchen_job(WALLS, ends, "overhead", site=LOW))
    assert found.length_in == (27 - 10) * 2 + 50 + 12


@pytest.mark.parametrize(("kind", "corners"), [("direct", 2), ("overhead", 4), ("underfloor", 4)])
def test_a_raceway_with_a_course_carries_its_cables_along_it(kind: str, corners: int) -> None:
    course = [(10, 12), (10, 20), (30, 20)]
    path = tuple({"along": f"{x} in", "out": "0 in", "up": f"{z} in"} for x, z in course)
    raceway = {"tag": "R1", "kind": "EMT", "cables": ("W1",), "path": path}
    ends = (place("E", 35, 12), place("F", 10, 12))
    derived = kitchen(kitchen_job(WALLS, ends, kind, site=LOW, raceway=(raceway,)))
    found = derived.lengths[0].route
    assert isinstance(found, Route)
    assert found.length_in == (5 + 8) + 20 + 8
    assert [leg.raceway for leg in found.legs if leg.medium == "in raceway"] == ["R1", "R1"]
    assert [bend.degrees for bend in derived.raceways[0].bends] == [90.0]
