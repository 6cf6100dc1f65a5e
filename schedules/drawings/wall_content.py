"""What one wall's elevation shows, taken from a plan: nothing about where on the sheet or how."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.checks.reach_remedies import surroundings
from schedules.site.reach import Verdict
from schedules.site.reach_places import reachable_places
from schedules.site.routes import Route
from schedules.site.shared_ways import pieces
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.framing.bored_holes import BoredHole
    from schedules.job.kitchen import CookingRange
    from schedules.job.records import Job
    from schedules.plan import Plan
    from schedules.site.hood_place import HungHood
    from schedules.site.reach_region import Region
    from schedules.site.room import PlacedWall
    from schedules.site.shared_ways import Piece
    from schedules.site.wall_devices import WallDevice


@dataclass(frozen=True, slots=True)
class Shade:
    """The part of a wall in which an enclosure may stand so that a cable reaches."""

    cable: str
    mover: str
    region: Region


@dataclass(frozen=True, slots=True)
class WallContent:
    """One wall, or a part of it, and what is on it. height_in: of the ceiling.

    first_in, last_in: from where to where along [in]. bare: finish still to come, along and up [in]. raceways: each
    with the cables in it.
    """

    wall: PlacedWall
    first_in: float
    last_in: float
    height_in: float
    height_measured: bool
    devices: tuple[WallDevice, ...]
    holes: tuple[BoredHole, ...]
    ways: tuple[Piece, ...]
    raceways: tuple[tuple[str, tuple[str, ...]], ...]
    hood: HungHood | None
    cooking_range: CookingRange | None
    shades: tuple[Shade, ...]
    bare: tuple[float, float]

    def runs(self, piece: Piece) -> tuple[str, ...]:
        """What lies on a piece of way, as it is bored for: cables, and raceways in place of those in them."""
        return runs_on(piece, self.raceways)

    @property
    def hearth_zone(self) -> Zone | None:
        """What the range covers of the wall, up to the cooking surface; None while it isn't known."""
        hearth, hood = self.cooking_range, self.hood
        if hearth is None or hood is None or hearth.centre is None or hearth.width is None:
            return None
        half = hearth.width / 2
        return Zone(hearth.centre - half, hearth.centre + half, 0.0, hood.cooking_surface_in)

    def part(self, first_in: float, last_in: float) -> WallContent:
        """What of it lies between two places along the wall [in]; what is cut by them is in it."""

        def shows(zone: Zone) -> bool:
            return zone.left <= last_in and zone.right >= first_in

        def passes(piece: Piece) -> bool:
            ends = sorted(self.wall.local(spot)[0] for spot in (piece.start, piece.end))
            return ends[0] <= last_in and ends[1] >= first_in

        wall = replace(
            self.wall,
            studs=tuple(
                stud for stud in self.wall.studs if stud.left_in <= last_in and stud.right_in >= first_in
            ),
            taken=tuple(item for item in self.wall.taken if shows(item.zone)),
            cabinets=tuple(item for item in self.wall.cabinets if shows(item.zone)),
        )
        return replace(
            self,
            wall=wall,
            first_in=first_in,
            last_in=last_in,
            devices=tuple(device for device in self.devices if shows(device.zone)),
            holes=tuple(hole for hole in self.holes if first_in <= hole.along_in <= last_in),
            ways=tuple(piece for piece in self.ways if passes(piece)),
            hood=self.hood if self.hood is not None and shows(self.hood.service) else None,
        )


def runs_on(piece: Piece, raceways: tuple[tuple[str, tuple[str, ...]], ...]) -> tuple[str, ...]:
    """What lies on a piece of way: cables, and raceways in place of those in them."""
    held = {cable: tag for tag, cables in raceways for cable in cables}
    return tuple(dict.fromkeys(held.get(cable, cable) for cable in piece.cables))


