"""The shortest allowed way between two places, in a graph of wall framing, ceiling, floor and cabinets.

On each wall the graph is the grid of level and upright lines through the ends, the corners and the sides of whatever
bars the way: among rectangles, a shortest way with level and upright legs runs on those lines (de Rezende, Lee and Wu,
"Rectilinear shortest paths in the presence of rectangular barriers", 1989). Above the ceiling and below the floor
nothing bars, so that any two risers are joined by a level and a square leg.
"""

from __future__ import annotations

import bisect
import dataclasses
import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from schedules.site.legs import Leg, Medium, joined
from schedules.site.shortest_path import cheapest, way_to

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.job.kitchen import Routing
    from schedules.job.records import RouteKind, Site
    from schedules.site.ends import Barrier, End, Surroundings
    from schedules.site.room import PlacedWall, Spot

Node = tuple[str, str, float, float, str]
"""Layer, wall, along or frame's along, up or frame's out, and whether it is run through level or upright."""

# Ways of one cost are told apart by these: fewer corners, level legs where nothing is bored, at the first end's height.
_CORNER_TIE = 1e-5
_BORING_TIE = 1e-6
_HEIGHT_TIE = 1e-9


@dataclass(frozen=True, slots=True)
class Found:
    """A way that was found: its legs, length [in], and the length that penalties make of it [in]."""

    legs: tuple[Leg, ...]
    length_in: float
    cost_in: float


@dataclass(frozen=True, slots=True)
class Grid:
    """The level and upright lines of one wall [in], and what bars it."""

    wall: PlacedWall
    barriers: tuple[Barrier, ...]
    alongs: list[float]
    ups: list[float]

    def free(
        self, start: tuple[float, float], end: tuple[float, float], *, in_cabinets: bool = False
    ) -> bool:
        """Whether nothing bars a level or upright line in or on the wall, or in the cabinets before it."""
        return not any(
            item.zone.met_by(start, end) for item in self.barriers if item.in_cabinets == in_cabinets
        )


@dataclass(frozen=True, slots=True)
class Field:
    """A whole wall in place of the second end: every point of it, by further lines along and up [in]."""

    wall: PlacedWall
    alongs: frozenset[float]
    ups: frozenset[float]


class Edge(NamedTuple):
    """What joins two nodes. cost: its length and what penalties make of it [in]."""

    cost: float
    length: float
    medium: Medium
    wall: str | None


