"""Connectivity of the graph, safe for parallel conductors.

networkx counts parallel edges as one in cuts and edge connectivity. Here each edge is a node of its own between its
two points, so two conductors side by side are two ways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import networkx as nx

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from schedules.connections.graph import Connections
    from schedules.connections.points import Point


def incidence(connections: Connections, keep: Callable[[str], bool]) -> nx.Graph[Point | str]:
    """Build the graph point – edge – point of every edge whose key is kept."""
    graph: nx.Graph[Point | str] = nx.Graph()
    graph.add_nodes_from(connections.landings)
    for a, b, key in connections.graph.edges(keys=True):
        if keep(key):
            graph.add_edge(a, key)
            graph.add_edge(key, b)
    return graph


def nets(connections: Connections, keep: Callable[[str], bool]) -> tuple[frozenset[Point], ...]:
    """Group the points that kept edges join, in the order of their first point."""
    joined: dict[Point, list[Point]] = {point: [] for point in connections.landings}
    for edges in (connections.conductors, connections.inside):
        for key, edge in edges.items():
            if keep(key):
                joined[edge.a].append(edge.b)
                joined[edge.b].append(edge.a)
    groups: list[frozenset[Point]] = []
    grouped: set[Point] = set()
    for start in sorted(joined):
        if start not in grouped:
            group = _reached(start, joined)
            grouped |= group
            groups.append(frozenset(group))
    return tuple(groups)


def _reached(start: Point, joined: Mapping[Point, list[Point]]) -> set[Point]:
    """Every point that can be walked to."""
    found = {start}
    waiting = [start]
    while waiting:
        for point in joined[waiting.pop()]:
            if point not in found:
                found.add(point)
                waiting.append(point)
    return found


def net_index(groups: Iterable[frozenset[Point]]) -> dict[Point, int]:
    """Tell for each point which group it is in."""
    return {point: number for number, group in enumerate(groups) for point in group}


def weakest_links(
    connections: Connections, keep: Callable[[str], bool], start: Point, end: Point
) -> frozenset[str]:
    """The fewest edges whose loss parts two points; empty where nothing joins them."""
    graph = incidence(connections, keep)
    if not nx.has_path(graph, start, end):
        return frozenset()
    # Points can't fail here, only edges can: split each point so that its capacity is unlimited.
    flow: nx.DiGraph[Point | str | tuple[str, str]] = nx.DiGraph()
    for key in (node for node in graph if isinstance(node, str)):
        flow.add_edge((key, "in"), (key, "out"), capacity=1)
        for point in graph[key]:
            flow.add_edge(point, (key, "in"))
            flow.add_edge((key, "out"), point)
    _, (reached, _) = nx.minimum_cut(flow, start, end)
    return frozenset(
        key
        for key in graph
        if isinstance(key, str) and (key, "in") in reached and (key, "out") not in reached
    )


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
