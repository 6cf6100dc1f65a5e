"""The boxes, panels and appliances on the kitchen's walls: which part of the wall each of them takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.room import finished_place
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.job.records import Job, Place
    from schedules.sheet.hardware import Enclosure
    from schedules.site.room import PlacedWall, Room


@dataclass(frozen=True, slots=True)
class Body:
    """A box as its place in a wall sees it: width, height, depth [in], and the side by which its cables enter.

    A side that nobody gives is nothing: the box is held as far as it is known.
    """

    width_in: float
    height_in: float
    depth_in: float | None
    enters: str

    @classmethod
    def of(cls, place: Place, enclosure: Enclosure) -> Body:
        """The job's size of a box, else the equipment sheet's."""
        return cls(
            place.width or enclosure.width or 0.0,
            place.height or enclosure.height or 0.0,
            place.depth or enclosure.depth,
            place.enters,
        )

    @property
    def sized(self) -> bool:
        """Whether width and height are known."""
        return self.width_in > 0 and self.height_in > 0

    def zone(self, along_in: float, up_in: float) -> Zone:
        """The part of a wall that it takes if its cables enter at this point [in]; the point where it has no size."""
        width, height = self.width_in, self.height_in
        left = {"left": along_in, "right": along_in - width}.get(self.enters, along_in - width / 2)
        bottom = {"bottom": up_in, "top": up_in - height}.get(self.enters, up_in - height / 2)
        return Zone.sized(left, width, bottom, height)


@dataclass(frozen=True, slots=True)
class WallDevice:
    """An enclosure on a wall. along, out, up: where its cables enter [in]; zone: the part of the wall that it takes.

    flush: it is set into the wall, None where nobody said.
    """

    enclosure: str
    name: str
    wall: PlacedWall
    along_in: float
    out_in: float
    up_in: float
    body: Body
    zone: Zone
    flush: bool | None

    @property
    def sized(self) -> bool:
        """Whether width and height are known; without them its zone is a point."""
        return self.body.sized

    @property
    def depth_in(self) -> float | None:
        """How deep it is [in], None where nobody said."""
        return self.body.depth_in


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
            body = Body.of(place, enclosure)
            flush = None if place.mounted is None else place.mounted == "flush"
            zone = body.zone(along, up)
            found.append(WallDevice(enclosure.tag, enclosure.name, wall, along, out, up, body, zone, flush))
    return tuple(found)
