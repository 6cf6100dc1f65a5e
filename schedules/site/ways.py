"""The way that a kind of route takes between two ends of a measured room, and what it must pass that bars it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.legs import Leg, joined
from schedules.site.route_graph import Found, Web, by_plane, in_cabinets, on_walls

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.job.kitchen import Routing
    from schedules.job.records import RouteKind, Site
    from schedules.site.ends import End, Surroundings
    from schedules.site.room import Spot

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
    free = [way for way in (_search(item, around, site, routing, ends) for item in kinds) if way is not None]
    if free:
        return min(free, key=lambda way: way.cost_in)
    forced = _search(kinds[0], around, site, routing, ends, barred=False)
    if forced is None:
        # Open sides part the walls: nothing but the straight line along, out and up is left.
        legs = rectangular(ends[0].spot, ends[1].spot, ends[0].spot[2])
        return Way(kinds[0], legs, 0.0, ("an open side without a wall",))
    return Way(kinds[0], forced.legs, forced.cost_in, passed(around, forced.legs, ends))


def _search(
    kind: RouteKind,
    around: Surroundings,
    site: Site,
    routing: Routing,
    ends: tuple[End, End],
    *,
    barred: bool = True,
) -> Way | None:
    web = Web(around, routing, ends, barred)
    ceiling, rise = site.ceiling or 0.0, site.rise_above or 0.0
    weave: dict[str, Callable[[], Found | None]] = {
        "direct": lambda: on_walls(web),
        "overhead": lambda: by_plane(web, ceiling + rise, "above the ceiling", ceiling),
        "underfloor": lambda: by_plane(web, -(site.drop_below or 0.0), "below the floor", 0.0),
        "cabinets": lambda: in_cabinets(web, site.cabinet_height or 0.0),
    }
    found = weave[kind]()
    return None if found is None else Way(kind, found.legs, found.cost_in)


def rectangular(a: Spot, b: Spot, height: float) -> tuple[Leg, ...]:
    """Go up or down to a height, along, out, then up or down to the end [in]."""
    points = (a, (a[0], a[1], height), (b[0], a[1], height), (b[0], b[1], height), b)
    return joined(Leg(start, end, "in the open") for start, end in itertools.pairwise(points))


def passed(around: Surroundings, legs: tuple[Leg, ...], ends: tuple[End, End]) -> tuple[str, ...]:
    """What the legs of a way pass that bars cables, in words."""
    found = []
    for wall in around.room.walls:
        barriers = around.barriers(wall, ends)
        for leg in legs:
            start, end = wall.local(leg.start), wall.local(leg.end)
            if leg.wall == wall.tag or (
                abs(start[1]) <= around.tolerance_in and abs(end[1]) <= around.tolerance_in
            ):
                found += [item.what for item in barriers if item.zone.met_by(start[::2], end[::2])]
    return tuple(dict.fromkeys(found))
