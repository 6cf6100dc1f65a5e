"""The kitchen as measured: its walls set round the room, and every position brought into one frame.

Frame: along the range wall from its left corner, out from its face, up from the finished floor [in]. A wall stands to
the right of the one before it; its own positions run along it from its left corner, out from its face, and up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.site.wall_studs import stud_lines
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.job.kitchen import Barred, KeepOut, Wall
    from schedules.job.records import Job, Place, Site
    from schedules.site.wall_studs import StudLine

Spot = tuple[float, float, float]
"""along, out, up [in], from finished surfaces."""

Vector = tuple[float, float]
"""A level direction or position in the frame: along, out [in]."""

_AHEAD: Vector = (1.0, 0.0)
_INTO_ROOM: Vector = (0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Taken:
    """A part of a wall that bars devices, cables or both."""

    tag: str
    kind: str
    zone: Zone
    bars: frozenset[Barred]


@dataclass(frozen=True, slots=True)
class Cabinet:
    """A cabinet on a wall, its depth [in]. carries: cables may run through it."""

    tag: str
    zone: Zone
    depth_in: float
    carries: bool


@dataclass(frozen=True, slots=True)
class PlacedWall:
    """A wall, or an open side, in its place.

    start: its left corner in the frame. right, inward: level unit vectors along it and into the room.
    """

    tag: str
    length_in: float
    open: bool
    start: Vector
    right: Vector
    inward: Vector
    lumber: str | None
    bearing: bool | None
    studs: tuple[StudLine, ...]
    taken: tuple[Taken, ...]
    cabinets: tuple[Cabinet, ...]

    @property
    def end(self) -> Vector:
        """Its right corner in the frame."""
        return _from(self.start, (self.right, self.length_in))

    def spot(self, along: float, out: float, up: float) -> Spot:
        """Bring a position on this wall into the frame."""
        return (*_from(self.start, (self.right, along), (self.inward, out)), up)

    def local(self, spot: Spot) -> Spot:
        """Give a position of the frame as along, out and up of this wall."""
        x, y = spot[0] - self.start[0], spot[1] - self.start[1]
        return (
            x * self.right[0] + y * self.right[1],
            x * self.inward[0] + y * self.inward[1],
            spot[2],
        )

    def barred(self, what: Barred) -> tuple[Taken, ...]:
        """What bars devices, or cables, on this wall."""
        return tuple(item for item in self.taken if what in item.bars)


@dataclass(frozen=True, slots=True)
class Room:
    """The kitchen's walls from left to right, seen from inside.

    closed: they turn once round, so that the last one ends where the first begins; gap_in: how far it misses that
    along and out [in].
    """

    walls: tuple[PlacedWall, ...]
    main: PlacedWall
    closed: bool
    gap_in: Vector

    @classmethod
    def of(cls, job: Job) -> Room | None:
        """The room of a job, None while no wall is measured. Raises LookupError for a lumber size not carried."""
        if not job.wall:
            return None
        main = next((wall for wall in job.wall if wall.tag == job.site.range_wall), job.wall[0])
        placed = _placed(job, main)
        # A corner to the inside turns a quarter to the right.
        turned = sum(1 if wall.corner == "inside" else -1 for wall in job.wall)
        first, last = placed[0], placed[-1]
        gap = (last.end[0] - first.start[0], last.end[1] - first.start[1])
        return cls(placed, next(wall for wall in placed if wall.tag == main.tag), turned == 4, gap)

    @property
    def standing(self) -> tuple[PlacedWall, ...]:
        """The walls that are there: open sides are none."""
        return tuple(wall for wall in self.walls if not wall.open)

    @property
    def corners(self) -> tuple[tuple[PlacedWall, PlacedWall], ...]:
        """Each two walls that share a corner, the left one first."""
        pairs = ((wall, self.beside(wall)[1]) for wall in self.standing)
        return tuple((wall, after) for wall, after in pairs if after is not None and not after.open)

    def wall(self, tag: str | None) -> PlacedWall | None:
        """The wall of this name, the range wall where none is given; None for an unknown one."""
        if tag is None:
            return self.main
        return next((wall for wall in self.walls if wall.tag == tag), None)

    def beside(self, wall: PlacedWall) -> tuple[PlacedWall | None, PlacedWall | None]:
        """The walls that share a wall's left and right corner, None where there is none."""
        place = self.walls.index(wall)
        count = len(self.walls)
        left = self.walls[place - 1] if place or self.closed else None
        right = self.walls[(place + 1) % count] if place + 1 < count or self.closed else None
        return left, right

    def holds(self, spot: Spot) -> bool | None:
        """Whether a position lies between the walls, seen from above; None where they don't close."""
        if not self.closed:
            return None
        x, y = spot[0], spot[1]
        # Counts the walls that a line drawn from the point to the left would cross.
        crossed = sum(
            1
            for wall in self.walls
            if wall.right[0] == 0 and wall.start[0] < x and (wall.start[1] <= y) != (wall.end[1] <= y)
        )
        return crossed % 2 == 1


