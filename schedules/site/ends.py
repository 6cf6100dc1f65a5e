"""The two ends of a way: where each stands, and what may not be passed between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.room import finished_place
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.job.records import Job, Place
    from schedules.site.hood_place import HungHood
    from schedules.site.room import PlacedWall, Room, Spot
    from schedules.site.wall_devices import WallDevice


@dataclass(frozen=True, slots=True)
class End:
    """One end of a way: its position in the frame and, where it stands on a wall, on that wall [in]."""

    enclosure: str
    spot: Spot
    wall: PlacedWall | None
    own: Spot
    tolerance_in: float

    @property
    def along(self) -> float:
        """Along its own wall [in]."""
        return self.own[0]

    @property
    def out(self) -> float:
        """Out from its own wall [in]."""
        return self.own[1]

    @property
    def up(self) -> float:
        """Above the floor [in]."""
        return self.own[2]


def end_at(job: Job, room: Room | None, place: Place) -> End | None:
    """The end of a way at a measured place; None while it isn't measured or its wall is unknown."""
    own = finished_place(job.site, place)
    if own is None:
        return None
    tolerance = job.site.tolerance if place.tolerance is None else place.tolerance
    if room is None:
        return End(place.enclosure, own, None, own, tolerance)
    wall = room.wall(place.wall)
    if wall is None:
        return None
    on_wall = wall if place.stands == "wall" and not wall.open else None
    return End(place.enclosure, wall.spot(*own), on_wall, own, tolerance)


@dataclass(frozen=True, slots=True)
class Barrier:
    """A part of a wall that a cable may not pass: what it is in words, and its zone, the tolerance added.

    in_cabinets: it bars the run through the cabinets before the wall, not what runs in or on the wall itself.
    """

    what: str
    zone: Zone
    in_cabinets: bool = False


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What ways are searched in: the room, what stands in it, and what the measurements may be off by [in].

    ceiling_in: without end where it isn't measured. in_wall: cables run in the walls, not on them.
    """

    room: Room
    ceiling_in: float
    tolerance_in: float
    in_wall: bool
    devices: tuple[WallDevice, ...]
    hung: HungHood | None

    @classmethod
    def of(cls, job: Job, room: Room, devices: tuple[WallDevice, ...], hung: HungHood | None) -> Surroundings:
        """What a job says of the room that its cables run in; a ceiling that isn't measured has no height."""
        ceiling = math.inf if job.site.ceiling is None else job.site.ceiling
        in_wall = job.routing.wiring == "in the wall"
        return cls(room, ceiling, job.site.tolerance, in_wall, devices, hung)

    def barriers(self, wall: PlacedWall, ends: tuple[End, End]) -> tuple[Barrier, ...]:
        """What bars a cable between these ends on one wall, and before it in the cabinets.

        A zone that touches floor, ceiling or corner leaves no room there. One whose added tolerance would swallow an
        end stays as measured.
        """
        here = [end for end in ends if end.wall is wall]
        on_wall = (
            Barrier(what, self._with_tolerance(zone, wall, here)) for what, zone in self._zones(wall, ends)
        )
        before = (
            Barrier(what, self._with_tolerance(zone, wall, []), in_cabinets=True)
            for what, zone in _solid(wall)
        )
        return (*on_wall, *before)

    def _zones(self, wall: PlacedWall, ends: tuple[End, End]) -> Iterator[tuple[str, Zone]]:
        for item in wall.barred("cables"):
            yield f"{item.kind} {item.tag}", item.zone
        own = {end.enclosure for end in ends}
        for device in self.devices:
            # A box set into the wall bars what runs in it, one on the wall what runs on it.
            inside = device.wall is wall and device.sized and device.flush is self.in_wall
            if inside and device.enclosure not in own:
                yield f"the box of {device.enclosure}", device.zone
        hung = self.hung
        if hung is not None and not self.in_wall and wall is self.room.main and hung.enclosure not in own:
            yield "the hood's place and service space", hung.service

    def _with_tolerance(self, zone: Zone, wall: PlacedWall, here: list[End]) -> Zone:
        grown = zone.grown(self.tolerance_in)
        if any(grown.holds(end.along, end.up) for end in here):
            grown = zone
        return Zone(
            -math.inf if zone.left <= 0 else grown.left,
            math.inf if zone.right >= wall.length_in else grown.right,
            -math.inf if zone.bottom <= 0 else grown.bottom,
            math.inf if zone.top >= self.ceiling_in else grown.top,
        )


def _solid(wall: PlacedWall) -> Iterator[tuple[str, Zone]]:
    """What parts the run through the cabinets before a wall."""
    for item in wall.taken:
        if item.kind in ("window", "door"):
            yield f"{item.kind} {item.tag}", item.zone
    for cabinet in wall.cabinets:
        if not cabinet.carries:
            yield f"cabinet {cabinet.tag}", cabinet.zone
