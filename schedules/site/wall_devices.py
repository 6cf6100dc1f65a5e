"""The boxes, panels and appliances on the kitchen's walls: which part of the wall each of them takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.room import finished_place
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.job.records import Job, Place
    from schedules.site.room import PlacedWall, Room


@dataclass(frozen=True, slots=True)
class WallDevice:
    """An enclosure on a wall. along, out, up: where its cables enter [in]; zone: the part of the wall that it takes.

    sized: width and height are known; without them the zone is that point. flush: it is set into the wall, None where
    nobody said.
    """

    enclosure: str
    name: str
    wall: PlacedWall
    along_in: float
    out_in: float
    up_in: float
    zone: Zone
    depth_in: float | None
    sized: bool
    flush: bool | None


def wall_devices(job: Job, selection: Selection, room: Room) -> tuple[WallDevice, ...]:
    """Every measured enclosure that stands on a wall of the kitchen, in the sheet's order."""
    places = {place.enclosure: place for place in job.place}
    found = []
    for enclosure in selection.enclosures:
        place = places.get(enclosure.tag)
        own = finished_place(job.site, place)
        if place is None or own is None or place.stands != "wall":
            continue
        wall = room.wall(place.wall)
        if wall is not None:
            along, out, up = own
            found.append(
                WallDevice(
                    enclosure=enclosure.tag,
                    name=enclosure.name,
                    wall=wall,
                    along_in=along,
                    out_in=out,
                    up_in=up,
                    zone=device_zone(place, along, up),
                    depth_in=place.depth,
                    sized=place.width is not None and place.height is not None,
                    flush=None if place.mounted is None else place.mounted == "flush",
                )
            )
    return tuple(found)


def device_zone(place: Place, along_in: float, up_in: float) -> Zone:
    """The part of a wall that a device takes if its cables enter at this point [in]; the point where it has no size."""
    width, height = place.width or 0.0, place.height or 0.0
    left = {"left": along_in, "right": along_in - width}.get(place.enters, along_in - width / 2)
    bottom = {"bottom": up_in, "top": up_in - height}.get(place.enters, up_in - height / 2)
    return Zone.sized(left, width, bottom, height)
