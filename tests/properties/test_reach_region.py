"""Where a box may stand so that its cable still reaches: against planning at many points, and a geometry library."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as ShapelyPoint
from shapely import Polygon as ShapelyPolygon
from shapely import box, unary_union
from shapely.ops import nearest_points

from schedules.site.ends import Surroundings, end_at
from schedules.site.hood_place import hung_hood
from schedules.site.polygons import area, cut, nearest, rectangle
from schedules.site.reach import Verdict
from schedules.site.reach_search import Question, reach_region
from schedules.site.standing_room import free_face, taken_for
from schedules.site.zones import Zone
from tests.small_kitchens import inches, keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.site.reach_region import Region

WALLS = (wall("A", 60), wall("B", 40), wall("C", 60), wall("D", 40))
LENGTHS = {"A": 60, "B": 40, "C": 60, "D": 40}
HEIGHT = 48
LOW: dict[str, Any] = {
    "ceiling": f"{HEIGHT} in",
    "rise_above": "3 in",
    "drop_below": "5 in",
    "cabinet_height": "40 in",
}
KINDS = ("direct", "overhead", "underfloor", "cabinets")


def job_of(
    near: tuple[str, float, float],
    far: tuple[str, float, float, float],
    kind: str,
    blocks: list[dict[str, Any]],
    tolerance: str,
) -> Job:
    ends = (place("E", near[1], near[2], wall=near[0]), place("F", far[1], far[2], far[3], wall=far[0]))
    return kitchen_job(WALLS, ends, kind, site=LOW, keep_out=tuple(blocks), tolerance=tolerance)


def region_of(job: Job, length: float, target: str) -> Region:
    """The region of one wall for F, while E stays: no size, so that only the cable and what bars it count."""
    derived = kitchen(job, inches(length))
    room = derived.room
    assert room is not None
    around = Surroundings.of(job, room, derived.devices, hung_hood(derived.sheet, job))
    near, mover = (end_at(job, room, item) for item in job.place)
    assert near is not None
    assert mover is not None
    kind = job.run[0].route
    kinds = KINDS if kind == "shortest" else (kind,)
    question = Question(job.site, around, near, mover, length, kinds)  # type: ignore[arg-type]
    here = room.wall(target)
    device = next(item for item in derived.devices if item.enclosure == "F")
    assert here is not None
    face = free_face(device, here, around.ceiling_in)
    return reach_region(question, here, face, taken_for(device, here, around))


def moved(job: Job, target: str, along: float, up: float) -> Job:
    far = job.place[1].model_copy(update={"wall": target, "along": along, "up": up})
    return job.model_copy(update={"place": (job.place[0], far)})


walls_of = st.sampled_from("ABCD")
spot_of = walls_of.flatmap(
    lambda name: st.tuples(st.just(name), st.integers(1, LENGTHS[name] - 1), st.integers(1, HEIGHT - 1))
)
blocks_of = st.lists(
    walls_of.flatmap(
        lambda name: st.builds(
            lambda left, width, bottom, height: (name, left, width, bottom, height),
            st.integers(2, LENGTHS[name] - 10),
            st.integers(3, 25),
            st.integers(0, HEIGHT - 6),
            st.integers(4, HEIGHT),
        )
    ),
    max_size=3,
).map(
    lambda found: [
        keep_out(
            f"N{n}",
            left,
            min(width, LENGTHS[name] - left - 1),
            bottom,
            min(height, HEIGHT - bottom),
            wall=name,
        )
        for n, (name, left, width, bottom, height) in enumerate(found)
    ]
)


def clear_of(spot: tuple[str, int, int], blocks: list[dict[str, Any]]) -> bool:
    def number(text: str) -> float:
        return float(text.removesuffix(" in"))

    return not any(
        item["wall"] == spot[0]
        and number(item["left"]) - 1 <= spot[1] <= number(item["left"]) + number(item["width"]) + 1
        and number(item["bottom"]) - 1 <= spot[2] <= number(item["bottom"]) + number(item["height"]) + 1
        for item in blocks
    )


@settings(max_examples=8)
@given(
    near=spot_of,
    target=walls_of,
    length=st.integers(10, 150),
    out=st.sampled_from((0.0, 3.0)),
    blocks=blocks_of,
    tolerance=st.sampled_from(("0 in", "1/4 in", "1/2 in")),
)
@pytest.mark.parametrize("kind", [*KINDS, "shortest"])
def test_the_region_is_where_planning_says_that_it_reaches(
    kind: str,
    near: tuple[str, int, int],
    target: str,
    length: int,
    out: float,
    blocks: list[dict[str, Any]],
    tolerance: str,
) -> None:
    """By brute force: the job planned anew with the box at every point of a grid."""
    if not clear_of(near, blocks):
        return
    job = job_of(near, (target, 5, 5, out), kind, blocks, tolerance)
    region = region_of(job, length, target)
    some = False
    for along, up in itertools.product(range(1, LENGTHS[target], 7), range(2, HEIGHT, 5)):
        if not clear_of((target, along, up), blocks):
            continue
        cable = kitchen(moved(job, target, along, up), inches(length)).lengths[0]
        free = not cable.route.through  # type: ignore[union-attr]
        if abs(cable.worst_in or 0.0) < 1e-3:
            continue
        reaches = free and cable.verdict is Verdict.REACHES
        some = some or reaches
        assert region.holds(along, up) == reaches, (along, up, cable.worst_in)
    assert not (some and region.empty)
    # Empty exactly where no point reaches: of what is not empty, the point nearest to the middle does.
    spot = region.nearest((LENGTHS[target] / 2, HEIGHT / 2))
    assert (spot is None) == region.empty
    if spot is not None:
        assert (kitchen(moved(job, target, *spot), inches(length)).lengths[0].worst_in or 0.0) >= -1e-6


@settings(max_examples=60)
@given(near=spot_of, length=st.integers(1, 120))
def test_in_an_empty_wall_the_region_is_a_diamond(near: tuple[str, int, int], length: int) -> None:
    """By a geometry library: the points of the wall no further along and up, together, than the cable is long."""
    name, along, up = near
    job = job_of(near, (name, 5, 5, 0.0), "direct", [], "0 in")
    region = region_of(job, length, name)
    diamond = ShapelyPolygon(
        [(along + length, up), (along, up + length), (along - length, up), (along, up - length)]
    )
    perimeter = sum(LENGTHS.values())
    if 2 * length < perimeter:
        expected = diamond.intersection(box(0, 0, LENGTHS[name], HEIGHT))
        assert region.area_sq_in == pytest.approx(expected.area, abs=1e-6)
        assert shape_of(region).symmetric_difference(expected).area == pytest.approx(0, abs=1e-6)


def shape_of(region: Region) -> Any:
    pieces = [ShapelyPolygon(piece) for cell in region.cells if cell.allowed for piece in cell.pieces()]
    return unary_union(pieces)


@settings(max_examples=40)
@given(
    near=spot_of,
    target=walls_of,
    length=st.integers(10, 150),
    blocks=blocks_of,
    wished=st.tuples(st.integers(-20, 80), st.integers(-20, 80)),
)
@pytest.mark.parametrize("kind", ["direct", "overhead"])
def test_area_nearest_point_and_spans_agree_with_a_geometry_library(
    kind: str,
    near: tuple[str, int, int],
    target: str,
    length: int,
    blocks: list[dict[str, Any]],
    wished: tuple[int, int],
) -> None:
    if not clear_of(near, blocks):
        return
    region = region_of(job_of(near, (target, 5, 5, 0.0), kind, blocks, "1/4 in"), length, target)
    shape = shape_of(region)
    assert region.area_sq_in == pytest.approx(shape.area, abs=1e-6)
    found = region.nearest(wished)
    assert (found is None) == shape.is_empty
    if found is not None:
        expected = nearest_points(shape, ShapelyPoint(wished))[0]
        assert math.dist(found, wished) == pytest.approx(expected.distance(ShapelyPoint(wished)), abs=1e-6)
        assert region.holds(*found)
    level = shape.intersection(box(-1, 23, 200, 23 + 1e-9)).length / 2
    assert sum(high - low for low, high in region.at_height(23.0)) == pytest.approx(level, abs=1e-3)


@settings(max_examples=30)
@given(near=spot_of, length=st.integers(10, 100), more=st.integers(0, 40))
@pytest.mark.parametrize("kind", KINDS)
def test_a_longer_cable_never_has_a_smaller_region(
    kind: str, near: tuple[str, int, int], length: int, more: int
) -> None:
    job = job_of(near, ("A", 5, 5, 0.0), kind, [], "1/4 in")
    assert region_of(job, length, "A").area_sq_in <= region_of(job, length + more, "A").area_sq_in + 1e-9


@settings(max_examples=30)
@given(near=spot_of, length=st.integers(10, 120))
@pytest.mark.parametrize("kind", KINDS)
def test_mirrored_kitchens_have_mirrored_regions(kind: str, near: tuple[str, int, int], length: int) -> None:
    mirror = {"A": "A", "B": "D", "C": "C", "D": "B"}
    turned = (mirror[near[0]], LENGTHS[near[0]] - near[1], near[2])
    for target in "AB":
        one = region_of(job_of(near, (target, 5, 5, 0.0), kind, [], "1/4 in"), length, target)
        other_wall = mirror[target]
        other = region_of(job_of(turned, (other_wall, 5, 5, 0.0), kind, [], "1/4 in"), length, other_wall)
        assert one.area_sq_in == pytest.approx(other.area_sq_in, abs=1e-6)


corners_of = st.floats(-50, 50).map(lambda value: round(value, 3))


@given(
    sides=st.tuples(corners_of, corners_of, corners_of, corners_of),
    lines=st.lists(st.tuples(st.sampled_from((-1, 1)), st.sampled_from((-1, 1)), corners_of), max_size=3),
    point=st.tuples(corners_of, corners_of),
)
def test_cut_rectangles_agree_with_a_geometry_library(
    sides: tuple[float, float, float, float], lines: list[tuple[int, int, float]], point: tuple[float, float]
) -> None:
    left, right = sorted(sides[:2])
    bottom, top = sorted(sides[2:])
    if right - left < 0.01 or top - bottom < 0.01:
        return
    polygon = rectangle(Zone(left, right, bottom, top))
    shape: Any = box(left, bottom, right, top)
    for across, up, limit in lines:
        polygon = cut(polygon, across, up, limit)
        far = 1000.0
        normal, along = (across, up), (-up, across)
        base = (normal[0] * limit / 2, normal[1] * limit / 2)
        half = ShapelyPolygon(
            [
                (
                    base[0] + along[0] * far * k - normal[0] * far * j,
                    base[1] + along[1] * far * k - normal[1] * far * j,
                )
                for k, j in ((-1, 0), (1, 0), (1, 1), (-1, 1))
            ]
        )
        shape = shape.intersection(half)
    assert area(polygon) == pytest.approx(shape.area, abs=1e-6)
    if area(polygon) > 1e-6:
        expected = shape.distance(ShapelyPoint(point))
        assert math.dist(nearest(polygon, point), point) == pytest.approx(expected, abs=1e-6)


def test_nothing_is_nearest_in_nothing() -> None:
    with pytest.raises(ValueError, match="empty polygon"):
        nearest((), (0.0, 0.0))
