"""The page round a drawing: title above, legend and small print below, everything moved to its place."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil
from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.ink import Coat
from schedules.drawings.layout import Box, Face, Layout, Stroke, Words
from schedules.drawings.legend import Entry, entries
from schedules.drawings.marks import Mark, reach
from schedules.drawings.metrics import ASCENT, DESCENT, width_pt, wrap
from schedules.drawings.style import LEGEND_ROW, PAGE_MARGIN, SAMPLE_WIDTH, SMALL_PT, SUBTITLE_PT, TITLE_PT

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture

_ENTRY_GAP = 16.0
_SAMPLE_GAP = 4.0
_UNDER_SAMPLE = 2.0
# Room for legend and small print, however narrow the drawing is [pt].
_NARROWEST = 440.0
_UNDER_TITLE = 8.0
_BOX_EDGE = 6.0
_OVER_LEGEND = 11.0


@dataclass(slots=True)
class Parts:
    """What has been drawn so far."""

    boxes: list[Box] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)

    def extent(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of everything drawn [pt]."""
        xs = [x for box in self.boxes for x in (box.left, box.right)]
        ys = [y for box in self.boxes for y in (box.top, box.bottom)]
        xs += [x for stroke in self.strokes for x, _ in stroke.points]
        ys += [y for stroke in self.strokes for _, y in stroke.points]
        xs += [x for words in self.words for x in (words.left, words.left + words.width)]
        ys += [words.baseline + by * words.pt for words in self.words for by in (-ASCENT, DESCENT)]
        return min(xs, default=0), min(ys, default=0), max(xs, default=0), max(ys, default=0)

    def move(self, dx: float, dy: float) -> None:
        """Move everything drawn so far [pt]."""
        self.boxes = [box.moved(dx, dy) for box in self.boxes]
        self.words = [words.moved(dx, dy) for words in self.words]
        self.strokes = [stroke.moved(dx, dy) for stroke in self.strokes]


def mark(parts: Parts, owner: str, declared: Mark, x: float, y: float) -> None:
    """Draw a mark round a centre."""
    for n, (points, width) in enumerate(declared.lines):
        moved = tuple((x + dx, y + dy) for dx, dy in points)
        parts.strokes.append(Stroke(names.mark_line(owner, n), moved, (Coat(ink.INK, width),)))
    for n, ((dx, dy), r) in enumerate(declared.rings):
        left, top = x + dx - r, y + dy - r
        parts.boxes.append(
            Box(names.mark_ring(owner, n), left, top, left + 2 * r, top + 2 * r, shape="circle")
        )


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands round a drawing."""

    title: str
    subtitle: str
    legend: tuple[Entry, ...]
    footer: tuple[str, ...]


def on_page(picture: Picture, parts: Parts) -> Layout:
    """Put a picture's title, legend and footer round what has been drawn."""
    return framed(Frame(picture.title, picture.subtitle, entries(picture), picture.footer), parts)


def framed(frame: Frame, parts: Parts) -> Layout:
    """Put title, legend and footer round what has been drawn."""
    left, top, right, bottom = parts.extent()
    room = max(right - left, _NARROWEST)
    titles, subtitles = _TITLE.broken(frame.title, room), _SUBTITLE.broken(frame.subtitle, room)
    head = PAGE_MARGIN + _TITLE.height * len(titles) + _SUBTITLE.height * len(subtitles) + _UNDER_TITLE
    parts.move(PAGE_MARGIN - left, ceil(head) - top)
    y = _TITLE.write(parts, "title", PAGE_MARGIN, titles)
    _SUBTITLE.write(parts, "subtitle", y, subtitles)
    y = _legend(frame.legend, parts, bottom - top + ceil(head) + _OVER_LEGEND, room)
    for n, text in enumerate(frame.footer):
        y = _FOOTER.write(parts, f"footer{n}", y, _FOOTER.broken(text, room))
    # Nothing may reach over the page's edge, not even the empty part of a text's box: it would move the page.
    words_end = max((words.left + words.room + _BOX_EDGE for words in parts.words), default=0)
    return Layout(
        ceil(max(room + 2 * PAGE_MARGIN, words_end)),
        ceil(y + PAGE_MARGIN / 2),
        tuple(parts.boxes),
        tuple(parts.words),
        tuple(parts.strokes),
    )


@dataclass(frozen=True, slots=True)
class _Paragraph:
    """How one kind of running text is set: type size, height of a line [pt], face, colour."""

    pt: float
    height: float
    face: Face = "regular"
    colour: str = ink.INK

    def broken(self, text: str, room: float) -> tuple[str, ...]:
        """The text's lines; none for no text."""
        return wrap(text, self.pt, room, bold=self.face == "bold") if text else ()

    def write(self, parts: Parts, name: str, top: float, lines: tuple[str, ...]) -> float:
        """Write lines from a height on; return where they end."""
        for n, text in enumerate(lines):
            width = width_pt(text, self.pt, bold=self.face == "bold")
            baseline = top + self.height * (n + 0.8)
            parts.words.append(
                Words(
                    f"{name}_{n}", PAGE_MARGIN, width, baseline, text, self.pt, self.face, colour=self.colour
                )
            )
        return top + self.height * len(lines)


_TITLE = _Paragraph(TITLE_PT, 17.0, "bold")
_SUBTITLE = _Paragraph(SUBTITLE_PT, 12.0)
_FOOTER = _Paragraph(SMALL_PT, 11.0, colour=ink.SOFT_INK)


def _legend(found: tuple[Entry, ...], parts: Parts, top: float, room: float) -> float:
    """Draw the legend in rows from a height on; return where it ends."""
    x, y = PAGE_MARGIN, top
    height = max((_sample_size(entry)[1] for entry in found), default=LEGEND_ROW)
    for n, entry in enumerate(found):
        width = _entry_width(entry)
        if x > PAGE_MARGIN and x + width > PAGE_MARGIN + room:
            x, y = PAGE_MARGIN, y + height
        _entry(parts, n, entry, x, y + height / 2)
        x += width + _ENTRY_GAP
    return y + height + 2 if found else y


def _sample_size(entry: Entry) -> tuple[float, float]:
    """Width and height of an entry's sample, with the room after and under it."""
    if entry.mark is not None:
        right, down = reach(entry.mark)
        return max(SAMPLE_WIDTH, 2 * right) + _SAMPLE_GAP, max(LEGEND_ROW, 2 * down + _UNDER_SAMPLE)
    return SAMPLE_WIDTH + _SAMPLE_GAP if entry.coats else 0.0, LEGEND_ROW


def _entry_width(entry: Entry) -> float:
    return _sample_size(entry)[0] + width_pt(entry.words, SMALL_PT)


def _entry(parts: Parts, n: int, entry: Entry, x: float, middle: float) -> None:
    owner = names.legend(n)
    sample = _sample_size(entry)[0]
    if entry.coats:
        parts.strokes.append(Stroke(owner, ((x, middle), (x + SAMPLE_WIDTH, middle)), entry.coats))
    if entry.mark is not None:
        mark(parts, owner, entry.mark, x + (sample - _SAMPLE_GAP) / 2, middle)
    width = width_pt(entry.words, SMALL_PT)
    parts.words.append(Words(f"{owner}_words", x + sample, width, middle + 2.9, entry.words, SMALL_PT))
