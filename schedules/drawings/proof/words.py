"""Can every word be read, and does it stand where it belongs?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.proof.elements import expected_words, housings, running_part, running_text
from schedules.drawings.proof.index import Near
from schedules.drawings.proof.readback import Area, Point, Seen, Writing, extent

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Picture

# How far over its line a label's baseline may stand [pt].
_OVER_LINE = 6.0
_SLACK = 0.6


def word_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Every word that is covered, crossed, out of its box, or not at its line. Expects everything drawn."""
    yield from overlaps(seen)
    yield from _crossings(picture, seen)
    yield from _outlined(picture, seen)
    yield from _outside(picture, seen)
    yield from _misplaced_labels(picture, seen)
    yield from _page_failures(seen)


def overlaps(seen: Seen) -> Iterator[str]:
    """Every two words that lie over one another."""
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
        for segment in seen.ways[names.coat(names.line(index), 0)].segments:
            for _, name in near.meeting(extent(segment).grown(half)):
                yield f"conductor {line.key!r} runs over {seen.writings[name].text!r} ({name})"


def _outlined(picture: Picture, seen: Seen) -> Iterator[str]:
    """Words that an outline runs through: of a block, a cell, a connector."""
    near: Near[str] = Near()
    for name, writing in seen.writings.items():
        near.add(writing.area, name)
    outlines = [
        shape.area for name, shape in seen.shapes.items() if shape.stroke != "none" and name != "page"
    ]
    outlines += [seen.ways[names.coat(name, 0)].area for name in housings(picture)]
    for area in outlines:
        for words, name in near.meeting(area):
            if not area.holds(words):
                yield f"an outline runs through {seen.writings[name].text!r} ({name})"


def _outside(picture: Picture, seen: Seen) -> Iterator[str]:
    """Words that are not all inside the box that they belong to, and boxes that are not inside their block."""
    words, texts = expected_words(picture), running_text(picture)
    for name, writing in seen.writings.items():
        expected = words.get(name) or running_part(name, texts)
        within = expected.within if expected else ""
        area = seen.shapes[within].area if within else seen.page
        if not area.holds(writing.area, _SLACK):
            yield f"{writing.text!r} ({name}) is not all inside its box"
    for part, owner in _owners(picture).items():
        frame = seen.shapes[owner].area if owner else seen.page
        if not frame.holds(seen.shapes[part].area, _SLACK):
            yield f"{part} is not all inside {owner or 'the page'}"


def _page_failures(seen: Seen) -> Iterator[str]:
    """A page that is not the one that was laid out: something reaches over its edge."""
    laid = seen.shapes["page"].area
    if max(abs(laid.right - laid.left - seen.page.right), abs(laid.bottom - laid.top - seen.page.bottom)) > 1:
        yield f"the page is {seen.page.right:g} by {seen.page.bottom:g} pt instead of {laid}"


def _owners(picture: Picture) -> dict[str, str]:
    """The block that each cell and header must lie in; blocks must lie on the page."""
    owners = {}
    blocks = {block.key: names.block(b) for b, block in enumerate(picture.blocks)}
    for b, block in enumerate(picture.blocks):
        frame = names.block(b)
        owners[frame] = ""
        owners[f"{frame}_header"] = frame
        owners.update({names.terminal(b, t): frame for t in range(len(block.terminals))})
    for index, line in enumerate(picture.lines):
        for name, end in zip(names.ENDS, (line.a, line.b), strict=True):
            if end.terminal is None:
                owners[names.cap(index, name)] = blocks[end.block]
    return owners


def _misplaced_labels(picture: Picture, seen: Seen) -> Iterator[str]:
    """A label stands on the last run of its own line, before that line leaves its block."""
    for index, line in enumerate(picture.lines):
        way = seen.ways[names.coat(names.line(index), 0)]
        for end, segment in zip(names.ENDS, (way.segments[0], way.segments[-1]), strict=True):
            run, at = extent(segment), way.ends[names.ENDS.index(end)]
            for what in names.PIECES:
                writing = seen.writings.get(names.piece(index, end, what))
                if writing is not None and not _stands_on(writing, run, at):
                    yield f"{writing.text!r} at end {end} of conductor {line.key!r} does not stand on its line"


def _stands_on(writing: Writing, run: Area, at: Point) -> bool:
    over = at[1] - writing.baseline
    return (
        0 < over < _OVER_LINE
        and run.left - _SLACK <= writing.area.left
        and writing.area.right <= run.right + _SLACK
    )
