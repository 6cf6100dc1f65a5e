"""From a picture to geometry: places, rows and lanes become boxes, words and strokes."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.lanes import Routes, route
from schedules.drawings.layout import Box, Layout, Point, Stroke, Words
from schedules.drawings.metrics import width_pt
from schedules.drawings.names import ENDS
from schedules.drawings.rows import Cell, Landing, labels, sites
from schedules.drawings.stacking import Stack, Standing, faces, stack
from schedules.drawings.style import (
    CELL_PAD,
    CELL_PT,
    CHANNEL_MARGIN,
    CORNER,
    DOT,
    HEADER_LINE,
    HEADER_PAD,
    HEADER_PT,
    LABEL_PT,
    LANE,
    MARK_WIDTH,
    NARROWEST_CHANNEL,
    PAGE_MARGIN,
    PIECE_GAP,
    ROW,
    SMALL_PT,
    TITLE_PT,
    WORDS_OVER_LINE,
)
from schedules.drawings.tracks import gaps_passed, wanted_gaps
from schedules.drawings.widths import LEFT, RIGHT, Width, column_widths

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.placement import Arrangement


def compose(picture: Picture, arrangement: Arrangement) -> Layout:
    """Lay a picture out whose blocks' columns and order are settled."""
    standing_sites, words = sites(picture), labels(picture)
    face = faces(picture, arrangement)
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    columns = tuple(tuple(index[key] for key in keys) for keys in arrangement.columns)
    widths = column_widths(picture, columns, standing_sites, face, words)
    for levelled in (True, False):
        standing = stack(picture, standing_sites, columns, widths, face, gaps={}, levelled=levelled)
        passed = gaps_passed(standing)
        if passed:
            gaps = wanted_gaps(passed)
            standing = stack(picture, standing_sites, columns, widths, face, gaps=gaps, levelled=levelled)
        routes = route(picture, standing, passed)
        if not routes.collisions:
            break
    return _Composition(picture, standing, routes, words, widths).layout()


