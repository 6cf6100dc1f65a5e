"""Where on a wall a box may stand at all: in the wall's face, clear of studs, of what is taken, of other boxes."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from schedules.site.reach_region import Cell, Region
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.site.ends import Surroundings
    from schedules.site.room import PlacedWall
    from schedules.site.wall_devices import WallDevice


def free_face(device: WallDevice, wall: PlacedWall, ceiling_in: float) -> Zone:
    """Where the point at which its cables enter may lie, so that the box lies whole in the wall's face [in]."""
    shape = device.body.zone(0.0, 0.0)
    return Zone(-shape.left, wall.length_in - shape.right, -shape.bottom, ceiling_in - shape.top)


def taken_for(device: WallDevice, wall: PlacedWall, around: Surroundings) -> tuple[Zone, ...]:
    """Where that point may not lie, since the box would then meet something; borders are free [in]."""
    shape = device.body.zone(0.0, 0.0)
    return tuple(
        Zone(
            zone.left - shape.right, zone.right - shape.left, zone.bottom - shape.top, zone.top - shape.bottom
        )
        for zone in _in_the_way(device, wall, around)
    )


def standing_region(device: WallDevice, wall: PlacedWall, around: Surroundings) -> Region:
    """Where on a wall a box may stand, whatever its cables need."""
    ceiling = around.ceiling_in if math.isfinite(around.ceiling_in) else device.up_in
    face = free_face(device, wall, ceiling)
    taken = taken_for(device, wall, around)
    sides = [side for zone in (face, *taken) for side in (zone.left, zone.right)]
    heights = [side for zone in (face, *taken) for side in (zone.bottom, zone.top)]
    alongs = sorted({side for side in sides if face.left <= side <= face.right})
    ups = sorted({side for side in heights if face.bottom <= side <= face.top})
    cells = []
    for along, up in itertools.product(itertools.pairwise(alongs), itertools.pairwise(ups)):
        zone = Zone(*along, *up)
        free = not any(item.holds(*zone.centre) for item in taken)
        cells.append(Cell(zone, {(1, 1): math.inf}, free))
    return Region(wall, tuple(cells))


def _in_the_way(device: WallDevice, wall: PlacedWall, around: Surroundings) -> Iterator[Zone]:
    """Everything on a wall that a box must miss, what the measurements may be off by added."""
    off = around.tolerance_in
    yield from (item.zone.grown(off) for item in wall.barred("devices"))
    if device.flush:
        for stud in wall.studs:
            yield Zone(stud.left_in, stud.right_in, 0.0, around.ceiling_in).grown(off)
    for other in around.devices:
        if other.wall is wall and other.enclosure != device.enclosure:
            yield other.zone.grown(off)
    hung = around.hung
    if hung is not None and wall is around.room.main and device.out_in <= hung.reach_in:
        yield hung.service