def finished_place(site: Site, place: Place | None) -> Spot | None:
    """A position on its own wall from finished surfaces [in]: the finish still to come takes its thickness off.

    None while a coordinate is not measured.
    """
    if place is None or place.along is None or place.out is None or place.up is None:
        return None
    if place.surface == "finished":
        return place.along, place.out, place.up
    wall, floor = site.wall_finish or 0.0, site.floor_finish or 0.0
    return place.along - wall, place.out - wall, place.up - floor


def as_measured(site: Site, place: Place, finished: Spot) -> Spot:
    """The same position as it is measured from the surfaces that the place was measured from [in]."""
    if place.surface == "finished":
        return finished
    wall, floor = site.wall_finish or 0.0, site.floor_finish or 0.0
    return finished[0] + wall, finished[1] + wall, finished[2] + floor


def finished_spot(site: Site, place: Place | None, room: Room | None) -> Spot | None:
    """A position in the frame, from finished surfaces [in]; None while it isn't measured or its wall is unknown."""
    own = finished_place(site, place)
    if own is None or place is None or room is None:
        return own
    wall = room.wall(place.wall)
    return None if wall is None else wall.spot(*own)


def _placed(job: Job, main: Wall) -> tuple[PlacedWall, ...]:
    """Set the walls one after the other, then move and turn them so that the range wall starts the frame."""
    start: Vector = (0.0, 0.0)
    right, inward = _AHEAD, _INTO_ROOM
    chain = []
    for wall in job.wall:
        chain.append(_bare(job, wall, start, right, inward, is_main=wall is main))
        start = chain[-1].end
        right, inward = _turned(right, inward, wall.corner)
    base = next(item for item in chain if item.tag == main.tag)
    return tuple(
        replace(
            wall,
            start=base.local((*wall.start, 0.0))[:2],
            right=_seen_from(base, wall.right),
            inward=_seen_from(base, wall.inward),
        )
        for wall in chain
    )


def _turned(right: Vector, inward: Vector, corner: str) -> tuple[Vector, Vector]:
    """The directions of the next wall: it comes towards the room at an inside corner, goes away at an outside one."""
    away = (-inward[0], -inward[1])
    back = (-right[0], -right[1])
    return (inward, back) if corner == "inside" else (away, right)


def _seen_from(base: PlacedWall, vector: Vector) -> Vector:
    return (
        vector[0] * base.right[0] + vector[1] * base.right[1] + 0.0,
        vector[0] * base.inward[0] + vector[1] * base.inward[1] + 0.0,
    )


def _bare(job: Job, wall: Wall, start: Vector, right: Vector, inward: Vector, *, is_main: bool) -> PlacedWall:
    size = wall.lumber or (job.mounting.stud_size if is_main else None)
    here = [stud for stud in job.stud if stud.wall == wall.tag or (stud.wall is None and is_main)]
    return PlacedWall(
        tag=wall.tag,
        length_in=wall.length,
        open=wall.open,
        start=start,
        right=right,
        inward=inward,
        lumber=size,
        bearing=wall.bearing,
        studs=stud_lines(wall, size, here),
        taken=tuple(_taken(item) for item in _on(job.keep_out, wall, is_main=is_main)),
        cabinets=tuple(
            Cabinet(
                item.tag,
                Zone.sized(item.left, item.width, item.bottom, item.height),
                item.depth,
                item.carries,
            )
            for item in job.cabinet
            if item.wall == wall.tag or (item.wall is None and is_main)
        ),
    )


def _on(items: Iterable[KeepOut], wall: Wall, *, is_main: bool) -> Iterable[KeepOut]:
    return (item for item in items if item.wall == wall.tag or (item.wall is None and is_main))


def _taken(item: KeepOut) -> Taken:
    zone = Zone.sized(item.left, item.width, item.bottom, item.height)
    return Taken(item.tag, item.kind, zone, frozenset(item.bars))


def _from(start: Vector, *steps: tuple[Vector, float]) -> Vector:
    return (
        math.fsum((start[0], *(direction[0] * length for direction, length in steps))),
        math.fsum((start[1], *(direction[1] * length for direction, length in steps))),
    )