@dataclass(slots=True)
class _Composition:
    picture: Picture
    standing: Stack
    routes: Routes
    words_at: dict[Landing, dict[str, str]]
    widths: tuple[Width, ...]
    gutters: list[list[float]] = field(default_factory=list)
    lefts: list[float] = field(default_factory=list)
    channel_lefts: list[float] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)

    def layout(self) -> Layout:
        self._set_columns()
        for standing in self.standing.standings:
            self._draw_block(standing)
        self._draw_lines()
        return _framed(self.picture, self.boxes, self.words, self.strokes)

    def _set_columns(self) -> None:
        self.gutters = [[0.0, 0.0] for _ in self.widths]
        for (block, face), lanes in self.routes.link_lanes.items():
            gutter = self.gutters[self.standing.standings[block].column]
            gutter[face] = max(gutter[face], lanes * LANE + LANE)
        x = 0.0
        last = len(self.routes.lanes) - 1
        for channel, lanes in enumerate(self.routes.lanes):
            self.channel_lefts.append(x + CHANNEL_MARGIN)
            if lanes:
                x += max(2 * CHANNEL_MARGIN + (lanes - 1) * LANE, NARROWEST_CHANNEL)
            elif 0 < channel < last:
                x += NARROWEST_CHANNEL
            if channel < last:
                self.lefts.append(x)
                x += self.widths[channel].total + sum(self.gutters[channel])

    def _cell_x(self, column: int) -> tuple[float, float]:
        left = self.lefts[column] + self.gutters[column][LEFT] + self.widths[column].words(LEFT)
        return left, left + self.widths[column].cell

    def _draw_block(self, standing: Standing) -> None:
        column = standing.column
        left, top = self.lefts[column], standing.top
        right = left + self.widths[column].total + sum(self.gutters[column])
        block = self.picture.blocks[standing.site.index]
        name = standing.site.id
        band = top + standing.header_height
        self.boxes.append(Box(f"{name}_header", left, top, right, band, outline="", fill=ink.HEADER))
        self.boxes.append(Box(name, left, top, right, standing.bottom, width=1.1, href=block.href))
        baseline = top + HEADER_PAD / 2 + HEADER_LINE - 3
        tag = width_pt(block.tag, HEADER_PT, bold=True)
        room = right - left - 2 * HEADER_PAD
        self.words.append(
            Words(f"{name}_tag", left + HEADER_PAD + 2, tag, baseline, block.tag, HEADER_PT, "bold")
        )
        for n, text in enumerate(standing.header):
            if text:
                start = left + HEADER_PAD + 2 + (tag + 6 if n == 0 else 0)
                width = width_pt(text, HEADER_PT)
                self.words.append(
                    Words(
                        f"{name}_name_{n}",
                        start,
                        min(width, room),
                        baseline + n * HEADER_LINE,
                        text,
                        HEADER_PT,
                    )
                )
        y = top + standing.first_row()
        for place, cell in enumerate(standing.site.cells):
            if standing.group_over[place]:
                self._draw_group(cell.id, column, y, standing.group_over[place])
                y += ROW
            self._draw_cell(cell, column, y, y + ROW * standing.slots[place])
            y += ROW * standing.slots[place]
        for landing, offset in standing.row_offsets().items():
            self._draw_label(landing, column, top + offset)

    def _draw_group(self, cell_id: str, column: int, y: float, text: str) -> None:
        left, right = self._cell_x(column)
        self.words.append(
            Words(
                f"{cell_id}_group",
                left,
                right - left,
                y + ROW - 3.5,
                text,
                SMALL_PT,
                "bold",
                "left",
                ink.SOFT_INK,
            )
        )

    def _draw_cell(self, cell: Cell, column: int, top: float, bottom: float) -> None:
        left, right = self._cell_x(column)
        landed = bool(cell.landings) and cell.kind is not None
        self.boxes.append(
            Box(cell.id, left, top, right, bottom, fill=ink.CELL if landed else "", dashed=not landed)
        )
        middle = (top + bottom) / 2
        self.words.append(
            Words(
                f"{cell.id}_designation",
                left + MARK_WIDTH,
                right - left - MARK_WIDTH - CELL_PAD,
                middle + 3.1,
                cell.designation,
                CELL_PT,
                "bold",
                "centre",
            )
        )
        if not cell.landings and cell.note:
            width = self.widths[column]
            text = width_pt(cell.note, LABEL_PT)
            start = right + PIECE_GAP if width.note_face == RIGHT else left - PIECE_GAP - text
            self.words.append(
                Words(
                    f"{cell.id}_note",
                    start,
                    text,
                    middle + 3.0,
                    cell.note,
                    LABEL_PT,
                    "italic",
                    "left",
                    ink.SOFT_INK,
                )
            )

    def _draw_label(self, landing: Landing, column: int, y: float) -> None:
        face = self.standing.face[landing]
        left, right = self._cell_x(column)
        pieces = self.widths[column].pieces[face]
        baseline = y - WORDS_OVER_LINE
        x = right + PIECE_GAP if face == RIGHT else left - self.widths[column].words(LEFT) + PIECE_GAP
        if face == LEFT:
            x = left - sum(pieces.values()) - PIECE_GAP * len(pieces)
            outward = [what for what in ("note", "cable") if what in pieces]
            order = [*outward, *(what for what in pieces if what not in outward)]
        else:
            order = list(pieces)
        for what in order:
            text = self.words_at[landing].get(what)
            if text:
                soft = what in ("cable", "note")
                self.words.append(
                    Words(
                        names.piece(*landing, what),
                        x,
                        pieces[what],
                        baseline,
                        text,
                        LABEL_PT,
                        "bold" if what == "number" else "regular",
                        "left",
                        ink.SOFT_INK if soft else ink.INK,
                    )
                )
            x += pieces[what] + PIECE_GAP

    def _draw_lines(self) -> None:
        cells = names.cells(self.picture)
        for index, line in enumerate(self.picture.lines):
            points = self._way(index)
            self.strokes.append(
                Stroke(
                    names.line(index),
                    points,
                    ink.coats(line),
                    CORNER,
                    cells[index, "a"],
                    cells[index, "b"],
                    line.href,
                )
            )
            for end, (x, y) in zip(ENDS, (points[0], points[-1]), strict=True):
                self.boxes.append(
                    Box(
                        f"{names.line(index)}_{end}_dot",
                        x - DOT,
                        y - DOT,
                        x + DOT,
                        y + DOT,
                        fill=ink.INK,
                        shape="dot",
                    )
                )

    def _way(self, index: int) -> tuple[Point, ...]:
        start, goal = self._landing_point((index, "a")), self._landing_point((index, "b"))
        if index in self.routes.links:
            x = self._link_x(index)
            return start, (x, start[1]), (x, goal[1]), goal
        points = [start]
        for hop in self.routes.hops[index]:
            if hop.level:
                continue
            x = self.channel_lefts[hop.channel] + LANE * self.routes.lane[index, hop.channel]
            points.extend(((x, hop.y_in), (x, hop.y_out)))
        return (*points, goal)

    def _landing_point(self, landing: Landing) -> Point:
        column = self.standing.column(landing)
        return self._cell_x(column)[self.standing.face[landing]], self.standing.row_y[landing]

    def _link_x(self, index: int) -> float:
        landing = (index, "a")
        column = self.standing.column(landing)
        out = LANE * (self.routes.links[index] + 0.6)
        left, right = self._cell_x(column)
        width = self.widths[column]
        if self.standing.face[landing] == RIGHT:
            return right + width.words(RIGHT) + out
        return left - width.words(LEFT) - out


