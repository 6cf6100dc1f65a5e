"""Which points does the graph join, over which kinds of edge?

networkx counts parallel edges as one in cuts and edge connectivity. In the incidence graph each edge is a node of its
own between its two points, so two conductors side by side are two ways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    import networkx as nx

    from schedules.connections.graph import Connections
    from schedules.connections.points import Point


def incidence(connections: Connections, keep: Callable[[str], bool]) -> nx.Graph[Point | str]:
    """Build the graph point – edge – point of every edge whose key is kept."""
    import networkx as nx  # noqa: PLC0415 - no plan needs it, and it takes long to load

    graph: nx.Graph[Point | str] = nx.Graph()
    graph.add_nodes_from(connections.landings)
    for a, b, key in connections.graph().edges(keys=True):
        if keep(key):
            graph.add_edge(a, key)
            graph.add_edge(key, b)
    return graph


def nets(connections: Connections, keep: Callable[[str], bool]) -> dict[Point, int]:
    """Number the groups of points that kept edges join, and tell for each point which group it is in."""
    joined: dict[Point, list[Point]] = {}
    for edges in (connections.conductors, connections.inside):
        for key, edge in edges.items():
            if keep(key):
                joined.setdefault(edge.a, []).append(edge.b)
                joined.setdefault(edge.b, []).append(edge.a)
    index: dict[Point, int] = {}
    for number, start in enumerate(connections.landings):
        if start not in index:
            _number(start, number, joined, index)
    return index


def _number(start: Point, number: int, joined: Mapping[Point, list[Point]], index: dict[Point, int]) -> None:
    """Give one number to every point that can be walked to."""
    index[start] = number
    waiting = [start]
    while waiting:
        for point in joined.get(waiting.pop(), ()):
            if point not in index:
                index[point] = number
                waiting.append(point)


def conducting(connections: Connections) -> Callable[[str], bool]:
    """Keep conductors, links and fitted wires: what joins points whatever the state."""
    return lambda key: key in connections.conductors or connections.inside[key].conducts


def conducting_or_contact(connections: Connections) -> Callable[[str], bool]:
    """Keep also every contact: what can join points in some state."""

    def keep(key: str) -> bool:
        inside = connections.inside.get(key)
        return (
            inside is None or inside.conducts or (inside.spec is not None and inside.spec.kind == "contact")
        )

    return keep
