"""Every hole that the measured ways take: where it is bored, how large, and whether the wood may have it."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

from schedules.framing.framing_plan import plan_member
from schedules.job.building import Framing
from schedules.practice import practice
from schedules.sheet.hardware import POWER_LIMITED
from schedules.site.routes import Route
from schedules.tables import rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.connections.options import Selection
    from schedules.framing.framing_plan import FramingPlan
    from schedules.job.records import Job
    from schedules.raceways.raceway_plan import RacewayPlan
    from schedules.site.legs import Leg
    from schedules.site.reach import CableLength
    from schedules.site.room import PlacedWall, Room

Member = Literal["stud", "top plate", "bottom plate"]
_NOISE_IN = 1e-6


@dataclass(frozen=True, slots=True)
class BoredHole:
    """One hole. tag: as on the drawing. along, up: its centre on the wall from finished surfaces [in].

    passes: the raceway or cable that goes through. plan: the hole against its limits, None where its size isn't known.
    declared: the job speaks of this framing itself.
    """

    tag: str
    wall: str
    member: Member
    along_in: float
    up_in: float
    passes: str
    plan: FramingPlan | None
    declared: bool

    @property
    def diameter_in(self) -> float | None:
        """Its diameter [in], None where it isn't known."""
        return None if self.plan is None else self.plan.hole_in

    @property
    def steel(self) -> bool:
        """Whether a steel plate protects the wiring there."""
        return self.plan is not None and self.plan.steel is not None and self.plan.steel.holds

    @property
    def tied(self) -> bool:
        """Whether the cut plate is tied across."""
        return self.plan is not None and self.plan.tie is not None and self.plan.tie.holds


def bored_holes(
    job: Job,
    selection: Selection,
    room: Room | None,
    lengths: tuple[CableLength, ...],
    raceways: tuple[RacewayPlan, ...],
) -> tuple[BoredHole, ...]:
    """The holes of all ways in the walls of a room, wall by wall, studs before plates, from left to right.

    None where cables run on the surface, and none through a member of which the job says that it is passed otherwise.
    """
    if room is None:
        return ()
    asked = _Asked(job, selection, room, raceways)
    crossings = dict.fromkeys(crossing for length in lengths for crossing in asked.crossings(length))
    order = {wall.tag: place for place, wall in enumerate(room.walls)}
    wanted = sorted(
        (hole for crossing in crossings if (hole := asked.hole(crossing)) is not None),
        key=lambda hole: (
            order[hole.wall],
            hole.member != "stud",
            round(hole.along_in, 3),
            hole.up_in,
            hole.passes,
        ),
    )
    return tuple(replace(hole, tag=f"B{number}") for number, hole in enumerate(asked.spread(wanted), start=1))


