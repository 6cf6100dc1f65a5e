"""The elevation of one wall to scale: hood, range, studs, boxes, holes, ways, and where a box may stand instead."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.drawings.elevation_rows import along_rows, up_rows
from schedules.drawings.elevation_tables import tables_of
from schedules.drawings.errors import DrawingError
from schedules.drawings.picture import Paper
from schedules.drawings.running_dimensions import Ruler
from schedules.drawings.sheet_layout import View, lay_out, within
from schedules.drawings.site_proof import prove_elevation
from schedules.drawings.site_sheets import (
    TABLES_ELSEWHERE,
    SiteDrawing,
    begin,
    common_notes,
    sheets_of_tables,
    tables_in_words,
)
from schedules.drawings.wall_content import wall_content, walls_to_draw
from schedules.drawings.wall_figures import ABOVE_PART_PT, ABOVE_WALL_PT, draw_wall
from schedules.quantities.lengths import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.sheet_layout import Layout
    from schedules.drawings.sheet_tables import SheetTable
    from schedules.drawings.wall_content import WallContent
    from schedules.plan import Plan
    from schedules.site.room import PlacedWall

CLEAR_PT_PER_IN = 2.25
"""3/8" = 1': below it boxes and holes run into one another; a longer wall is drawn in parts instead (own choice)."""

_MOST_PARTS = 8
_OVERLAP_IN = 6.0
_CLEAR_OF_CUT_IN = 1.0


def elevations(
    plan: Plan, paper: Paper = Paper.TABLOID, *, cable: str | None = None, prefix: str = ""
) -> tuple[SiteDrawing, ...]:
    """The elevation of every wall on which something stands or is bored, the walls in their order.

    A long wall on small paper comes in parts with match lines, its tables on sheets of their own. cable: whose reach is
    shaded; see `wall_content`. prefix: put before every id, so that several drawings fit into one page. Raises
    DrawingError where no wall was measured, a wall fits the paper at no scale, or a drawing is not as the plan says.
    """
    walls = walls_to_draw(plan)
    if not walls:
        raise DrawingError(("no wall was measured on which anything stands, so there is no elevation",))
    return tuple(
        sheet
        for wall in walls
        for sheet in elevation(plan, wall, paper, cable=cable, prefix=f"{prefix}{wall.tag}-")
    )


def elevation(
    plan: Plan, wall: PlacedWall, paper: Paper = Paper.TABLOID, *, cable: str | None = None, prefix: str = ""
) -> tuple[SiteDrawing, ...]:
    """The elevation of one wall, as many sheets as it takes; see `elevations`."""
    content = wall_content(plan, wall, cable)
    tables = tables_of(plan, content)
    notes = (*_notes(content), TABLES_ELSEWHERE, *common_notes(plan))
    laid = lay_out(
        lambda count: tuple(_view(part, notes, count) for part in _parts(content, count)),
        tables,
        paper,
        clear_pt_per_in=CLEAR_PT_PER_IN,
        most_parts=_MOST_PARTS,
    )
    if laid is None:
        raise DrawingError(
            (f"wall {wall.tag} fits {paper} paper at no scale of the rule; take larger paper",)
        )
    drawn = tuple(_sheets(plan, content, laid, tables, prefix))
    if laid[0].tables:
        return drawn
    title, datum = f"Wall {wall.tag}", _datum(content)
    overleaf = sheets_of_tables(
        plan, tables, paper, name=_name(wall), title=title, datum=datum, prefix=prefix
    )
    return (*drawn, *overleaf)


def _name(wall: PlacedWall) -> str:
    return f"elevation-{wall.tag.lower()}"