@dataclass(slots=True)
class Web:
    """The graph as it is woven for two ends, or for one end and every point of a wall.

    barriers: what bars the way on each wall, by its tag.
    """

    around: Surroundings
    routing: Routing
    ends: tuple[End, End]
    barriers: Mapping[str, tuple[Barrier, ...]]
    field: Field | None = None
    joined: dict[Node, dict[Node, Edge]] = dataclasses.field(default_factory=dict)
    spots: dict[Node, Spot] = dataclasses.field(default_factory=dict)

    def way(self) -> Found | None:
        """The cheapest way from the first end to the second; None where everything is barred."""
        start, stop = _end_node(0), _end_node(1)
        if start not in self.joined or stop not in self.joined:
            return None
        reached, before = cheapest(self.joined, start, lambda edge: edge.cost, stop)
        if stop not in reached:
            return None
        legs: list[Leg] = []
        cost = 0.0
        for one, other in itertools.pairwise(way_to(stop, before)):
            edge = self.joined[one][other]
            cost += edge.cost
            legs.extend(self._legs(one, other, edge.medium, edge.wall))
        whole = joined(legs)
        return Found(whole, sum(leg.length_in for leg in whole), cost)

    def lengths(self) -> dict[tuple[float, float], float]:
        """How long the shortest way is from the first end to each crossing of the field's lines, where there is one."""
        start = _end_node(0)
        if self.field is None or start not in self.joined:
            return {}
        found: dict[tuple[float, float], float] = {}
        reached, _ = cheapest(self.joined, start, lambda edge: edge.length)
        for node, length in reached.items():
            layer, wall, along, up, _ = node
            if layer in ("walls", "end 1") and wall == self.field.wall.tag:
                found[along, up] = min(length, found.get((along, up), length))
        return found

    def wall_of(self, place: int) -> PlacedWall | None:
        """The wall of an end; the field's where that stands in its place."""
        return self.field.wall if place and self.field is not None else self.ends[place].wall

    def _legs(self, one: Node, other: Node, medium: Medium, wall: str | None) -> Iterable[Leg]:
        """An edge as legs: where it goes both along and out, along first."""
        a, b = self.spots[one], self.spots[other]
        turn = (b[0], a[1], a[2])
        square = medium in ("above the ceiling", "below the floor", "in cabinets", "in the open")
        points = (a, turn, (b[0], b[1], a[2]), b) if square else (a, b)
        return (Leg(start, end, medium, wall) for start, end in itertools.pairwise(points))

    def join(
        self, one: Node, other: Node, medium: Medium, wall: str | None = None, extra: float = 0.0
    ) -> None:
        """Add an edge as long as its two ends are apart along, out and up; extra: what penalties add [in]."""
        a, b = self.spots[one], self.spots[other]
        length = abs(a[0] - b[0]) + abs(a[1] - b[1]) + abs(a[2] - b[2])
        edge = Edge(length + extra, length, medium, wall)
        self.joined.setdefault(one, {})[other] = edge
        self.joined.setdefault(other, {})[one] = edge

    def corner(self) -> float:
        """What one corner costs [in]."""
        return self.routing.per_corner + _CORNER_TIE

    def end(self, place: int) -> Node:
        """The node of an end, made where it isn't there yet."""
        node = _end_node(place)
        self.spots.setdefault(node, self.ends[place].spot)
        return node

    def land(self, layer: str, place: int) -> None:
        """Join an end to the grid of its wall: out from the wall, where it doesn't lie in its face."""
        end = self.ends[place]
        if end.wall is None or (place and self.field is not None):
            return
        medium: Medium = "in the open" if end.out > 0 else self.on_wall
        turn = self.corner() if end.out else 0.0
        for axis in "hv":
            node: Node = (layer, end.wall.tag, end.along, end.up, axis)
            if node in self.spots:
                self.join(self.end(place), node, medium, end.wall.tag, turn)

    @property
    def on_wall(self) -> Medium:
        """What a leg along a wall runs in or on."""
        return "in the wall" if self.around.in_wall else "on the wall"

    def rise(self, place: int, height: float) -> list[Node]:
        """Lay the grid of one end's wall up or down to a height: straight, or aside as far as something bars it.

        The nodes at that height, in the order in which they stand along the wall.
        """
        wall = self.wall_of(place)
        if wall is None:
            return []
        barriers = self.barriers.get(wall.tag, ())
        alongs = {side for item in barriers for side in (item.zone.left, item.zone.right)}
        ups = {height, *self.heights(barriers)}
        if place and self.field is not None:
            alongs |= self.field.alongs
            ups |= self.field.ups
        else:
            alongs.add(self.ends[place].along)
            ups.add(self.ends[place].up)
        own = self.ends[place].along
        kept = sorted(at for at in alongs if 0.0 <= at <= wall.length_in or at == own)
        grid = Grid(wall, barriers, kept, sorted(ups))
        layer = f"end {place}"
        self.weave(layer, grid, tie=_BORING_TIE)
        self.land(layer, place)
        return [(layer, wall.tag, along, height, "v") for along in grid.alongs]

    def weave(self, layer: str, grid: Grid, tie: float = 0.0) -> None:
        """Lay the grid of one wall. tie: told against level legs, so that they rather run where nothing is bored."""
        wall = grid.wall
        for along, up in itertools.product(grid.alongs, grid.ups):
            level: Node = (layer, wall.tag, along, up, "h")
            upright: Node = (layer, wall.tag, along, up, "v")
            self.spots[level] = self.spots[upright] = wall.spot(along, 0.0, up)
            self.join(level, upright, self.on_wall, wall.tag, self.corner())
        self._level(layer, grid, tie)
        self._upright(layer, grid)

    def grid(self, wall: PlacedWall, extra_ups: Iterable[float] = ()) -> Grid:
        """Where the lines of one wall run."""
        barriers = self.barriers.get(wall.tag, ())
        here = [end for end in self.ends if end.wall is wall]
        sides = {side for item in barriers for side in (item.zone.left, item.zone.right)}
        alongs = {0.0, wall.length_in, *(side for side in sides if 0.0 < side < wall.length_in)}
        alongs |= {end.along for end in here}
        ups = {*(end.up for end in here), *extra_ups, *self.heights(barriers)}
        if self.field is not None and self.field.wall is wall:
            alongs |= self.field.alongs
            ups |= self.field.ups
        return Grid(wall, barriers, sorted(alongs), sorted(ups))

    def heights(self, barriers: tuple[Barrier, ...]) -> set[float]:
        """The heights at which a way may pass below or above what bars it [in]."""
        sides = {side for item in barriers for side in (item.zone.bottom, item.zone.top)}
        return {side for side in sides if 0.0 < side < self.around.ceiling_in}

    def _level(self, layer: str, grid: Grid, tie: float) -> None:
        wall = grid.wall
        centres = [stud.centre_in for stud in wall.studs] if self.around.in_wall else []
        for (left, right), up in itertools.product(itertools.pairwise(grid.alongs), grid.ups):
            if grid.free((left, up), (right, up)):
                bored = bisect.bisect_right(centres, right) - bisect.bisect_right(centres, left)
                elsewhere = _HEIGHT_TIE if up != self.ends[0].up else 0.0
                extra = bored * self.routing.per_stud + (right - left) * (tie + elsewhere)
                one, other = (layer, wall.tag, left, up, "h"), (layer, wall.tag, right, up, "h")
                self.join(one, other, self.on_wall, wall.tag, extra)

    def _upright(self, layer: str, grid: Grid) -> None:
        wall = grid.wall
        for along, (low, high) in itertools.product(grid.alongs, itertools.pairwise(grid.ups)):
            if grid.free((along, low), (along, high)):
                one, other = (layer, wall.tag, along, low, "v"), (layer, wall.tag, along, high, "v")
                self.join(one, other, self.on_wall, wall.tag)