@dataclass(frozen=True, slots=True)
class _Crossing:
    """Something that passes a member at a point of a wall."""

    wall: str
    member: Member
    along_in: float
    up_in: float
    raceway: str | None
    cable: str | None
    doubled: bool = False

    @property
    def passes(self) -> str:
        return self.raceway or self.cable or ""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is asked of one job's ways."""

    job: Job
    selection: Selection
    room: Room
    raceways: tuple[RacewayPlan, ...]
    planned: dict[Framing, FramingPlan | None] = field(default_factory=dict)

    def plan(self, framing: Framing) -> FramingPlan | None:
        """One piece of framing held against what passes it; studs that are alike are held once."""
        if framing not in self.planned:
            self.planned[framing] = plan_member(self.job, self.selection, self.raceways, framing)
        return self.planned[framing]

    def crossings(self, length: CableLength) -> Iterator[_Crossing]:
        """Where one cable's way passes studs and plates; in a raceway it is the raceway that passes."""
        if not isinstance(length.route, Route):
            return
        held = next((item.raceway for item in self.raceways if length.cable in item.cables), None)
        for leg in length.route.legs:
            for wall in self.room.standing:
                raceway = leg.raceway or held
                cable = None if raceway else length.cable
                for member, along, up, doubled in _passed(wall, leg, self.job.site.ceiling):
                    yield _Crossing(wall.tag, member, round(along, 4), round(up, 4), raceway, cable, doubled)

    def hole(self, crossing: _Crossing) -> BoredHole | None:
        """The hole of one crossing, as the job declares it or as the wall's lumber has it."""
        wall = self.room.wall(crossing.wall)
        kind: Literal["stud", "plate"] = "stud" if crossing.member == "stud" else "plate"
        declared = next(
            (
                item
                for item in self.job.framing
                if item.member == kind and crossing.passes in (item.raceway, item.cable)
            ),
            None,
        )
        if wall is None or (declared is not None and declared.way != "through"):
            return None
        plan = None
        if declared is not None:
            plan = self.plan(declared)
        elif wall.lumber is not None:
            framing = Framing(
                tag="B1",
                raceway=crossing.raceway,
                cable=crossing.cable,
                member=kind,
                lumber=wall.lumber,
                bearing=wall.bearing,
                doubled=crossing.doubled,
            )
            plan = self.plan(framing)
        return BoredHole(
            "",
            crossing.wall,
            crossing.member,
            crossing.along_in,
            crossing.up_in,
            crossing.passes,
            plan,
            declared is not None,
        )

    def spread(self, holes: Sequence[BoredHole]) -> Iterator[BoredHole]:
        """Move holes that fall together apart: down in a stud, along a plate, away from the nearer stud."""
        at: dict[tuple[str, Member, float, float], list[BoredHole]] = {}
        for hole in holes:
            at.setdefault((hole.wall, hole.member, round(hole.along_in, 2), round(hole.up_in, 2)), []).append(
                hole
            )
        for (tag, member, along, _), together in at.items():
            wall = self.room.wall(tag)
            ordered = sorted(together, key=lambda hole: (self._limited(hole), not self._is_raceway(hole)))
            if member == "stud" or wall is None:
                yield from self._down(ordered)
            else:
                yield from self._aside(ordered, _bay(wall, along))

    def _down(self, holes: Sequence[BoredHole]) -> Iterator[BoredHole]:
        """One under the other."""
        off = 0.0
        for before, hole in itertools.pairwise((holes[0], *holes)):
            off += self._apart(before, hole) if hole is not holes[0] else 0.0
            yield replace(hole, up_in=hole.up_in - off)

    def _aside(self, holes: Sequence[BoredHole], bay: tuple[float, float]) -> Iterator[BoredHole]:
        """On both sides of the first, wherever the bay between two studs has more room left."""
        outmost = {1.0: holes[0], -1.0: holes[0]}
        yield holes[0]
        for hole in holes[1:]:
            reach = {side: last.along_in + side * self._apart(last, hole) for side, last in outmost.items()}
            room = {1.0: bay[1] - reach[1.0], -1.0: reach[-1.0] - bay[0]}
            side = max(room, key=lambda way: room[way])
            outmost[side] = replace(hole, along_in=reach[side])
            yield outmost[side]

    def _is_raceway(self, hole: BoredHole) -> bool:
        return any(item.raceway == hole.passes for item in self.raceways)

    def _apart(self, one: BoredHole, other: BoredHole) -> float:
        """How far apart two holes' centres are [in]: the wood between them, and power kept from power-limited."""
        wide = [hole.diameter_in or 0.0 for hole in (one, other)]
        gap = practice("hole_gap").number * max(wide)
        if self._limited(one) != self._limited(other):
            gap = max(gap, rule("class_2_elsewhere_gap", self.job.adopted).number)
        return sum(wide) / 2 + gap

    def _limited(self, hole: BoredHole) -> bool:
        inside = next((item.cables for item in self.raceways if item.raceway == hole.passes), (hole.passes,))
        return any(
            cable.tag in inside and cable.circuit_class in POWER_LIMITED for cable in self.selection.cables
        )


def _passed(
    wall: PlacedWall, leg: Leg, ceiling_in: float | None
) -> Iterator[tuple[Member, float, float, bool]]:
    """What of a wall's framing a leg passes: each with its point along and up [in], and whether a stud is doubled."""
    start, end = wall.local(leg.start), wall.local(leg.end)
    on_face = abs(start[1]) <= _NOISE_IN and abs(end[1]) <= _NOISE_IN
    if not on_face or leg.medium in ("on the wall", "in cabinets") or not _beside(wall, start[0], end[0]):
        return
    if leg.upright:
        low, high = sorted((start[2], end[2]))
        if ceiling_in is not None and low <= ceiling_in < high:
            yield "top plate", start[0], ceiling_in, False
        if low < 0 <= high:
            yield "bottom plate", start[0], 0.0, False
    elif leg.medium in ("in the wall", "in raceway") and math.isclose(start[2], end[2], abs_tol=_NOISE_IN):
        left, right = sorted((start[0], end[0]))
        for stud in wall.studs:
            if left < stud.centre_in < right:
                yield "stud", stud.centre_in, start[2], stud.doubled


def _beside(wall: PlacedWall, *alongs: float) -> bool:
    return all(-_NOISE_IN <= along <= wall.length_in + _NOISE_IN for along in alongs)


def _bay(wall: PlacedWall, along: float) -> tuple[float, float]:
    """The faces of the studs on both sides of a point, else the wall's corners [in]."""
    left = max((stud.right_in for stud in wall.studs if stud.right_in <= along), default=0.0)
    right = min((stud.left_in for stud in wall.studs if stud.left_in >= along), default=wall.length_in)
    return left, right