def _sheets(
    plan: Plan, content: WallContent, laid: tuple[Layout, ...], tables: tuple[SheetTable, ...], prefix: str
) -> Iterator[SiteDrawing]:
    wall, count = content.wall, len(laid)
    title = f"Wall {wall.tag}, seen from inside"
    parts = zip(_parts(content, count), _matches(content, count), laid, strict=True)
    for number, (part, matches, layout) in enumerate(parts, start=1):
        own = title if count == 1 else f"{title}, part {number} of {count}"
        sheet = begin(layout, plan, prefix if count == 1 else f"{prefix}{number}-", own, _datum(content))
        draw_wall(sheet, layout.mapping, part, matches)
        view = layout.view
        ruler = Ruler(sheet, layout.mapping, view.first_in, view.last_in, view.low_in, view.high_in)
        for place, row in enumerate(view.along):
            ruler.below(row, place, layout.along_top(place))
        for place, row in enumerate(view.up):
            ruler.beside(row, place, layout.up_left(place))
        words = f"{own}, of {plan.derived.job.job.name}. {tables_in_words(tables)}"
        svg = sheet.svg(f"{own}, elevation", words)
        failures = prove_elevation(part, svg, sheet.prefix)
        if failures:
            raise DrawingError(failures)
        name = _name(wall) if count == 1 else f"{_name(wall)}-{number}"
        yield SiteDrawing(name, f"{own}, {layout.scale.words}", svg, layout.width, layout.height, words)


def _view(part: WallContent, notes: tuple[str, ...], count: int) -> View:
    along = along_rows(part)
    if count > 1:
        along = within(along, part.first_in, part.last_in)
        notes = (f"The wall goes on at the match lines, {format_length(_OVERLAP_IN)} drawn twice.", *notes)
    above = ABOVE_WALL_PT if count == 1 else ABOVE_PART_PT
    return View(part.first_in, part.last_in, 0.0, part.height_in, along, up_rows(part), notes, above)


def _parts(content: WallContent, count: int) -> tuple[WallContent, ...]:
    """The wall in so many parts, each a little longer than from match line to match line."""
    if count == 1:
        return (content,)
    length = content.wall.length_in
    stops = (0.0, *_cuts(content, count), length)
    return tuple(
        content.part(max(0.0, first - _OVERLAP_IN / 2), min(length, last + _OVERLAP_IN / 2))
        for first, last in itertools.pairwise(stops)
    )


def _matches(content: WallContent, count: int) -> tuple[tuple[float, ...], ...]:
    """The match lines of each part, along the wall [in]."""
    stops = (None, *_cuts(content, count), None)
    return tuple(tuple(stop for stop in pair if stop is not None) for pair in itertools.pairwise(stops))


def _cuts(content: WallContent, count: int) -> tuple[float, ...]:
    """Where the wall is parted: evenly, each cut moved by whole inches to where it meets no box and no hole."""
    zones = [(device.zone.left, device.zone.right) for device in content.devices]
    zones += [(hole.along_in, hole.along_in) for hole in content.holes]
    if content.hood is not None:
        zones += [(along, along) for along, _ in content.hood.holes]

    def clear(at: float) -> bool:
        near = _OVERLAP_IN / 2 + _CLEAR_OF_CUT_IN
        return not any(left - near < at < right + near for left, right in zones)

    length = content.wall.length_in
    most = int(length / count / 4)
    cuts = []
    for number in range(1, count):
        even = float(round(length * number / count))
        steps = sorted(range(-most, most + 1), key=lambda step: (abs(step), step))
        cuts.append(next((even + step for step in steps if clear(even + step)), even))
    return tuple(cuts)


def _datum(content: WallContent) -> str:
    words = "Every measure runs from one datum: the wall's left corner and the floor, both finished."
    out, up = content.bare
    if out or up:
        words += " Columns with * add the finish still to come."
    if not content.height_measured:
        words += " THE CEILING IS NOT MEASURED: its line stands for nothing."
    return words


def _notes(content: WallContent) -> tuple[str, ...]:
    notes = [
        "A dot is where cables enter a box; a box drawn double is set in the wall. B: holes to bore, to scale. "
        "K: holes of the hood's bracket. Thick line: cable inside the wall. Double line: raceway, or cable in cabinets "
        "or on the wall. Arrow: it goes on above the ceiling or below the floor. Dashed: cabinets and range."
    ]
    if content.wall.studs:
        notes.append(
            "Studs stand where the job's measurements put them: find each before boring. "
            "Plates are drawn as they usually are; they were not measured."
        )
    else:
        notes.append(
            "NO STUD OF THIS WALL IS MEASURED, so none is drawn: find them before setting a box or boring."
        )
    notes += [
        f"Hatched: where {shade.mover} may stand, by the dot at which its cables enter, so that {shade.cable} reaches "
        "with every measurement at its worst."
        for shade in content.shades
    ]
    return tuple(notes)
