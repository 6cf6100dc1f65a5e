"""Where one end of a factory cable may stand instead: searched in the route graph, with every measurement at its worst.

In each cell between the lines of the graph the shortest way leads through one of the cell's corners: a level leg that
entered the cell elsewhere could be moved to a line without lengthening the way, since nothing bars it between.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.job.kitchen import Routing
from schedules.site.chance import worst_case
from schedules.site.reach_region import Cell, Region
from schedules.site.route_graph import Field, Web, weave
from schedules.site.routes import run_height
from schedules.site.spans import height_band, spans
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.job.records import RouteKind, Site
    from schedules.site.ends import Barrier, End, Surroundings
    from schedules.site.polygons import Point
    from schedules.site.reach_region import Signs
    from schedules.site.room import PlacedWall


@dataclass(frozen=True, slots=True)
class Question:
    """Where one end may stand while the other one stays.

    near: the end that stays; mover: the one that moves. length_in: what the cable has for its way, all that both ends
    take beyond it taken off [in]. kinds: of route, any of which will do.
    """

    site: Site
    around: Surroundings
    near: End
    mover: End
    length_in: float
    kinds: tuple[RouteKind, ...]

    @property
    def loose(self) -> tuple[End, End]:
        """The two ends, the one that moves standing on no wall yet."""
        return self.near, replace(self.mover, wall=None)

    @property
    def barriers(self) -> dict[str, tuple[Barrier, ...]]:
        """What bars the way on each wall, wherever the end that moves will stand."""
        return {wall.tag: self.around.barriers(wall, self.loose) for wall in self.around.room.standing}


def reach_region(question: Question, wall: PlacedWall, face: Zone, taken: tuple[Zone, ...]) -> Region:
    """The region of one wall.

    face, taken: where the mover's entry may lie at all, and where it may not. Where the ceiling isn't measured, nothing
    above the higher of the two ends is looked at.
    """
    barriers = question.barriers
    alongs, ups = _lines(question, wall, (*taken, face), barriers)
    lengths = {kind: _lengths(question, kind, Field(wall, alongs, ups), barriers) for kind in question.kinds}
    cells = []
    for along, up in itertools.product(itertools.pairwise(sorted(alongs)), itertools.pairwise(sorted(ups))):
        zone = Zone(*along, *up)
        middle = zone.centre
        if not any(item.zone.holds(*middle) for item in barriers[wall.tag] if not item.in_cabinets):
            allowed = face.holds(*middle) and not any(item.holds(*middle) for item in taken)
            cells.append(Cell(zone, _left_over(question, wall, zone, lengths), allowed))
    return Region(wall, tuple(cells))


def _left_over(
    question: Question, wall: PlacedWall, zone: Zone, lengths: Mapping[RouteKind, Mapping[Point, float]]
) -> dict[Signs, float]:
    """What is left of the cable at each corner of a cell, by the kind of route that leaves most."""
    along, up = zone.centre
    mover = question.mover
    there = replace(mover, wall=wall, own=(along, mover.out, up), spot=wall.spot(along, mover.out, up))
    found: dict[Signs, float] = {}
    for kind, reached in lengths.items():
        spare = question.length_in - abs(mover.out) - _worst(question, kind, there)
        for signs, corner in _corners(zone):
            if corner in reached:
                found[signs] = max(spare - reached[corner], found.get(signs, -math.inf))
    return found


def _corners(zone: Zone) -> Iterator[tuple[Signs, Point]]:
    yield (1, 1), (zone.left, zone.bottom)
    yield (-1, 1), (zone.right, zone.bottom)
    yield (1, -1), (zone.left, zone.top)
    yield (-1, -1), (zone.right, zone.top)


def _lengths(
    question: Question, kind: RouteKind, field: Field, barriers: Mapping[str, tuple[Barrier, ...]]
) -> dict[Point, float]:
    web = Web(question.around, Routing(), question.loose, barriers, field)
    weave(web, kind, question.site)
    return web.lengths()


def _worst(question: Question, kind: RouteKind, there: End) -> float:
    """What a way of this kind to a place may be longer by with every measurement at its worst [in]."""
    site = question.site
    rests_on = spans(
        (),
        (question.near, there),
        question.around.room,
        tolerance_in=site.tolerance,
        run_height_in=run_height(site, kind),
    )
    return worst_case(rests_on)


def _lines(
    question: Question,
    wall: PlacedWall,
    zones: tuple[Zone, ...],
    barriers: Mapping[str, tuple[Barrier, ...]],
) -> tuple[frozenset[float], frozenset[float]]:
    """Where the graph's lines of this wall run: wherever the length of the way may bend, or leave may end."""
    near, ceiling = question.near, question.around.ceiling_in
    top = ceiling if math.isfinite(ceiling) else max(near.up, question.mover.up)
    here = [*(item.zone for item in barriers[wall.tag]), *zones]
    alongs = {0.0, wall.length_in, wall.local(near.spot)[0]}
    alongs |= {side for zone in here for side in (zone.left, zone.right)}
    if near.wall is not None:
        # A riser that was moved aside comes down elsewhere above this wall.
        sides = {side for item in barriers[near.wall.tag] for side in (item.zone.left, item.zone.right)}
        spots = (near.wall.spot(side, 0.0, 0.0) for side in sides if math.isfinite(side))
        alongs |= {wall.local(spot)[0] for spot in spots}
    everywhere = [item.zone for items in barriers.values() for item in items]
    ups = {0.0, top, near.up, *(side for zone in (*zones, *everywhere) for side in (zone.bottom, zone.top))}
    if "cabinets" in question.kinds:
        run, band = question.site.cabinet_height or 0.0, height_band(question.site.tolerance, question.mover)
        ups |= {run, run - band, run + band}
    return (
        frozenset(at for at in alongs if 0.0 <= at <= wall.length_in),
        frozenset(at for at in ups if 0.0 <= at <= top),
    )
