"""Does every line run from the right terminal to the right terminal, past all others, alone?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.proof.index import Near
from schedules.drawings.proof.readback import Area, Point, Seen, Segment, Way, extent

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Picture

# How far an end may lie off its cell's face [pt].
_ON_FACE = 0.6
# No other cell may be as near to an end as this [pt].
_OFF_OTHERS = 1.5
# Two lines that end so near to each other, head on, look joined [pt].
_HEAD_ON = 3.0
_SAME = 0.05


def line_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Every line that ends, passes or joins where it must not. Expects everything to be drawn."""
    ways = [seen.ways[names.coat(names.line(index), 0)] for index in range(len(picture.lines))]
    yield from _shape_failures(picture, seen, ways)
    yield from _end_failures(picture, seen, ways)
    yield from _terminal_failures(picture, seen, ways)
    yield from _block_failures(picture, seen, ways)
    yield from _sharing_failures(picture, ways)
    yield from _joining_failures(picture, ways)


def _shape_failures(picture: Picture, seen: Seen, ways: list[Way]) -> Iterator[str]:
    for index, line in enumerate(picture.lines):
        if ways[index].slanted:
            yield f"conductor {line.key!r} runs aslant"
        for n in range(1, len(ink.coats(line))):
            if not _same_way(ways[index], seen.ways[names.coat(names.line(index), n)]):
                yield f"conductor {line.key!r}: its coats do not lie on each other"


def _same_way(one: Way, other: Way) -> bool:
    return len(one.segments) == len(other.segments) and all(
        abs(a - b) <= _SAME
        for mine, theirs in zip(one.segments, other.segments, strict=True)
        for p, q in zip(mine, theirs, strict=True)
        for a, b in zip(p, q, strict=True)
    )


def _end_failures(picture: Picture, seen: Seen, ways: list[Way]) -> Iterator[str]:
    landing = names.cells(picture)
    cells: Near[str] = Near()
    for name in sorted(_cell_names(picture)):
        cells.add(seen.shapes[name].area.grown(_OFF_OTHERS), name)
    for index, line in enumerate(picture.lines):
        for end, segment, point in zip(
            names.ENDS,
            (ways[index].segments[0], ways[index].segments[-1]),
            ways[index].ends,
            strict=True,
        ):
            cell = landing[index, end]
            near = line.a if end == "a" else line.b
            where = f"{near.block}.{near.terminal or 'capped'}"
            if not _lands(point, segment, seen.shapes[cell].area):
                yield f"conductor {line.key!r} does not end on {where}"
            spot = Area(point[0], point[1], point[0], point[1]).grown(0.01)
            others = [name for _, name in cells.meeting(spot) if name != cell]
            if others:
                yield f"conductor {line.key!r} ends at {where} too near to another terminal ({others[0]})"
            dot = seen.shapes[names.dot(index, end)].area
            centre = (dot.left + dot.right) / 2, (dot.top + dot.bottom) / 2
            if max(abs(centre[0] - point[0]), abs(centre[1] - point[1])) > _ON_FACE:
                yield f"conductor {line.key!r}: its dot is not at its end on {where}"


def _lands(point: Point, segment: Segment, cell: Area) -> bool:
    """A level run that comes from outside and stops on the cell's left or right face."""
    (x0, y0), (x1, y1) = segment
    away = x1 if (x0, y0) == point else x0
    inside = cell.top + 1 < point[1] < cell.bottom - 1
    on_left = abs(point[0] - cell.left) <= _ON_FACE and away < point[0]
    on_right = abs(point[0] - cell.right) <= _ON_FACE and away > point[0]
    return abs(y0 - y1) <= _SAME and inside and (on_left or on_right)


def _cell_names(picture: Picture) -> set[str]:
    terminals = {
        names.terminal(b, t) for b, block in enumerate(picture.blocks) for t in range(len(block.terminals))
    }
    return terminals | set(names.cells(picture).values())


def _terminal_failures(picture: Picture, seen: Seen, ways: list[Way]) -> Iterator[str]:
    """Lines that run over a terminal: no other one at all, their own no farther than its face."""
    landing = names.cells(picture)
    cells: Near[str] = Near()
    for name in sorted(_cell_names(picture)):
        cells.add(seen.shapes[name].area, name)
    for index, line in enumerate(picture.lines):
        own = {landing[index, end] for end in names.ENDS}
        for segment in ways[index].segments:
            area = extent(segment)
            for cell, name in cells.meeting(area.grown(1.0)):
                if name not in own or cell.grown(-_ON_FACE).meets(area):
                    yield f"conductor {line.key!r} runs over a terminal ({name})"


def _block_failures(picture: Picture, seen: Seen, ways: list[Way]) -> Iterator[str]:
    """Lines that run through a block that is not theirs, or over their own block's name."""
    blocks = {block.key: b for b, block in enumerate(picture.blocks)}
    frames: Near[int] = Near()
    for b in range(len(picture.blocks)):
        frames.add(seen.shapes[names.block(b)].area, b)
    for index, line in enumerate(picture.lines):
        own = {blocks[line.a.block], blocks[line.b.block]}
        for segment in ways[index].segments:
            area = extent(segment).grown(1.0)
            for _, b in frames.meeting(area):
                tag = picture.blocks[b].tag
                if b not in own:
                    yield f"conductor {line.key!r} runs through block {tag!r}"
                elif seen.shapes[f"{names.block(b)}_header"].area.meets(area):
                    yield f"conductor {line.key!r} runs over the name of block {tag!r}"


def _sharing_failures(picture: Picture, ways: list[Way]) -> Iterator[str]:
    """Lines that run side by side so near that one can't be told from the other or its halo covers it."""
    bodies = [max(coat.width for coat in ink.coats(line)[1:]) for line in picture.lines]
    for upright in (False, True):
        runs = sorted(_runs(ways, upright))
        widest = max((way.width / 2 for way in ways), default=0) + max(bodies, default=0) / 2
        start = 0
        for n, (at, low, high, index) in enumerate(runs):
            while runs[start][0] < at - widest:
                start += 1
            for other_at, other_low, other_high, other in runs[start:n]:
                if other == index or min(high, other_high) - max(low, other_low) < -_HEAD_ON:
                    continue
                clear = max(ways[index].width + bodies[other], ways[other].width + bodies[index]) / 2
                if at - other_at < clear - _SAME:
                    one, two = sorted((picture.lines[other].key, picture.lines[index].key))
                    yield f"conductors {one!r} and {two!r} share a stretch at {at:.1f}, {max(low, other_low):.1f}"


def _runs(ways: list[Way], upright: bool) -> Iterator[tuple[float, float, float, int]]:
    """Each straight run in one direction: its height (or place across), both its ends, its line."""
    for index, way in enumerate(ways):
        for (x0, y0), (x1, y1) in way.segments:
            if (abs(x0 - x1) <= _SAME) == upright:
                low, high = sorted((y0, y1) if upright else (x0, x1))
                yield (x0 if upright else y0), low, high, index


def _joining_failures(picture: Picture, ways: list[Way]) -> Iterator[str]:
    """Ends and corners that touch another line, which then looks like a joint."""
    segments = Near[int]()
    for index, way in enumerate(ways):
        for segment in way.segments:
            segments.add(extent(segment).grown(0.05), index)
    for index, way in enumerate(ways):
        for x, y in way.ends:
            for _, other in segments.meeting(Area(x, y, x, y).grown(1.5)):
                if other != index:
                    yield (
                        f"conductor {picture.lines[index].key!r} ends on conductor {picture.lines[other].key!r}, "
                        "not on a terminal"
                    )
