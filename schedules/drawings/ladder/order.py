"""The order in which energy passes the nodes of a section: every node between its feeders and what it feeds.

A node order from one rail to the other in which each node has an earlier and a later neighbour (an st-numbering;
A. Lempel, S. Even, I. Cederbaum, An algorithm for planarity testing of graphs, 1967: from memory), made by adding
one way after another. Where a circuit is series and parallel alone, every such order gives the same directions.
"""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Section

Neighbours = dict[str, list[str]]

_FROM, _BACK = "(from)", "(back)"


def energy_order(section: Section) -> tuple[str, ...]:
    """Node keys as energy passes them, from the first rail on; what leads nowhere follows what it hangs on.

    First what is at the first rail's potential, from that rail on; last what is at that of a rail that energy goes
    back to, the farthest from it first. Between them, every node between two others.
    """
    if section.order:
        return section.order
    back = _back(section)
    returning = {node for reached in back for node in reached}
    feeding = [
        node for rail in section.rails[:1] for node in _distances(section, rail) if node not in returning
    ]
    place = dict.fromkeys(feeding, _FROM) | dict.fromkeys(returning, _BACK)
    middle = _between(section, place)
    ends = dict.fromkeys(node for reached in back for node in reversed(reached))
    return (*feeding, *middle, *ends)


def _between(section: Section, place: dict[str, str]) -> list[str]:
    """The order of the nodes between the rails' potentials, each of these taken as one node."""
    neighbours: Neighbours = {_FROM: [_BACK], _BACK: [_FROM]}
    for piece in section.pieces:
        a, b = place.get(piece.a, piece.a), place.get(piece.b, piece.b)
        if a != b:
            neighbours.setdefault(a, []).append(b)
            neighbours.setdefault(b, []).append(a)
    order = [_FROM, _BACK]
    _add_ways(order, neighbours)
    _hang(order, neighbours)
    for node in (item.key for item in section.nodes):
        if node not in order and node not in place:
            order.append(node)
            _hang(order, neighbours)
    return [node for node in order if node not in (_FROM, _BACK)]


def _back(section: Section) -> list[list[str]]:
    """What is at the potential of each rail that energy goes back to. A short from the first rail ends there."""
    first = section.rails[:1]
    return [_distances(section, rail, but=first) for rail in section.rails[1:]]


def _distances(section: Section, start: str, but: tuple[str, ...] = ()) -> list[str]:
    """Every node that wires alone join to one, the nearest first."""
    wires: Neighbours = {}
    for piece in section.pieces:
        if piece.symbol.conducts:
            wires.setdefault(piece.a, []).append(piece.b)
            wires.setdefault(piece.b, []).append(piece.a)
    reached = {start: None}
    queue = deque([start])
    while queue:
        for next_ in wires.get(queue.popleft(), ()):
            if next_ not in reached and next_ not in but:
                reached[next_] = None
                queue.append(next_)
    return list(reached)


def _add_ways(order: list[str], neighbours: Neighbours) -> None:
    """Put every node that lies on a way from one listed node to another between the two."""
    tried: set[tuple[str, str]] = set()
    grown = True
    while grown:
        grown = False
        for node in list(order):
            for next_ in neighbours[node]:
                if next_ in order or (node, next_) in tried:
                    continue
                tried.add((node, next_))
                way = _way(next_, node, set(order), neighbours)
                if way:
                    *inner, goal = way
                    first, last = order.index(node), order.index(goal)
                    if first > last:
                        inner.reverse()
                    at = min(first, last) + 1
                    order[at:at] = inner
                    tried.clear()
                    grown = True


def _way(start: str, source: str, listed: set[str], neighbours: Neighbours) -> list[str]:
    """The shortest way through nodes that are not listed to a listed one other than the source; empty: none."""
    before: dict[str, str] = {start: ""}
    queue = deque([start])
    while queue:
        node = queue.popleft()
        for next_ in neighbours[node]:
            if next_ in before or next_ == source:
                continue
            before[next_] = node
            if next_ in listed:
                way = [next_]
                while before[way[-1]]:
                    way.append(before[way[-1]])
                return way[::-1]
            queue.append(next_)
    return []


def _hang(order: list[str], neighbours: Neighbours) -> None:
    """Put what hangs on one listed node behind it; what hangs on the way back, before that."""
    queue = deque(order)
    listed = set(order)
    while queue:
        node = queue.popleft()
        for next_ in neighbours.get(node, ()):
            if next_ not in listed:
                listed.add(next_)
                order.insert(order.index(node) + (node != _BACK), next_)
                queue.append(next_)


def return_side(section: Section) -> frozenset[str]:
    """The nodes at the potential of a rail that energy goes back to: they stand at the right."""
    return frozenset(node for reached in _back(section) for node in reached)
