"""The cheapest way through a graph, held against networkx."""

from __future__ import annotations

import itertools

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from schedules.site.shortest_path import cheapest, way_to

EDGES = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9), st.integers(0, 6)), max_size=30)


@given(EDGES, st.integers(0, 9))
def test_costs_and_ways_are_those_of_networkx(edges: list[tuple[int, int, int]], stop: int) -> None:
    joined: dict[int, dict[int, float]] = {node: {} for node in range(10)}
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(joined)
    for a, b, cost in edges:
        graph.add_edge(a, b, weight=cost)
        joined[a][b] = joined[b][a] = float(cost)
    costs, before = cheapest(joined, 0, lambda edge: edge)
    assert costs == nx.single_source_dijkstra_path_length(graph, 0)
    for node in costs:
        way = way_to(node, before)
        assert (way[0], way[-1]) == (0, node)
        assert sum(joined[a][b] for a, b in itertools.pairwise(way)) == costs[node]
    cut_short, _ = cheapest(joined, 0, lambda edge: edge, stop)
    assert cut_short.get(stop) == costs.get(stop)
    assert cut_short.items() <= costs.items()
