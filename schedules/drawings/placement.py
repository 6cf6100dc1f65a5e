"""Which column each block stands in, and in which order: ours across the page, Graphviz's down the column."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Picture

# Cost of one tie between blocks so many columns apart: beside each other best, then one over the other.
_APART = (1.6, 1.0, 2.8)
_FARTHER = 2.2

# Rough size of a block, in rows, good enough to balance columns and to prefer the page's shape.
_COLUMN_ROWS = 21.0
_HEADER_ROWS = 4
_PAGE_SHAPE = 1.45
_SHAPE_COST = 0.35

_PASSES = 12


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Block keys by column from the left, and in each column from the top."""

    columns: tuple[tuple[str, ...], ...]


def arrange(picture: Picture, engine: Engine, like: Arrangement | None = None) -> Arrangement:
    """Place a picture's blocks.

    like: an arrangement of a bigger or an earlier picture; blocks that it knows keep their place in it, and
    only when there are others is anything placed anew.
    """
    keys = {block.key for block in picture.blocks}
    if like is not None:
        kept = tuple(
            shown for column in like.columns if (shown := tuple(key for key in column if key in keys))
        )
        if keys == {key for column in kept for key in column}:
            return Arrangement(kept)
    column_of = _columns(picture)
    return Arrangement(_ordered(picture, column_of, engine))


def _ties(picture: Picture) -> dict[tuple[int, int], int]:
    """How strongly two blocks belong beside each other.

    Counted in doublings, so that one conductor more or less hardly ever moves a block.
    """
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    counts: Counter[tuple[int, int]] = Counter()
    for line in picture.lines:
        a, b = sorted((index[line.a.block], index[line.b.block]))
        if a != b:
            counts[a, b] += 1
    return {pair: count.bit_length() for pair, count in sorted(counts.items())}


def _rows(picture: Picture) -> list[int]:
    busy: Counter[str] = Counter()
    for line in picture.lines:
        busy[line.a.block] += 1
        busy[line.b.block] += 1
    return [_HEADER_ROWS + max(len(block.terminals), busy[block.key]) for block in picture.blocks]


def _by_order(picture: Picture) -> list[int]:
    return sorted(range(len(picture.blocks)), key=lambda b: (picture.blocks[b].order, b))


def _columns(picture: Picture) -> dict[int, int]:
    """Column of each block: from the busiest block outwards, then bettered block by block."""
    ties, rows, order = _ties(picture), _rows(picture), _by_order(picture)
    near: dict[int, dict[int, int]] = {b: {} for b in order}
    for (a, b), tie in ties.items():
        near[a][b] = near[b][a] = tie
    rank = {b: place for place, b in enumerate(order)}
    hub_first = sorted(order, key=lambda b: (-sum(near[b].values()), rank[b]))
    column_of: dict[int, int] = {}
    for b in hub_first:
        column_of[b] = min(
            _candidates(column_of) if column_of else (0,),
            key=lambda column: (_cost(column_of | {b: column}, near, rows), abs(column), column),
        )
    for _ in range(_PASSES):
        before = dict(column_of)
        for b in order:
            best = _cost(column_of, near, rows)
            for column in _candidates(column_of):
                moved = column_of | {b: column}
                cost = _cost(moved, near, rows)
                if cost < best - 1e-9:
                    best, column_of = cost, moved
        if column_of == before:
            break
    used = sorted(set(column_of.values()))
    return {b: used.index(column) for b, column in column_of.items()}


def _candidates(column_of: dict[int, int]) -> range:
    return range(min(column_of.values()) - 1, max(column_of.values()) + 2)


def _cost(column_of: dict[int, int], near: dict[int, dict[int, int]], rows: list[int]) -> float:
    ties = 0.0
    for a, b in combinations(column_of, 2):
        tie = near[a].get(b)
        if tie:
            apart = abs(column_of[a] - column_of[b])
            ties += tie * (_APART[apart] if apart < len(_APART) else _FARTHER * (apart - 1) + _APART[2])
    heights: Counter[int] = Counter()
    for b, column in column_of.items():
        heights[column] += rows[b]
    width = len(heights) * _COLUMN_ROWS
    return ties + _SHAPE_COST * max(width, max(heights.values()) * _PAGE_SHAPE)


def _ordered(picture: Picture, column_of: dict[int, int], engine: Engine) -> tuple[tuple[str, ...], ...]:
    """Blocks of each column from the top, as Graphviz's dot orders them to save crossings."""
    ties, rows = _ties(picture), _rows(picture)
    columns: list[list[int]] = [[] for _ in range(max(column_of.values()) + 1)] if column_of else []
    for b in _by_order(picture):
        columns[column_of[b]].append(b)
    source = [
        "digraph blocks { graph [rankdir=LR, nodesep=0.3, ranksep=1]; node [shape=box, fixedsize=true];"
    ]
    for column, members in enumerate(columns):
        nodes = " ".join(f'n{b} [width=3, height={rows[b] * 13 / 72:.3f}, label=""];' for b in members)
        source.append(f'{{ rank=same; r{column} [style=invis, width=0.1, height=0.1, label=""]; {nodes} }}')
    source.extend(f"r{column} -> r{column + 1} [style=invis];" for column in range(len(columns) - 1))
    for (a, b), tie in ties.items():
        left, right = sorted((a, b), key=lambda block: (column_of[block], block))
        if column_of[left] != column_of[right]:
            source.append(f"n{left} -> n{right} [weight={tie}];")
    source.append("}")
    plain = engine.render("\n".join(source), "place", "plain").decode()
    height = {
        int(fields[1][1:]): float(fields[3])
        for fields in map(str.split, plain.splitlines())
        if fields[0] == "node" and fields[1].startswith("n")
    }
    return tuple(
        tuple(picture.blocks[b].key for b in sorted(members, key=lambda b: (-height[b], b)))
        for members in columns
    )