def on_walls(web: Web) -> None:
    """Weave the way that stays on or in the walls, round the room's corners."""
    if web.wall_of(0) is None or web.wall_of(1) is None:
        _in_the_open(web)
        return
    walls = web.around.room.standing
    ups = _all_ups(web, walls)
    for wall in walls:
        web.weave("walls", web.grid(wall, ups))
    for wall, after in web.around.room.corners:
        for up in ups:
            here: Node = ("walls", wall.tag, wall.length_in, up, "h")
            there: Node = ("walls", after.tag, 0.0, up, "h")
            web.join(here, there, web.on_wall, after.tag, web.corner())
    web.land("walls", 0)
    web.land("walls", 1)


def _in_the_open(web: Web) -> None:
    """From or to what stands on no wall: along, out and up."""
    if web.field is None:
        web.join(web.end(0), web.end(1), "in the open")
        return
    grid = web.grid(web.field.wall)
    web.weave("walls", grid)
    for along, up in itertools.product(grid.alongs, grid.ups):
        web.join(web.end(0), ("walls", grid.wall.tag, along, up, "h"), "in the open")


def by_plane(web: Web, height: float, medium: Medium, through: float) -> None:
    """Weave the way up or down to a level plane, across in it, and back: above the ceiling or below the floor.

    height: of the plane; through: of the ceiling or floor that a riser passes [in].
    """
    risers: list[list[Node]] = [[], []]
    for place, end in enumerate(web.ends):
        wall = web.wall_of(place)
        if wall is None:
            top = _top(web, medium, place, end.spot, height)
            web.join(web.end(place), top, "in the open", None, web.corner())
            risers[place].append(top)
            continue
        for node in web.rise(place, through):
            top = _top(web, medium, place, web.spots[node], height)
            web.join(node, top, medium, wall.tag, web.corner() + web.routing.per_plate)
            risers[place].append(top)
    for one, other in itertools.product(*risers):
        a, b = web.spots[one], web.spots[other]
        turn = web.corner() if a[0] != b[0] and a[1] != b[1] else 0.0
        web.join(one, other, medium, None, turn)


def _top(web: Web, medium: Medium, place: int, spot: Spot, height: float) -> Node:
    """The node at which a riser meets the plane."""
    node: Node = (medium, str(place), spot[0], spot[1], "h")
    web.spots[node] = (spot[0], spot[1], height)
    return node


def in_cabinets(web: Web, height: float) -> None:
    """Weave the way to the height of the cabinets, along the walls in them, and from there to the other end [in]."""
    runs = _run(web, height)
    for place in (0, 1):
        wall = web.wall_of(place)
        if wall is None:
            for run in runs:
                web.join(web.end(place), run, "in cabinets")
            continue
        for node in web.rise(place, height):
            run = ("run", wall.tag, node[2], height, "h")
            if run in web.spots:
                web.join(node, run, "in cabinets", wall.tag, web.corner())
    if web.wall_of(0) is None and web.wall_of(1) is None:
        web.join(web.end(0), web.end(1), "in cabinets")


def _run(web: Web, height: float) -> list[Node]:
    """The level run in front of the walls: windows, doors and cabinets that may not be drilled part it."""
    for wall in web.around.room.standing:
        grid = web.grid(wall)
        for along in grid.alongs:
            web.spots["run", wall.tag, along, height, "h"] = wall.spot(along, 0.0, height)
        for left, right in itertools.pairwise(grid.alongs):
            if grid.free((left, height), (right, height), in_cabinets=True):
                one, other = ("run", wall.tag, left, height, "h"), ("run", wall.tag, right, height, "h")
                web.join(one, other, "in cabinets", wall.tag)
    for wall, after in web.around.room.corners:
        here: Node = ("run", wall.tag, wall.length_in, height, "h")
        there: Node = ("run", after.tag, 0.0, height, "h")
        web.join(here, there, "in cabinets", after.tag, web.corner())
    return [node for node in web.spots if node[0] == "run"]


def weave(web: Web, kind: RouteKind, site: Site) -> None:
    """Weave the ways of one kind of route."""
    ceiling, rise = site.ceiling or 0.0, site.rise_above or 0.0
    if kind == "overhead":
        by_plane(web, ceiling + rise, "above the ceiling", ceiling)
    elif kind == "underfloor":
        by_plane(web, -(site.drop_below or 0.0), "below the floor", 0.0)
    elif kind == "cabinets":
        in_cabinets(web, site.cabinet_height or 0.0)
    else:
        on_walls(web)


def _end_node(place: int) -> Node:
    return ("end", str(place), 0.0, 0.0, "")


def _all_ups(web: Web, walls: tuple[PlacedWall, ...]) -> list[float]:
    """The heights at which a way may go round a corner [in]."""
    ups = {end.up for end in web.ends}
    for wall in walls:
        ups |= web.heights(web.barriers.get(wall.tag, ()))
    return sorted(ups)
