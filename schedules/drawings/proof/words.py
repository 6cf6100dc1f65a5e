"""Can every word be read, and does it stand where it belongs?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.proof.elements import expected_words
from schedules.drawings.proof.index import Near
from schedules.drawings.proof.readback import Area, Seen, Segment, Writing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Picture

# How far over its line a label's baseline may stand [pt].
_OVER_LINE = 6.0
_SLACK = 0.6


def word_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Every word that is covered, crossed, out of its box, or not at its line. Expects everything drawn."""
    yield from _overlaps(seen)
    yield from _crossings(picture, seen)
    yield from _outside(picture, seen)
    yield from _misplaced_labels(picture, seen)


def _overlaps(seen: Seen) -> Iterator[str]:
    near: Near[str] = Near()
    for name, writing in seen.writings.items():
        for _, other in near.meeting(writing.area):
            yield f"{writing.text!r} ({name}) and {seen.writings[other].text!r} ({other}) overlap"
        near.add(writing.area, name)


def _crossings(picture: Picture, seen: Seen) -> Iterator[str]:
    near: Near[str] = Near()
    for name, writing in seen.writings.items():
        near.add(writing.area, name)
    for index, line in enumerate(picture.lines):
        half = max(coat.width for coat in ink.coats(line)[1:]) / 2
        for segment in seen.ways[f"{names.line(index)}_0"].segments:
            for _, name in near.meeting(_extent(segment).grown(half)):
                yield f"conductor {line.key!r} runs over {seen.writings[name].text!r} ({name})"


def _extent(segment: Segment) -> Area:
    (x0, y0), (x1, y1) = segment
    return Area(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _outside(picture: Picture, seen: Seen) -> Iterator[str]:
    for b in range(len(picture.blocks)):
        frame = names.block(b)
        header = seen.shapes[f"{frame}_header"].area
        for name, writing in seen.writings.items():
            if name.startswith(f"{frame}_name_"):
                yield from _held(name, writing, header)
        cells = [names.terminal(b, t) for t in range(len(picture.blocks[b].terminals))]
        for part in (f"{frame}_header", *cells):
            if not seen.shapes[frame].area.holds(seen.shapes[part].area, _SLACK):
                yield f"{part} is outside block {picture.blocks[b].tag!r}"
    for name, expected in expected_words(picture).items():
        area = seen.shapes[expected.within].area if expected.within else seen.page
        yield from _held(name, seen.writings[name], area)


def _held(name: str, writing: Writing, area: Area) -> Iterator[str]:
    if not area.holds(writing.area, _SLACK):
        yield f"{writing.text!r} ({name}) is not all inside its box"


def _misplaced_labels(picture: Picture, seen: Seen) -> Iterator[str]:
    """A label stands on the last run of its own line, before that line leaves its block."""
    for index, line in enumerate(picture.lines):
        way = seen.ways[f"{names.line(index)}_0"]
        for end, segment in zip(names.ENDS, (way.segments[0], way.segments[-1]), strict=True):
            run = _extent(segment)
            for what in names.PIECES:
                writing = seen.writings.get(names.piece(index, end, what))
                if writing is None:
                    continue
                over = run.top - writing.baseline
                beside = run.left - _SLACK <= writing.area.left and writing.area.right <= run.right + _SLACK
                if not (0 < over < _OVER_LINE and beside):
                    yield f"{writing.text!r} at end {end} of conductor {line.key!r} does not stand on its line"
