"""The shortest allowed way between two places, in a graph of wall framing, ceiling, floor and cabinets.

On each wall the graph is the grid of level and upright lines through the ends, the corners and the sides of whatever
bars the way: among rectangles, a shortest way with level and upright legs runs on those lines (de Rezende, Lee and Wu,
"Rectilinear shortest paths in the presence of rectangular barriers", 1989). Above the ceiling and below the floor
nothing bars, so that any two risers are joined by a level and a square leg.
"""

from __future__ import annotations

import bisect
import itertools
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import networkx as nx

from schedules.site.legs import Leg, Medium, joined

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.job.kitchen import Routing
    from schedules.site.ends import Barrier, End, Surroundings
    from schedules.site.room import PlacedWall, Spot

Node = tuple[str, str, float, float, str]
"""Layer, wall, along or frame's along, up or frame's out, and whether it is run through level or upright."""

# Ways of one cost are told apart by these: fewer corners, level legs where nothing is bored, at the first end's height.
_CORNER_TIE = 1e-5
_BORING_TIE = 1e-7
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

    def free(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """Whether nothing bars a level or upright line."""
        return not any(item.zone.met_by(start, end) for item in self.barriers)


@dataclass(slots=True)
class Web:
    """The graph as it is woven for two ends. barriers: what bars the way on each wall, by its tag."""

    around: Surroundings
    routing: Routing
    ends: tuple[End, End]
    barriers: Mapping[str, tuple[Barrier, ...]]
    graph: nx.Graph[Node] = field(default_factory=nx.Graph)
    spots: dict[Node, Spot] = field(default_factory=dict)

    def way(self) -> Found | None:
        """The cheapest way from the first end to the second; None where everything is barred."""
        start, stop = _end_node(0), _end_node(1)
        if start not in self.graph or stop not in self.graph:
            return None
        try:
            nodes = nx.dijkstra_path(self.graph, start, stop, weight="cost")
        except nx.NetworkXNoPath:
            return None
        legs: list[Leg] = []
        cost = 0.0
        for one, other in itertools.pairwise(nodes):
            data = self.graph.edges[one, other]
            cost += data["cost"]
            legs.extend(self._legs(one, other, data["medium"], data["wall"]))
        whole = joined(legs)
        return Found(whole, sum(leg.length_in for leg in whole), cost)

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
        length = sum(abs(x - y) for x, y in zip(a, b, strict=True))
        self.graph.add_edge(one, other, cost=length + extra, medium=medium, wall=wall)

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
        if end.wall is None:
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
        layer, end = f"end {place}", self.ends[place]
        if end.wall is None:
            return []
        barriers = self.barriers.get(end.wall.tag, ())
        sides = {side for item in barriers for side in (item.zone.left, item.zone.right)}
        alongs = {end.along, *(side for side in sides if 0.0 < side < end.wall.length_in)}
        grid = Grid(end.wall, barriers, sorted(alongs), sorted({end.up, height, *self.heights(barriers)}))
        self.weave(layer, grid, tie=_BORING_TIE)
        self.land(layer, place)
        return [(layer, end.wall.tag, along, height, "v") for along in grid.alongs]

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
        own = {end.along for end in here}
        sides = {side for item in barriers for side in (item.zone.left, item.zone.right)}
        inside = {side for side in sides if 0.0 < side < wall.length_in}
        ups = {*(end.up for end in here), *extra_ups, *self.heights(barriers)}
        return Grid(wall, barriers, sorted({0.0, wall.length_in} | own | inside), sorted(ups))

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


def on_walls(web: Web) -> Found | None:
    """The way that stays on or in the walls, round the room's corners."""
    a, b = web.ends
    if a.wall is None or b.wall is None:
        web.join(web.end(0), web.end(1), "in the open")
        return web.way()
    walls = [wall for wall in web.around.room.walls if not wall.open]
    ups = _all_ups(web, walls)
    for wall in walls:
        web.weave("walls", web.grid(wall, ups))
    for wall in walls:
        after = web.around.room.beside(wall)[1]
        if after is not None and not after.open:
            for up in ups:
                here: Node = ("walls", wall.tag, wall.length_in, up, "h")
                there: Node = ("walls", after.tag, 0.0, up, "h")
                if here in web.spots and there in web.spots:
                    web.join(here, there, web.on_wall, after.tag, web.corner())
    web.land("walls", 0)
    web.land("walls", 1)
    return web.way()


def by_plane(web: Web, height: float, medium: Medium, through: float) -> Found | None:
    """The way up or down to a level plane, across in it, and back: above the ceiling or below the floor.

    height: of the plane; through: of the ceiling or floor that a riser passes [in].
    """
    risers: list[list[Node]] = [[], []]
    for place, end in enumerate(web.ends):
        layer = f"end {place}"
        if end.wall is None:
            top: Node = (medium, layer, end.spot[0], end.spot[1], "h")
            web.spots[top] = (end.spot[0], end.spot[1], height)
            web.join(web.end(place), top, "in the open", None, web.corner())
            risers[place].append(top)
            continue
        for node in web.rise(place, through):
            x, y, _ = web.spots[node]
            top = (medium, layer, x, y, "h")
            web.spots[top] = (x, y, height)
            web.join(node, top, medium, end.wall.tag, web.corner() + web.routing.per_plate)
            risers[place].append(top)
    for one, other in itertools.product(*risers):
        a, b = web.spots[one], web.spots[other]
        turn = web.corner() if a[0] != b[0] and a[1] != b[1] else 0.0
        web.join(one, other, medium, None, turn)
    return web.way()


def in_cabinets(web: Web, height: float) -> Found | None:
    """The way to the height of the cabinets, along the walls in them, and from there to the other end [in]."""
    walls = [wall for wall in web.around.room.walls if not wall.open]
    _run(web, walls, height)
    for place, end in enumerate(web.ends):
        if end.wall is None:
            for wall in walls:
                for along in (0.0, wall.length_in):
                    web.join(web.end(place), ("run", wall.tag, along, height, "h"), "in cabinets")
            continue
        for node in web.rise(place, height):
            run: Node = ("run", end.wall.tag, node[2], height, "h")
            if run in web.spots:
                web.join(node, run, "in cabinets", end.wall.tag, web.corner())
    if all(end.wall is None for end in web.ends):
        web.join(web.end(0), web.end(1), "in cabinets")
    return web.way()


def _run(web: Web, walls: list[PlacedWall], height: float) -> None:
    """The level run in front of the walls: windows, doors and cabinets that may not be drilled part it."""
    for wall in walls:
        alongs = web.grid(wall, (height,)).alongs
        solid = [item.zone for item in wall.taken if item.kind in ("window", "door")]
        solid += [item.zone for item in wall.cabinets if not item.carries]
        for along in alongs:
            web.spots["run", wall.tag, along, height, "h"] = wall.spot(along, 0.0, height)
        for left, right in itertools.pairwise(alongs):
            if not any(zone.met_by((left, height), (right, height)) for zone in solid):
                one, other = ("run", wall.tag, left, height, "h"), ("run", wall.tag, right, height, "h")
                web.join(one, other, "in cabinets", wall.tag)
    for wall in walls:
        after = web.around.room.beside(wall)[1]
        if after is not None and not after.open:
            web.join(
                ("run", wall.tag, wall.length_in, height, "h"),
                ("run", after.tag, 0.0, height, "h"),
                "in cabinets",
                after.tag,
                web.corner(),
            )


def _end_node(place: int) -> Node:
    return ("end", str(place), 0.0, 0.0, "")


def _all_ups(web: Web, walls: list[PlacedWall]) -> list[float]:
    """The heights at which a way may go round a corner [in]."""
    ups = {end.up for end in web.ends}
    for wall in walls:
        ups |= web.heights(web.barriers.get(wall.tag, ()))
    return sorted(ups)