def _framed(picture: Picture, boxes: list[Box], words: list[Words], strokes: list[Stroke]) -> Layout:
    """The whole drawing moved onto its page, with title and footer."""
    xs = [x for box in boxes for x in (box.left, box.right)] + [x for s in strokes for x, _ in s.points]
    ys = [y for box in boxes for y in (box.top, box.bottom)] + [y for s in strokes for _, y in s.points]
    head = PAGE_MARGIN + TITLE_PT + 4 + (SMALL_PT + 6 if picture.subtitle else 0) + 8
    dx, dy = PAGE_MARGIN - min(xs, default=0), head - min(ys, default=0)
    titles = [Words("title", PAGE_MARGIN, 0, PAGE_MARGIN + TITLE_PT - 2, picture.title, TITLE_PT, "bold")]
    if picture.subtitle:
        baseline = PAGE_MARGIN + TITLE_PT + SMALL_PT + 6
        titles.append(Words("subtitle", PAGE_MARGIN, 0, baseline, picture.subtitle, SMALL_PT))
    y = max(ys, default=0) + dy + 16
    for n, text in enumerate(picture.footer):
        titles.append(Words(f"footer_{n}", PAGE_MARGIN, 0, y + n * 11, text, SMALL_PT, colour=ink.SOFT_INK))
    bottom = y + 11 * len(picture.footer) - 11 + PAGE_MARGIN if picture.footer else y
    sized = [replace(w, width=width_pt(w.text, w.pt, bold=w.face == "bold")) for w in titles]
    right = max([max(xs, default=0) + dx, *(w.left + w.width for w in sized)]) + PAGE_MARGIN
    return Layout(
        right,
        bottom,
        tuple(
            replace(b, left=b.left + dx, right=b.right + dx, top=b.top + dy, bottom=b.bottom + dy)
            for b in boxes
        ),
        (*sized, *(replace(w, left=w.left + dx, baseline=w.baseline + dy) for w in words)),
        tuple(replace(s, points=tuple((x + dx, y + dy) for x, y in s.points)) for s in strokes),
    )
