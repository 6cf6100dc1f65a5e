"""What the kitchen shows from above, taken from a plan: nothing about where on the sheet or how."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.drawings.errors import DrawingError
from schedules.drawings.wall_content import runs_on
from schedules.site.lumber import lumber
from schedules.site.room import finished_spot
from schedules.site.routes import Route
from schedules.site.shared_ways import pieces
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.plan import Plan
    from schedules.site.room import PlacedWall, Spot
    from schedules.site.shared_ways import Piece
    from schedules.site.wall_devices import WallDevice

NEAR_IN = 36.0
"""What stands no further from the kitchen is drawn where it stands, what stands further is pointed to (own choice)."""

_HANGS_IN = 12.0
_THICK_IN = 4.5
_DRYWALL_IN = 0.5

Kind = Literal["cabinet", "hung cabinet", "range", "hood", "window", "door", "taken", "box"]


@dataclass(frozen=True, slots=True)
class Footprint:
    """A thing as it is seen from above. zone: along, and out in place of up, in the room's frame [in]."""

    tag: str
    kind: Kind
    words: str
    zone: Zone


@dataclass(frozen=True, slots=True)
class Entry:
    """Where cables enter an enclosure, in the room's frame [in]. wall: on which it stands. far: beyond the drawing."""

    tag: str
    name: str
    wall: str | None
    own: tuple[float, float, float]
    spot: Spot
    far: bool


@dataclass(frozen=True, slots=True)
class FloorContent:
    """The kitchen from above. bounds: what is drawn, along and out [in]. level, risers: pieces of the cables' ways."""

    walls: tuple[PlacedWall, ...]
    main: PlacedWall
    bounds: Zone
    things: tuple[Footprint, ...]
    entries: tuple[Entry, ...]
    level: tuple[Piece, ...]
    risers: tuple[Piece, ...]
    raceways: tuple[tuple[str, tuple[str, ...]], ...]

    def runs(self, piece: Piece) -> tuple[str, ...]:
        """What lies on a piece of way: cables, and raceways in place of those in them."""
        return runs_on(piece, self.raceways)


def floor_content(plan: Plan) -> FloorContent:
    """What a plan has in its kitchen, seen from above. Raises DrawingError where no wall was measured."""
    derived = plan.derived
    room = derived.room
    if room is None:
        raise DrawingError(("no wall was measured, so there is no plan view",))
    outline = _around(band(wall) for wall in room.walls)
    entries = tuple(_entries(derived, outline.grown(NEAR_IN)))
    near = (
        Zone(entry.spot[0], entry.spot[0], entry.spot[1], entry.spot[1]) for entry in entries if not entry.far
    )
    things = tuple(_things(derived))
    routes = {item.cable: item.route for item in derived.lengths if isinstance(item.route, Route)}
    found = pieces({tag: route.legs for tag, route in routes.items()})
    return FloorContent(
        walls=room.walls,
        main=room.main,
        bounds=_around([outline, *near]),
        things=things,
        entries=entries,
        level=tuple(piece for piece in found if piece.start[:2] != piece.end[:2]),
        risers=tuple(piece for piece in found if piece.start[:2] == piece.end[:2]),
        raceways=tuple((item.raceway, item.cables) for item in derived.raceways),
    )


def thickness(wall: PlacedWall) -> float:
    """How thick a wall is drawn [in]: its studs and a sheet of drywall on either side; usual where not known."""
    return _THICK_IN if wall.lumber is None else lumber(wall.lumber).depth_in + 2 * _DRYWALL_IN


def band(wall: PlacedWall) -> Zone:
    """What a wall covers seen from above [in]; an open side only its line."""
    return footprint(wall, 0.0, wall.length_in, 0.0 if wall.open else -thickness(wall), 0.0)


def footprint(wall: PlacedWall, left: float, right: float, near: float, far: float) -> Zone:
    """A part of a wall's surroundings in the room's frame: left to right along it, near to far out from it [in]."""
    one, other = wall.spot(left, near, 0.0), wall.spot(right, far, 0.0)
    (x1, x2), (y1, y2) = (sorted((one[axis], other[axis])) for axis in (0, 1))
    return Zone(x1, x2, y1, y2)


def _things(derived: Derived) -> Iterator[Footprint]:
    room = derived.room
    if room is None:
        return
    for wall in room.standing:
        for item in wall.taken:
            kind: Kind = "taken"
            if item.kind in ("window", "door"):
                kind = "window" if item.kind == "window" else "door"
            zone = footprint(wall, item.zone.left, item.zone.right, -thickness(wall), 0.0)
            yield Footprint(item.tag, kind, f"{item.kind} {item.tag}", zone)
        for cabinet in wall.cabinets:
            hangs = cabinet.zone.bottom > _HANGS_IN
            zone = footprint(wall, cabinet.zone.left, cabinet.zone.right, 0.0, cabinet.depth_in)
            yield Footprint(cabinet.tag, "hung cabinet" if hangs else "cabinet", cabinet.tag, zone)
    hearth, hung = derived.job.cooking_range, derived.hung
    if hearth is not None and None not in (hearth.centre, hearth.width, hearth.depth):
        half = (hearth.width or 0.0) / 2
        centre = hearth.centre or 0.0
        zone = footprint(room.main, centre - half, centre + half, 0.0, hearth.depth or 0.0)
        yield Footprint("range", "range", "range", zone)
    if hung is not None:
        zone = footprint(room.main, hung.body.left, hung.body.right, 0.0, hung.depth_in)
        yield Footprint("hood", "hood", "hood", zone)
    for device in derived.devices:
        if (
            device.sized
            and device.depth_in is not None
            and (hung is None or device.enclosure != hung.enclosure)
        ):
            yield Footprint(device.enclosure, "box", device.enclosure, _box(device, device.depth_in))


def _box(device: WallDevice, depth: float) -> Zone:
    """A box in its wall, on it, or as far out as its cables enter."""
    near = -depth if device.flush else 0.0
    if device.out_in > depth:
        near = device.out_in - depth / 2
    return footprint(device.wall, device.zone.left, device.zone.right, near, near + depth)


def _entries(derived: Derived, near: Zone) -> Iterator[Entry]:
    """Every measured enclosure; those on no wall too."""
    places = {place.enclosure: place for place in derived.job.place}
    on_walls = {device.enclosure: device for device in derived.devices}
    for enclosure in derived.selection.enclosures:
        place = places.get(enclosure.tag)
        spot = finished_spot(derived.job.site, place, derived.room)
        if place is None or spot is None or derived.room is None:
            continue
        wall = derived.room.wall(place.wall)
        device = on_walls.get(enclosure.tag)
        far = not (near.left <= spot[0] <= near.right and near.bottom <= spot[1] <= near.top)
        own = spot if wall is None else wall.local(spot)
        tag = device.wall.tag if device is not None else None
        yield Entry(enclosure.tag, enclosure.name, tag, own, spot, far)


def _around(zones: Iterator[Zone] | list[Zone]) -> Zone:
    found = list(zones)
    return Zone(
        min(zone.left for zone in found),
        max(zone.right for zone in found),
        min(zone.bottom for zone in found),
        max(zone.top for zone in found),
    )
