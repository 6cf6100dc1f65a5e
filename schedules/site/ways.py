"""The way that a kind of route takes between two ends of a measured room, and what it must pass that bars it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.legs import Leg, joined
from schedules.site.route_graph import Found, Web, weave

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.job.kitchen import Routing
    from schedules.job.records import RouteKind, Site
    from schedules.site.ends import Barrier, End, Surroundings
    from schedules.site.room import PlacedWall, Spot

SEARCHED: tuple[RouteKind, ...] = ("direct", "overhead", "underfloor", "cabinets")
"""The kinds of route whose way is found in the route graph."""


@dataclass(frozen=True, slots=True)
class Way:
    """A way in a measured room. kind: which of the searched kinds it is. through: what it passes that bars it."""

    kind: RouteKind
    legs: tuple[Leg, ...]
    cost_in: float
    through: tuple[str, ...] = ()

    @property
    def length_in(self) -> float:
        """Its length [in]."""
        return sum(leg.length_in for leg in self.legs)


def possible_kinds(site: Site) -> tuple[RouteKind, ...]:
    """The kinds of route that the room allows and that are measured."""
    closed = {
        "overhead": site.above in (None, "closed") or site.ceiling is None or site.rise_above is None,
        "underfloor": site.below in (None, "slab") or site.drop_below is None,
        "cabinets": site.cabinet_height is None,
    }
    return tuple(kind for kind in SEARCHED if not closed.get(kind, False))


def find_way(
    kind: RouteKind, around: Surroundings, site: Site, routing: Routing, ends: tuple[End, End]
) -> Way:
    """The cheapest way of a kind; `shortest`: of every kind that the room allows.

    Where everything is barred, the way as if nothing barred it, naming what it passes.
    """
    kinds = possible_kinds(site) if kind == "shortest" else (kind,)
    search = _Search(around, site, routing, ends)
    free = [way for way in map(search.free, kinds) if way is not None]
    if free:
        return min(free, key=lambda way: way.cost_in)
    forced = search.weave(kinds[0], {})
    if forced is None:
        # Open sides part the walls: nothing but the straight line along, out and up is left.
        legs = rectangular(ends[0].spot, ends[1].spot, ends[0].spot[2])
        return Way(kinds[0], legs, 0.0, ("an open side without a wall",))
    return Way(kinds[0], forced.legs, forced.cost_in, passed(around, forced.legs, ends))


@dataclass(frozen=True, slots=True)
class _Search:
    around: Surroundings
    site: Site
    routing: Routing
    ends: tuple[End, End]

    def free(self, kind: RouteKind) -> Way | None:
        """The cheapest way that nothing bars, None where there is none.

        A way found among some of the barriers is no dearer than any that is free of all. So only those are put into
        the graph that a way found without them meets, until it meets no more.
        """
        considered: dict[str, tuple[Barrier, ...]] = {}
        while (found := self.weave(kind, considered)) is not None:
            met = _met(self.around, found.legs, self.ends)
            fresh = {
                wall: tuple(item for item in barriers if item not in considered.get(wall, ()))
                for wall, barriers in met.items()
            }
            if not any(fresh.values()):
                return Way(kind, found.legs, found.cost_in)
            considered |= {wall: considered.get(wall, ()) + barriers for wall, barriers in fresh.items()}
        return None

    def weave(self, kind: RouteKind, barriers: Mapping[str, tuple[Barrier, ...]]) -> Found | None:
        """The cheapest way of a kind among these barriers."""
        web = Web(self.around, self.routing, self.ends, barriers)
        weave(web, kind, self.site)
        return web.way()


def rectangular(a: Spot, b: Spot, height: float) -> tuple[Leg, ...]:
    """Go up or down to a height, along, out, then up or down to the end [in]."""
    points = (a, (a[0], a[1], height), (b[0], a[1], height), (b[0], b[1], height), b)
    return joined(Leg(start, end, "in the open") for start, end in itertools.pairwise(points))


def passed(around: Surroundings, legs: tuple[Leg, ...], ends: tuple[End, End]) -> tuple[str, ...]:
    """What the legs of a way pass that bars cables, in words."""
    found = (item.what for barriers in _met(around, legs, ends).values() for item in barriers)
    return tuple(dict.fromkeys(found))


def _met(
    around: Surroundings, legs: tuple[Leg, ...], ends: tuple[End, End]
) -> dict[str, tuple[Barrier, ...]]:
    """The barriers that legs in, on or before each wall meet, by the wall's tag."""
    found = {}
    for wall in around.room.walls:
        lines = [
            (leg.medium == "in cabinets", *_on(wall, leg)) for leg in legs if _touches(around, wall, leg)
        ]
        if lines:
            found[wall.tag] = tuple(
                item
                for item in around.barriers(wall, ends)
                if any(item.in_cabinets == inside and item.zone.met_by(a, b) for inside, a, b in lines)
            )
    return found


def _touches(around: Surroundings, wall: PlacedWall, leg: Leg) -> bool:
    """Whether a leg runs in, on or before a wall; one in the open does where both its ends lie in the wall's face."""
    if leg.medium in ("in the wall", "on the wall", "in raceway", "in cabinets") and leg.wall is not None:
        return leg.wall == wall.tag
    outs = (wall.local(leg.start)[1], wall.local(leg.end)[1])
    return leg.medium == "in the open" and all(abs(out) <= around.tolerance_in for out in outs)


def _on(wall: PlacedWall, leg: Leg) -> tuple[tuple[float, float], tuple[float, float]]:
    start, end = wall.local(leg.start), wall.local(leg.end)
    return (start[0], start[2]), (end[0], end[2])
