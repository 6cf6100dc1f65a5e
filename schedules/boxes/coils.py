"""Where does the excess of a factory cable lie, and does its coil fit there?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.practice import practice
from schedules.quantities.lengths import format_length
from schedules.raceways.raceway_plan import cable_occupant
from schedules.site.lumber import lumber
from schedules.site.routes import Route
from schedules.tables import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.options import Selection
    from schedules.job.records import Job
    from schedules.sheet.wiring import Cable
    from schedules.site.reach import CableLength
    from schedules.site.room import PlacedWall, Room
    from schedules.tables import Rule


@dataclass(frozen=True, slots=True)
class Space:
    """Where a coil may lie: in words; across, high and deep [in], without end where nothing bounds it."""

    words: str
    across_in: float
    high_in: float
    deep_in: float

    @property
    def volume_cu_in(self) -> float:
        """Its volume [cu in]."""
        return self.across_in * self.high_in * self.deep_in


@dataclass(frozen=True, slots=True)
class Lie:
    """A coil in one space: its outer diameter and thickness [in], and the share of the space that it takes [%]."""

    space: Space
    outer_in: float
    thick_in: float
    share_percent: float


@dataclass(frozen=True, slots=True)
class Coil:
    """The excess of one cable. inside_in: least inner radius [in]; lies: the spaces that take it, the best first."""

    cable: str
    excess_in: float
    diameter_in: float
    inside_in: float
    turns: float
    lies: tuple[Lie, ...]
    refused: tuple[Space, ...]
    working: Working


def coil_excess(
    job: Job, selection: Selection, room: Room | None, lengths: tuple[CableLength, ...]
) -> tuple[Coil, ...]:
    """The coil of every factory cable whose excess makes at least one turn; less than that lies in a gentle bow."""
    cables = {cable.tag: cable for cable in selection.cables}
    found = (_coil(job, room, cables[length.cable], length) for length in lengths)
    return tuple(coil for coil in found if coil is not None)


def _coil(job: Job, room: Room | None, cable: Cable, length: CableLength) -> Coil | None:
    occupant = cable_occupant(cable, job.adopted)
    excess = length.margin_in
    if excess is None or occupant is None or not isinstance(length.route, Route):
        return None
    bend = _bend(cable, job)
    thickness, inside = occupant.diameter_in, bend.number * occupant.diameter_in
    turns = excess / (2 * math.pi * (inside + thickness / 2))
    if turns < 1:
        return None
    spaces = tuple(_spaces(job, room, length.route))
    lies = tuple(lie for space in spaces if (lie := _lie(space, excess, thickness, inside)) is not None)
    taken = {lie.space for lie in lies}
    working = Working(
        name=f"coil of {cable.tag}",
        formula="excess ÷ the inmost turn's length along its middle; q rings in m layers hold 2π·m·q·(R + q·d/2)",
        inputs=(
            Input("excess", format_length(excess, rounding="up"), "plan"),
            Input("cable's diameter d", f"{thickness:g} in", str(occupant.source)),
            Input("inner radius R", f"{inside:.2f} in, {bend.number:g} diameters", str(bend.source)),
        ),
        result=f"{turns:.1f} turns at the least radius",
        source=bend.source,
        note=bend.note,
    )
    return Coil(
        cable.tag,
        excess,
        thickness,
        inside,
        turns,
        lies,
        tuple(space for space in spaces if space not in taken),
        working,
    )


def _bend(cable: Cable, job: Job) -> Rule:
    """How many diameters the inner radius of a bend has at least."""
    return rule("nm_bend", job.adopted) if cable.type.startswith("NM") else practice("coil_radius")


def _lie(space: Space, excess: float, thickness: float, inside: float) -> Lie | None:
    """The flattest coil that fits: as few layers as the width allows; None where none fits."""
    room_across = min(space.across_in, space.high_in)
    most_layers = space.deep_in / thickness
    layers = 1
    while layers <= most_layers:
        # Positive root of 2π·m·q·(R + q·d/2) = excess.
        rings = math.ceil(
            (math.hypot(inside, math.sqrt(excess * thickness / (math.pi * layers))) - inside) / thickness
        )
        outer = 2 * (inside + rings * thickness)
        if outer <= room_across:
            volume = math.pi * (outer / 2) ** 2 * layers * thickness
            return Lie(space, outer, layers * thickness, 100 * volume / space.volume_cu_in)
        layers += 1
    return None


def _spaces(job: Job, room: Room | None, route: Route) -> Iterator[Space]:
    """The spaces on a cable's way that were measured, those that stay open to see first."""
    media = {leg.medium for leg in route.legs}
    if "above the ceiling" in media and job.site.above == "attic":
        yield Space("the attic, beside the way", math.inf, math.inf, math.inf)
    if "below the floor" in media and job.site.below in ("crawlspace", "basement"):
        yield Space(f"the {job.site.below}, beside the way", math.inf, math.inf, math.inf)
    if room is not None:
        yield from _cabinets(room, route)
        yield from _bays(room, route, job.site.ceiling)


def _cabinets(room: Room, route: Route) -> Iterator[Space]:
    """Cabinets that the way runs through or passes behind."""
    for wall in room.walls:
        for cabinet in wall.cabinets:
            zone = cabinet.zone
            lines = [
                (wall.local(leg.start), wall.local(leg.end)) for leg in route.legs if leg.wall == wall.tag
            ]
            if any(zone.met_by((a[0], a[2]), (b[0], b[2])) for a, b in lines):
                yield Space(f"cabinet {cabinet.tag}", zone.width, zone.height, cabinet.depth_in)


def _bays(room: Room, route: Route, ceiling: float | None) -> Iterator[Space]:
    """The widest stud bay of each wall in which the way runs upright."""
    for wall in room.walls:
        if wall.lumber is None or ceiling is None:
            continue
        alongs = [
            wall.local(leg.start)[0]
            for leg in route.legs
            if leg.wall == wall.tag and leg.medium == "in the wall" and leg.upright
        ]
        bays = [bay for along in alongs if (bay := _bay(wall, along)) is not None]
        if bays:
            low, high = max(bays, key=lambda bay: bay[1] - bay[0])
            words = f"the stud bay of wall {wall.tag}, {format_length(low)} to {format_length(high)} along"
            yield Space(words, high - low, ceiling, lumber(wall.lumber).depth_in)


def _bay(wall: PlacedWall, along: float) -> tuple[float, float] | None:
    """The faces of the studs on both sides of a point, None where they aren't known or a stud stands there."""
    if any(stud.left_in < along < stud.right_in for stud in wall.studs):
        return None
    left = max((stud.right_in for stud in wall.studs if stud.right_in <= along), default=None)
    right = min((stud.left_in for stud in wall.studs if stud.left_in >= along), default=None)
    return None if left is None or right is None else (left, right)
