"""Is every mark the declared one, whole and in its place; does each outline hold its pins, each sample its words?"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from schedules.drawings import names
from schedules.drawings.legend import entries
from schedules.drawings.marks import MARKS, WORDS
from schedules.drawings.proof.elements import housings, marked_cells
from schedules.drawings.proof.readback import Area

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.legend import Entry
    from schedules.drawings.marks import Mark
    from schedules.drawings.picture import Picture
    from schedules.drawings.proof.readback import Point, Seen

_SLACK = 0.3
_BESIDE = 10.0


def mark_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Every mark, connector outline or legend sample that misleads. Expects everything to be drawn."""
    words = {mark: WORDS[kind] for kind, mark in MARKS.items()}
    for owner, mark in marked_cells(picture).items():
        areas = list(_areas(owner, mark, seen))
        if not is_declared(owner, mark, seen):
            yield f"the mark of {owner} is not that of a {words[mark]}"
        if owner in seen.shapes:
            box, word = seen.shapes[owner].area, seen.writings.get(f"{owner}_designation")
            if not all(box.holds(area, _SLACK) for area in areas):
                yield f"the mark of {owner} is not all inside its cell"
            if word is not None and any(word.area.meets(area) for area in areas):
                yield f"the mark of {owner} runs over {word.text!r}"
    yield from _housing_failures(picture, seen)
    yield from sample_failures(entries(picture), seen)


def _areas(owner: str, mark: Mark, seen: Seen) -> Iterator[Area]:
    for n in range(len(mark.rings)):
        yield seen.shapes[names.mark_ring(owner, n)].area
    for n in range(len(mark.lines)):
        yield seen.ways[names.coat(names.mark_line(owner, n), 0)].area


def is_declared(owner: str, mark: Mark, seen: Seen) -> bool:
    """Whether all parts lie about one centre as declared."""
    for n, (_, radius) in enumerate(mark.rings):
        area = seen.shapes[names.mark_ring(owner, n)].area
        if abs(area.right - area.left - 2 * radius) > _SLACK:
            return False
    centres = list(_centres(owner, mark, seen))
    xs, ys = [x for x, _ in centres], [y for _, y in centres]
    whole = len(centres) == len(mark.rings) + sum(len(points) for points, _ in mark.lines)
    return whole and max(xs) - min(xs) <= _SLACK and max(ys) - min(ys) <= _SLACK


def centre_of(owner: str, mark: Mark, seen: Seen) -> Point:
    """Where the centre of a mark is, by its first part."""
    return next(_centres(owner, mark, seen))


def _centres(owner: str, mark: Mark, seen: Seen) -> Iterator[Point]:
    """Where each of a mark's points and rings has its centre; fewer where it is not drawn as declared."""
    for n, ((x, y), _) in enumerate(mark.rings):
        area = seen.shapes[names.mark_ring(owner, n)].area
        yield (area.left + area.right) / 2 - x, (area.top + area.bottom) / 2 - y
    for n, (points, _) in enumerate(mark.lines):
        segments = seen.ways[names.coat(names.mark_line(owner, n), 0)].segments
        drawn = [segments[0][0], *(end for _, end in segments)]
        if len(drawn) == len(points) and all(a[1] == b[0] for a, b in pairwise(segments)):
            yield from ((x - dx, y - dy) for (x, y), (dx, dy) in zip(drawn, points, strict=True))


def _housing_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    for name, (first, last) in housings(picture).items():
        outline = seen.ways[names.coat(name, 0)].area
        top, bottom = seen.shapes[first].area, seen.shapes[last].area
        pins = Area(top.left, top.top, bottom.right, bottom.bottom)
        if not outline.holds(pins) or not pins.grown(4).holds(outline):
            yield f"the outline of the connector at {first} does not go round its pins"


def sample_failures(explained: tuple[Entry, ...], seen: Seen) -> Iterator[str]:
    """Every sample of a legend that does not stand before its words."""
    for n, entry in enumerate(explained):
        owner = names.legend(n)
        areas = list(_areas(owner, entry.mark, seen)) if entry.mark else []
        if entry.coats:
            areas.append(seen.ways[names.coat(owner, 0)].area)
        words = seen.writings[f"{owner}_words"].area
        if areas:
            right = max(area.right for area in areas)
            middle = centre_of(owner, entry.mark, seen)[1] if entry.mark else areas[-1].top
            near = -_SLACK <= words.left - right <= 2 * _BESIDE
            if not (near and words.top < middle < words.bottom):
                yield f"a sample does not stand before {entry.words!r}"
