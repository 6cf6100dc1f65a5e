"""Whether a section is in series and parallel alone, and if not, what bridges it."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Section

Edges = dict[int, tuple[str, str, frozenset[str]]]


def bridge(section: Section) -> frozenset[str]:
    """Keys of the elements that no taking together of series and parallel resolves; empty where that does for all."""
    net = _nets(section)
    numbers = count()
    edges: Edges = {
        next(numbers): (net[piece.a], net[piece.b], frozenset((piece.key,)))
        for piece in section.pieces
        if not piece.symbol.conducts
    }
    rails = {net[rail] for rail in section.rails}
    while _taken_together(edges, rails):
        pass
    left = [(a, b, keys) for a, b, keys in edges.values() if not {a, b} <= rails]
    return frozenset(key for _, _, keys in left for key in keys)


def _nets(section: Section) -> dict[str, str]:
    above = {node.key: node.key for node in section.nodes}

    def root(node: str) -> str:
        while above[node] != node:
            node = above[node]
        return node

    for piece in section.pieces:
        if piece.symbol.conducts:
            above[root(piece.a)] = root(piece.b)
    return {node: root(node) for node in above}


def _taken_together(edges: Edges, rails: set[str]) -> bool:
    """Take one loop, dead end, pair in parallel or pair in series together; whether there was any."""
    at: dict[str, list[int]] = {}
    pairs: dict[frozenset[str], int] = {}
    for number, (a, b, keys) in edges.items():
        if a == b:
            del edges[number]
            return True
        pair = frozenset((a, b))
        if pair in pairs:
            other = pairs[pair]
            edges[other] = (a, b, edges[other][2] | keys)
            del edges[number]
            return True
        pairs[pair] = number
        at.setdefault(a, []).append(number)
        at.setdefault(b, []).append(number)
    for node, numbers in at.items():
        if node in rails:
            continue
        if len(numbers) == 1:
            del edges[numbers[0]]
            return True
        if len(numbers) == 2:
            one, other = numbers
            (far,) = set(edges[one][:2]) - {node}
            (end,) = set(edges[other][:2]) - {node}
            edges[one] = (far, end, edges[one][2] | edges[other][2])
            del edges[other]
            return True
    return False
