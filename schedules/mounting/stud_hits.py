"""Do the bracket's holes meet wood, and which blocks are to be added before cover?"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum

from schedules.answers import reaches, rule_input
from schedules.quantities.lengths import format_length
from schedules.site.lumber import lumber, lumber_sizes
from schedules.tables import rule
from schedules.working import Input, Working

_NDS = "nds_rules"


@dataclass(frozen=True, slots=True)
class Aim:
    """How far off a stud's centre line a fastener may sit [in]."""

    off_in: float
    working: Working


class Hit(StrEnum):
    """How a bracket hole meets the wood behind it, the measurements' tolerance counted against it."""

    HOLDS = "holds"
    NEAR_EDGE = "near the edge"
    MISSES = "misses"


@dataclass(frozen=True, slots=True)
class HoleHit:
    """One hole of the bracket: along the wall [in], the nearest stud's centre and how far off it [in]."""

    along_in: float
    stud_in: float | None
    off_in: float | None
    hit: Hit


@dataclass(frozen=True, slots=True)
class Blocking:
    """A block to add between two studs before cover: its size, along and up [in], and which holes it takes."""

    size: str
    from_in: float
    to_in: float
    bottom_in: float
    top_in: float
    holes: tuple[float, ...]


def aim_tolerance(*, stud_thickness_in: float, diameter_in: float, edition: str) -> Aim:
    """How far off a stud's centre line a fastener may sit [in]: half the stud less the edge distance, not below 0.

    Raises LookupError for an unknown edition.
    """
    edge = rule("edge_distance", edition, _NDS)
    off = max(0.0, stud_thickness_in / 2 - edge.number * diameter_in)
    return Aim(
        off,
        Working(
            name="aim off a stud's centre line",
            formula="half the stud's thickness less the edge distance",
            inputs=(
                Input("stud", f"{stud_thickness_in:g} in"),
                Input("diameter", f"{diameter_in:g} in"),
                rule_input(edge),
            ),
            result=f"{off:.3f} in",
            source=edge.source,
        ),
    )


def hole_hits(
    holes_in: tuple[float, ...],
    studs_in: tuple[float, ...],
    *,
    stud_thickness_in: float,
    aim_in: float,
    tolerance_in: float,
) -> tuple[HoleHit, ...]:
    """Which bracket holes meet a stud [in along the wall].

    A hole holds where even with the tolerance against it the fastener keeps its edge distance; it misses where it
    may pass the wood altogether; between the two it is near the edge.
    """
    return tuple(_hit(hole, studs_in, stud_thickness_in, aim_in, tolerance_in) for hole in holes_in)


def _hit(hole: float, studs: tuple[float, ...], thickness: float, aim: float, tolerance: float) -> HoleHit:
    stud = min(studs, key=lambda centre: abs(centre - hole), default=None)
    if stud is None:
        return HoleHit(hole, None, None, Hit.MISSES)
    off = abs(stud - hole)
    if reaches(aim, off + tolerance):
        return HoleHit(hole, stud, off, Hit.HOLDS)
    in_wood = off + tolerance < thickness / 2
    return HoleHit(hole, stud, off, Hit.NEAR_EDGE if in_wood else Hit.MISSES)


def blocking(
    hits: tuple[HoleHit, ...],
    studs_in: tuple[float, ...],
    rows_up_in: tuple[float, ...],
    *,
    stud_thickness_in: float,
    diameter_in: float,
    tolerance_in: float,
    edition: str,
) -> tuple[Blocking, ...]:
    """Blocks to put flat between the studs, face flush with them, for holes that don't hold in a stud.

    rows_up_in: heights of the bracket's rows. The block is the narrowest lumber that keeps the edge distance above
    and below; a hole nearer to a block's end than the end distance is not taken by it. Tolerance counts against
    both. Raises LookupError where no lumber is wide enough, or for an unknown edition.
    """
    edge = rule("edge_distance", edition, _NDS).number * diameter_in + tolerance_in
    end = rule("end_distance", edition, _NDS).number * diameter_in + tolerance_in
    needed = max(rows_up_in) - min(rows_up_in) + 2 * edge
    size = next((name for name in lumber_sizes() if reaches(lumber(name).depth_in, needed)), None)
    if size is None:
        raise LookupError(f"no lumber carried is {format_length(needed)} wide")
    middle = (max(rows_up_in) + min(rows_up_in)) / 2
    half = lumber(size).depth_in / 2
    blocks = []
    for left, right in itertools.pairwise(sorted(studs_in)):
        start, stop = left + stud_thickness_in / 2, right - stud_thickness_in / 2
        taken = tuple(
            item.along_in
            for item in hits
            if item.hit is not Hit.HOLDS and start + end <= item.along_in <= stop - end
        )
        if taken:
            blocks.append(Blocking(size, start, stop, middle - half, middle + half, taken))
    return tuple(blocks)
