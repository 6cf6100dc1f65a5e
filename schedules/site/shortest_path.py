"""The cheapest way through a graph whose edges have a cost: Dijkstra's algorithm.

Our own, because to load a graph library takes longer than a whole plan; the tests hold it against one.
"""

from __future__ import annotations

import heapq
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Mapping

    Node = TypeVar("Node", bound=Hashable)
    Edge = TypeVar("Edge")


def cheapest(
    joined: Mapping[Node, Mapping[Node, Edge]],
    start: Node,
    cost: Callable[[Edge], float],
    stop: Node | None = None,
) -> tuple[dict[Node, float], dict[Node, Node]]:
    """The cost from the start to each node that it reaches, and the node before it on the cheapest way.

    joined: each node's neighbours with the edge to each. cost: of an edge, not negative. stop: what is dearer than
    this node is left out. Of ways of one cost the one that was seen first is kept.
    """
    reached: dict[Node, float] = {}
    before: dict[Node, Node] = {}
    seen = {start: 0.0}
    pushed = 0
    waiting = [(0.0, pushed, start)]
    while waiting:
        so_far, _, here = heapq.heappop(waiting)
        if here in reached:
            continue
        reached[here] = so_far
        if here == stop:
            break
        for there, edge in joined[here].items():
            total = so_far + cost(edge)
            if there not in reached and (there not in seen or total < seen[there]):
                seen[there] = total
                before[there] = here
                pushed += 1
                heapq.heappush(waiting, (total, pushed, there))
    return reached, before


def way_to(stop: Node, before: Mapping[Node, Node]) -> list[Node]:
    """The nodes from the start to this one, by the node before each."""
    way = [stop]
    while (here := before.get(way[-1])) is not None:
        way.append(here)
    return way[::-1]
