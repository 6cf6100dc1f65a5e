"""In which order to show things so that each differs least from the one before: the shortest path through all."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

EXACT_UP_TO = 11
"""So many things are ordered with proof: the time doubles with each more."""


def shortest_path(distances: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """The order with the least total distance: the least there is for a few things, else a good one.

    distances: between every two, the same both ways. Few: dynamic programming over subsets (Held and Karp, J. SIAM
    10, 1962). More: from the nearest neighbour on, turned round and moved in parts (2-opt: Croes, Oper. Res. 6, 1958;
    Or-opt: Or, 1976) as long as that shortens it.
    """
    count = len(distances)
    if count < 2:
        return tuple(range(count))
    if count <= EXACT_UP_TO:
        return _exact(distances)
    starts = (_improved(_nearest(distances, start), distances) for start in range(count))
    return min(starts, key=lambda path: (path_length(path, distances), path))


def path_length(path: Sequence[int], distances: Sequence[Sequence[int]]) -> int:
    """The total distance along an order."""
    return sum(distances[a][b] for a, b in itertools.pairwise(path))


def _exact(distances: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """best[seen, last]: the least distance of a path through this set that ends there, and what came before."""
    count = len(distances)
    best: dict[tuple[int, int], tuple[int, int]] = {(1 << last, last): (0, -1) for last in range(count)}
    for seen in range(1, 1 << count):
        for last in range(count):
            rest = seen & ~(1 << last)
            if rest and rest != seen:
                best[seen, last] = min(
                    (best[rest, before][0] + distances[before][last], before)
                    for before in range(count)
                    if rest >> before & 1
                )
    seen = (1 << count) - 1
    last = min(range(count), key=lambda place: (best[seen, place][0], place))
    path = []
    while last >= 0:
        path.append(last)
        seen, last = seen & ~(1 << last), best[seen, last][1]
    return tuple(reversed(path))


def _nearest(distances: Sequence[Sequence[int]], start: int) -> tuple[int, ...]:
    path, left = [start], set(range(len(distances))) - {start}
    while left:
        path.append(min(left, key=lambda place: (distances[path[-1]][place], place)))
        left.remove(path[-1])
    return tuple(path)


def _improved(path: tuple[int, ...], distances: Sequence[Sequence[int]]) -> tuple[int, ...]:
    length, shorter = path_length(path, distances), True
    while shorter:
        shorter = False
        for a, b in itertools.combinations(range(len(path) + 1), 2):
            part, rest = path[a:b], path[:a] + path[b:]
            turned = path[:a] + part[::-1] + path[b:]
            moved = (
                [rest[:place] + part + rest[place:] for place in range(len(rest) + 1)] if b - a <= 3 else []
            )
            best = min((turned, *moved), key=lambda other: path_length(other, distances))
            if path_length(best, distances) < length:
                path, length, shorter = best, path_length(best, distances), True
    return path
