"""Which column each block stands in, and in which order: ours across the page, Graphviz's down the column."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.ordering import Room, bettered, inserted, moves, room_on, wide_room_on
from schedules.drawings.rough_model import model

if TYPE_CHECKING:
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Picture

# Cost of one tie between blocks so many columns apart: beside each other best, then one over the other.
_APART = (1.6, 1.0, 2.8)
_FARTHER = 2.2

_HEADER_ROWS = 4

_PASSES = 12

# How many of the arrangements with one block elsewhere are laid out to see whether they can be read (own choice).
_EASED = 6


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Block keys by column from the left, and in each column from the top."""

    columns: tuple[tuple[str, ...], ...]


def arrange(
    picture: Picture, engine: Engine, like: Arrangement | None = None, *, most_columns: int | None = None
) -> Arrangement:
    """Place a picture's blocks.

    like: an arrangement of a bigger or an earlier picture: blocks that it knows keep their place among each other,
    others are put where they do least harm. most_columns: side by side, None for any number.
    """
    if not picture.blocks:
        return Arrangement(())
    room = room_on(picture.paper) if most_columns is None else room_on(picture.paper, most_columns)
    rough = model(picture, room)
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    kept = () if like is None else like.columns
    columns = tuple(known for keys in kept if (known := tuple(index[key] for key in keys if key in index)))
    if columns:
        there = {b for members in columns for b in members}
        columns = inserted(columns, (b for b in _by_order(picture) if b not in there), rough)
    else:
        columns = bettered(_ordered(picture, _columns(picture, room), engine), rough, rough.work)
    return Arrangement(tuple(tuple(picture.blocks[b].key for b in members) for members in columns))


def improved(picture: Picture, arrangement: Arrangement) -> Arrangement:
    """An arrangement after moving single blocks to where fewer lines cross and the paper holds them better."""
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    columns = tuple(tuple(index[key] for key in keys) for keys in arrangement.columns)
    rough = model(picture, room_on(picture.paper, len(columns)))
    columns = bettered(columns, rough, rough.work)
    return Arrangement(tuple(tuple(picture.blocks[b].key for b in members) for members in columns))


def eased(picture: Picture, arrangement: Arrangement) -> tuple[Arrangement, ...]:
    """The few best of the arrangements that have a single block elsewhere."""
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    columns = tuple(tuple(index[key] for key in keys) for keys in arrangement.columns)
    rough = model(picture, wide_room_on(picture.paper))
    moved = {other for members in columns for b in members for other in moves(columns, b)}
    best = sorted(moved, key=lambda other: (rough.cost(other), other))[:_EASED]
    return tuple(
        Arrangement(tuple(tuple(picture.blocks[b].key for b in members) for members in other))
        for other in best
    )


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


def _columns(picture: Picture, room: Room) -> dict[int, int]:
    """Column of each block: from the busiest block outwards, then bettered block by block."""
    rows, order = _rows(picture), _by_order(picture)
    near: dict[int, dict[int, int]] = {b: {} for b in order}
    for (a, b), tie in _ties(picture).items():
        near[a][b] = near[b][a] = tie
    column_of: dict[int, int] = {}
    heights: Counter[int] = Counter()
    for b in sorted(order, key=lambda b: -sum(near[b].values())):
        column_of[b] = _best_column(near[b], rows[b], column_of, heights, room)
        heights[column_of[b]] += rows[b]
    for _ in range(_PASSES):
        before = dict(column_of)
        for b in order:
            heights[column_of.pop(b)] -= rows[b]
            column_of[b] = _best_column(near[b], rows[b], column_of, heights, room)
            heights[column_of[b]] += rows[b]
        if column_of == before:
            break
    used = sorted(set(column_of.values()))
    return {b: used.index(column) for b, column in column_of.items()}


def _best_column(
    ties: dict[int, int], height: int, column_of: dict[int, int], heights: Counter[int], room: Room
) -> int:
    """The column in which one more block costs least: near what it is tied to, on a page of good shape."""

    def cost(column: int) -> float:
        far = sum(tie * _apart(abs(column_of[b] - column)) for b, tie in ties.items() if b in column_of)
        tall = {**heights, column: heights[column] + height}
        return far + room.price(sum(1 for rows in tall.values() if rows), max(tall.values()))

    used = [column for column, rows in heights.items() if rows] or [0]
    candidates = range(min(used) - 1, max(used) + 2) if column_of else range(1)
    return min(candidates, key=lambda column: (cost(column), abs(column), column))


def _apart(columns: int) -> float:
    return _APART[columns] if columns < len(_APART) else _APART[-1] + _FARTHER * (columns - len(_APART) + 1)


def _ordered(picture: Picture, column_of: dict[int, int], engine: Engine) -> tuple[tuple[int, ...], ...]:
    """Blocks of each column from the top, as Graphviz's dot orders them to save crossings."""
    ties, rows = _ties(picture), _rows(picture)
    columns: list[list[int]] = [[] for _ in range(max(column_of.values()) + 1)]
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
    return tuple(tuple(sorted(members, key=lambda b: (height[b], b))) for members in columns)