def walls_to_draw(plan: Plan) -> tuple[PlacedWall, ...]:
    """The walls on which anything stands or is bored."""
    room = plan.derived.room
    if room is None:
        return ()
    used = {device.wall.tag for device in plan.derived.devices}
    used |= {hole.wall for hole in plan.derived.holes}
    if plan.derived.hung is not None:
        used.add(room.main.tag)
    return tuple(wall for wall in room.standing if wall.tag in used)


def wall_content(plan: Plan, wall: PlacedWall, cable: str | None = None) -> WallContent:
    """What a plan has on one wall.

    cable: whose reach is shaded; without it that of every cable that is short or tight and whose end stands here.
    """
    derived = plan.derived
    routes = {item.cable: item.route for item in derived.lengths if isinstance(item.route, Route)}
    found = pieces({tag: route.legs for tag, route in routes.items()})
    return replace(
        bare_wall(derived.job, wall, derived.devices, derived.hung, is_main=_is_main(plan, wall)),
        holes=tuple(hole for hole in derived.holes if hole.wall == wall.tag),
        ways=tuple(piece for piece in found if _on(wall, piece)),
        raceways=tuple((item.raceway, item.cables) for item in derived.raceways),
        shades=tuple(_shades(plan, wall, cable)),
    )


def bare_wall(
    job: Job, wall: PlacedWall, devices: tuple[WallDevice, ...], hung: HungHood | None, *, is_main: bool
) -> WallContent:
    """What stands on a wall by its measurements alone, before any way is looked for."""
    here = tuple(device for device in devices if device.wall.tag == wall.tag)
    ceiling = job.site.ceiling
    tops = [device.zone.top for device in here] + [item.zone.top for item in wall.cabinets]
    return WallContent(
        wall=wall,
        first_in=0.0,
        last_in=wall.length_in,
        height_in=ceiling if ceiling is not None else max((96.0, *tops)),
        height_measured=ceiling is not None,
        devices=here,
        holes=(),
        ways=(),
        raceways=(),
        hood=hung if is_main else None,
        cooking_range=job.cooking_range if is_main else None,
        shades=(),
        bare=(job.site.wall_finish or 0.0, job.site.floor_finish or 0.0),
    )


def _is_main(plan: Plan, wall: PlacedWall) -> bool:
    room = plan.derived.room
    return room is not None and room.main.tag == wall.tag


def movable(plan: Plan) -> dict[str, bool]:
    """The cables with an end on a wall that may stand elsewhere, each with whether it then reaches anywhere."""
    around = surroundings(plan.derived)
    if around is None:
        return {}
    job, selection = plan.derived.job, plan.derived.selection
    found = {
        length.cable: reachable_places(job, selection, around, length)[:1] for length in plan.derived.lengths
    }
    return {
        cable: any(not region.empty for item in places for region in item.regions)
        for cable, places in found.items()
        if places
    }


def _on(wall: PlacedWall, piece: Piece) -> bool:
    """Whether a piece lies in the wall's face, between its corners."""
    start, end = wall.local(piece.start), wall.local(piece.end)
    face = all(abs(spot[1]) <= 1e-6 and -1e-6 <= spot[0] <= wall.length_in + 1e-6 for spot in (start, end))
    return face and piece.medium not in ("above the ceiling", "below the floor")


def _shades(plan: Plan, wall: PlacedWall, cable: str | None) -> list[Shade]:
    around = surroundings(plan.derived)
    if around is None:
        return []
    wanted = [
        length
        for length in plan.derived.lengths
        if (length.cable == cable if cable else length.verdict in (Verdict.SHORT, Verdict.TIGHT))
    ]
    found = []
    for length in wanted:
        for reachable in reachable_places(plan.derived.job, plan.derived.selection, around, length)[:1]:
            region = next(item for item in reachable.regions if item.wall.tag == wall.tag)
            if not region.empty:
                found.append(Shade(length.cable, reachable.device.enclosure, region))
    return found
