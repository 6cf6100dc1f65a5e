"""Where the ends of a factory cable may stand instead, on every wall, and the marked point nearest to the wish."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.ends import end_at
from schedules.site.raceway_ways import laid_raceways
from schedules.site.reach import run_of
from schedules.site.reach_search import Question, reach_region
from schedules.site.room import as_measured
from schedules.site.routes import Route
from schedules.site.standing_room import free_face, taken_for
from schedules.site.ways import SEARCHED, possible_kinds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.options import Selection
    from schedules.job.records import Job, Place
    from schedules.sheet.wiring import Cable
    from schedules.site.ends import End, Surroundings
    from schedules.site.reach import CableLength
    from schedules.site.reach_region import Region
    from schedules.site.wall_devices import WallDevice

MARK_STEP_IN = 0.25
"""A place is marked on the wall to quarter inches."""

# How many steps round the exact nearest point a marked one is looked for.
_RINGS = 8


@dataclass(frozen=True, slots=True)
class Reachable:
    """Where one end of a cable may stand, the other end staying: on each wall of the room."""

    cable: str
    stays: str
    device: WallDevice
    regions: tuple[Region, ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """A place to stand: wall, along and up as they are measured [in], and how far from the wished place [in]."""

    wall: str
    along_in: float
    up_in: float
    away_in: float


def reachable_places(
    job: Job, selection: Selection, around: Surroundings, length: CableLength
) -> tuple[Reachable, ...]:
    """Where either end of a factory cable may stand, the one that the cable goes to first.

    None for a panel or the hood, for what stands on no wall, and for a way that was taped or is given point by point.
    """
    run = run_of(job, length.cable)
    cable = next(item for item in selection.cables if item.tag == length.cable)
    if run is None or cable.make != "factory" or laid_raceways(job, cable.tag):
        return ()
    kinds = possible_kinds(job.site) if run.route == "shortest" else (run.route,)
    if not set(kinds) <= set(SEARCHED):
        return ()
    route = length.route
    beyond = (length.required_in or 0.0) - (route.length_in if isinstance(route, Route) else 0.0)
    left = (length.supplied_in or 0.0) - beyond
    return tuple(
        _reachable(length, Question(job.site, around, near, mover, left, kinds), device)
        for near, mover, device in _movable(job, selection, around, cable)
    )


def _movable(
    job: Job, selection: Selection, around: Surroundings, cable: Cable
) -> Iterator[tuple[End, End, WallDevice]]:
    """Each pair of an end that stays and one that may move, with the box that moves."""
    kinds = {item.tag: item.kind for item in selection.enclosures}
    devices = {device.enclosure: device for device in around.devices}
    places = {place.enclosure: place for place in job.place}
    hood = around.hung.enclosure if around.hung is not None else None
    tags = (cable.origin.enclosure, cable.target.enclosure)
    for stays, moves in (tags, tags[::-1]):
        device = devices.get(moves)
        if device is None or moves == hood or kinds.get(moves) == "panel" or stays not in places:
            continue
        near, mover = end_at(job, around.room, places[stays]), end_at(job, around.room, places[moves])
        if near is not None and mover is not None:
            yield near, mover, device


def _reachable(length: CableLength, question: Question, device: WallDevice) -> Reachable:
    around = question.around
    regions = tuple(
        reach_region(
            question, wall, free_face(device, wall, around.ceiling_in), taken_for(device, wall, around)
        )
        for wall in around.room.standing
    )
    return Reachable(length.cable, question.near.enclosure, device, regions)


def nearest_mark(job: Job, place: Place, device: WallDevice, regions: tuple[Region, ...]) -> Mark | None:
    """The nearest place that can be marked to quarter inches as the job measures it, on its own wall first.

    None where no wall has one.
    """
    own = [region for region in regions if region.wall is device.wall]
    others = [region for region in regions if region.wall is not device.wall]
    marks = [_mark(job, place, device, region) for region in own]
    if not any(marks):
        marks = [_mark(job, place, device, region) for region in others]
    found = [mark for mark in marks if mark is not None]
    return min(found, key=lambda mark: (mark.away_in, mark.wall), default=None)


def _mark(job: Job, place: Place, device: WallDevice, region: Region) -> Mark | None:
    wall = region.wall
    wished = (device.along_in, device.up_in)
    if wall is not device.wall:
        # Seen from the old place: the point of the other wall that is level with it and nearest in the room.
        along = wall.local(device.wall.spot(device.along_in, 0.0, device.up_in))[0]
        wished = (min(max(along, 0.0), wall.length_in), device.up_in)
    exact = region.nearest(wished)
    if exact is None:
        return None
    finish = as_measured(job.site, place, (0.0, 0.0, 0.0))
    tried = (
        (x, y)
        for x, y in itertools.product(_steps(exact[0] + finish[0]), _steps(exact[1] + finish[2]))
        if region.holds(x - finish[0], y - finish[2])
    )
    from_spot = device.wall.spot(device.along_in, 0.0, device.up_in)
    return min(
        (
            Mark(wall.tag, x, y, math.dist(from_spot, wall.spot(x - finish[0], 0.0, y - finish[2])))
            for x, y in tried
        ),
        key=lambda mark: (mark.away_in, mark.along_in, mark.up_in),
        default=None,
    )


def _steps(value: float) -> Iterator[float]:
    """The marks of a tape on both sides of a value."""
    middle = round(value / MARK_STEP_IN)
    return ((middle + step) * MARK_STEP_IN for step in range(-_RINGS, _RINGS + 1))
