"""From a picture to geometry: places, rows and lanes become boxes, words and strokes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.across import Across, across
from schedules.drawings.blocks import draw_block, draw_label
from schedules.drawings.lanes import Routes, route
from schedules.drawings.layout import Box, Layout, Point, Stroke
from schedules.drawings.page import Parts, on_page
from schedules.drawings.rows import Landing, labels, sites
from schedules.drawings.stacking import Stack, faces, stack
from schedules.drawings.style import CORNER, DOT
from schedules.drawings.tracks import gaps_passed, wanted_gaps
from schedules.drawings.widths import Width, column_widths

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.drawings.placement import Arrangement


def compose(picture: Picture, arrangement: Arrangement, *, gathered: bool = False) -> Layout:
    """Lay a picture out whose blocks' columns and order are settled.

    gathered: as low as its tallest column, though fewer lines then run straight.
    """
    words = labels(picture)
    standing, routes, widths = _settle(picture, arrangement, words, gathered=gathered)
    place = across(standing, routes, widths)
    parts = Parts()
    hrefs = {
        names.terminal(b, t): terminal.href
        for b, block in enumerate(picture.blocks)
        for t, terminal in enumerate(block.terminals)
    }
    for block in standing.standings:
        draw_block(parts, picture, block, place, hrefs)
    for landing in standing.row_y:
        draw_label(parts, words[landing], landing, standing, place)
    _draw_lines(parts, picture, standing, routes, place)
    return on_page(picture, parts)


def _settle(
    picture: Picture, arrangement: Arrangement, words: dict[Landing, dict[str, str]], *, gathered: bool
) -> tuple[Stack, Routes, tuple[Width, ...]]:
    """Heights and lanes: level lines first; if some of them could only run into others, on the columns' grids."""
    found, face = sites(picture), faces(picture, arrangement)
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    columns = tuple(tuple(index[key] for key in keys) for keys in arrangement.columns)
    widths = column_widths(picture, columns, found, face, words)
    for levelled in (True, False):
        standing = stack(picture, found, columns, widths, face, gaps={}, levelled=levelled, gathered=gathered)
        passed = gaps_passed(standing)
        if passed:
            gaps = wanted_gaps(passed, levelled=levelled)
            standing = stack(
                picture, found, columns, widths, face, gaps=gaps, levelled=levelled, gathered=gathered
            )
        routes = route(picture, standing, passed, levelled=levelled)
        if not routes.collisions:
            break
    return standing, routes, widths


def _draw_lines(parts: Parts, picture: Picture, standing: Stack, routes: Routes, place: Across) -> None:
    cells = names.cells(picture)
    for index, line in enumerate(picture.lines):
        points = _way(index, standing, routes, place)
        name = names.line(index)
        parts.strokes.append(
            Stroke(name, points, ink.coats(line), CORNER, cells[index, "a"], cells[index, "b"], line.href)
        )
        for end, (x, y) in zip(names.ENDS, (points[0], points[-1]), strict=True):
            dot = Box(names.dot(index, end), x - DOT, y - DOT, x + DOT, y + DOT, fill=ink.INK, shape="circle")
            parts.boxes.append(dot)


def _way(index: int, standing: Stack, routes: Routes, place: Across) -> tuple[Point, ...]:
    start, goal = _point((index, "a"), standing, place), _point((index, "b"), standing, place)
    if index in routes.links:
        a = (index, "a")
        x = place.link(standing.column(a), standing.face[a], routes.links[index])
        return start, (x, start[1]), (x, goal[1]), goal
    points = [start]
    for hop in routes.hops[index]:
        if not hop.level:
            x = place.lane(hop.channel, routes.lane[index, hop.channel])
            points.extend(((x, hop.y_in), (x, hop.y_out)))
    return (*points, goal)


def _point(landing: Landing, standing: Stack, place: Across) -> Point:
    """Where a line meets its cell's face."""
    return place.cells[standing.column(landing)][standing.face[landing]], standing.row_y[landing]
