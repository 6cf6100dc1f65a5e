"""The elevation of one wall to scale: hood, range, studs, boxes, holes, ways, and where a box may stand instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.cautions import ON_A_DRAWING
from schedules.drawings.elevation_rows import along_rows, up_rows
from schedules.drawings.elevation_tables import tables_of
from schedules.drawings.errors import DrawingError
from schedules.drawings.metrics import wrap
from schedules.drawings.paper import EDGE, sheet_size
from schedules.drawings.picture import Paper
from schedules.drawings.running_dimensions import Ruler
from schedules.drawings.scaled_sheet import ScaledSheet, Type
from schedules.drawings.scales import SCALES, Mapping
from schedules.drawings.site_proof import prove_elevation
from schedules.drawings.wall_content import wall_content, walls_to_draw
from schedules.drawings.wall_figures import draw_wall

if TYPE_CHECKING:
    from schedules.drawings.running_dimensions import Row
    from schedules.drawings.scales import Scale
    from schedules.drawings.sheet_tables import SheetTable
    from schedules.drawings.wall_content import WallContent
    from schedules.plan import Plan
    from schedules.site.room import PlacedWall

_UNSOUND = "NOT SOUND, do not build by it"
_TITLE = Type(14.0, bold=True)
_SUBTITLE = Type(9.0)
_SMALL = Type(8.0)
_HEAD_ROOM = 52.0
_ABOVE_WALL = 30.0
_BETWEEN = 16.0
_LINE = 10.5
_FOOT_ROOM = 6 * _LINE
_BESIDE_WALL = 36.0
_ROW_ENDS = 3.0


@dataclass(frozen=True, slots=True)
class SiteDrawing:
    """One proved drawing to scale. name: for a file's name. width, height: of its sheet [pt]. scale: as written.

    words: what it shows, for who can't see it.
    """

    name: str
    svg: str
    width_pt: float
    height_pt: float
    scale: str
    words: str


def elevations(
    plan: Plan, paper: Paper = Paper.TABLOID, *, cable: str | None = None, prefix: str = ""
) -> tuple[SiteDrawing, ...]:
    """The elevation of every wall on which something stands or is bored, the walls in their order.

    cable: whose reach is shaded. prefix: put before every id, so that several drawings fit into one page. Raises
    DrawingError where no wall was measured, a wall fits the paper at no scale, or a drawing is not as the plan says.
    """
    walls = walls_to_draw(plan)
    if not walls:
        raise DrawingError(("no wall was measured on which anything stands, so there is no elevation",))
    return tuple(elevation(plan, wall, paper, cable=cable, prefix=f"{prefix}{wall.tag}-") for wall in walls)


def elevation(
    plan: Plan, wall: PlacedWall, paper: Paper = Paper.TABLOID, *, cable: str | None = None, prefix: str = ""
) -> SiteDrawing:
    """The elevation of one wall; see `elevations`."""
    content = wall_content(plan, wall, cable)
    layout = _Layout.of(plan, content, paper)
    sheet = ScaledSheet(layout.width, layout.height, prefix)
    _head(sheet, plan, content, layout.scale)
    draw_wall(sheet, layout.mapping, content)
    ruler = Ruler(sheet, layout.mapping, wall.length_in, content.height_in)
    for number, row in enumerate(layout.along):
        ruler.below(row, number, layout.along_top(number))
    for number, row in enumerate(layout.up):
        ruler.beside(row, number, layout.up_left(number))
    for table, (left, top) in zip(layout.tables, layout.places or (), strict=True):
        table.draw(sheet, left, top)
    _foot(sheet, plan, content)
    title = f"Wall {wall.tag}, elevation"
    words = _in_words(plan, content)
    svg = sheet.svg(title, words)
    failures = prove_elevation(content, svg, prefix)
    if failures:
        raise DrawingError(failures)
    return SiteDrawing(
        f"elevation-{wall.tag.lower()}", svg, layout.width, layout.height, layout.scale.words, words
    )


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where everything goes on a sheet of one size at one scale [pt]."""

    width: float
    height: float
    scale: Scale
    content: WallContent
    along: tuple[Row, ...]
    up: tuple[Row, ...]
    tables: tuple[SheetTable, ...]

    @classmethod
    def of(cls, plan: Plan, content: WallContent, paper: Paper) -> _Layout:
        """The layout at the largest scale at which wall, dimensions and tables fit the sheet.

        Raises DrawingError where none does.
        """
        short, long = sheet_size(paper)
        along, up, tables = along_rows(content), up_rows(content), tables_of(plan, content)
        tried = (
            cls(width, height, scale, content, along, up, tables)
            for scale in SCALES
            for width, height in ((long, short), (short, long))
        )
        found = next((layout for layout in tried if layout.places is not None), None)
        if found is None:
            raise DrawingError(
                (f"wall {content.wall.tag} fits {paper} paper at no scale of the rule; take larger paper",)
            )
        return found

    @property
    def mapping(self) -> Mapping:
        """From the wall to the sheet."""
        left = EDGE + sum(row.room for row in self.up) + _BETWEEN
        floor = EDGE + _HEAD_ROOM + _ABOVE_WALL + self.content.height_in * self.scale.points_per_in
        return Mapping(left, floor, self.scale.points_per_in)

    def along_top(self, number: int) -> float:
        """Height of the line of a row of dimensions under the wall."""
        return self.mapping.floor + _BETWEEN + sum(row.room for row in self.along[:number])

    def up_left(self, number: int) -> float:
        """Where the line of a row of dimensions left of the wall stands."""
        return self.mapping.left - _BETWEEN - sum(row.room for row in self.up[:number])

    @property
    def _numbers_fit(self) -> bool:
        across = self.content.wall.length_in * self.scale.points_per_in
        high = self.content.height_in * self.scale.points_per_in - _ROW_ENDS
        return all(row.fits(across) for row in self.along) and all(row.fits(high) for row in self.up)

    @property
    def places(self) -> tuple[tuple[float, float], ...] | None:
        """Where the tables stand beside and below the wall, None where not all of it fits."""
        mapping = self.mapping
        right = mapping.left + self.content.wall.length_in * self.scale.points_per_in + _BESIDE_WALL
        bottom = self.along_top(len(self.along)) + 8.0
        width, limit = self.width - EDGE, self.height - EDGE - _FOOT_ROOM
        if right > width or bottom > limit or not self._numbers_fit:
            return None
        places: list[tuple[float, float]] = []
        beside = EDGE + _HEAD_ROOM
        left, top, tallest = EDGE, bottom, 0.0
        for table in self.tables:
            if right + table.width <= width and beside + table.height <= limit:
                places.append((right, beside))
                beside += table.height + _BETWEEN
                continue
            if left + table.width > width:
                left, top, tallest = EDGE, top + tallest + _BETWEEN, 0.0
            # What stands below may not run into what stands beside.
            meets = left + table.width > right and top < beside
            if top + table.height > limit or left + table.width > width or meets:
                return None
            places.append((left, top))
            left += table.width + _BETWEEN
            tallest = max(tallest, table.height)
        return tuple(places)


def _head(sheet: ScaledSheet, plan: Plan, content: WallContent, scale: Scale) -> None:
    title, job = f"Wall {content.wall.tag}, seen from inside", plan.derived.job.job
    if not plan.sound:
        title += f". {_UNSOUND}"
    sheet.write("title", (EDGE, EDGE + 14), title, _TITLE)
    sheet.write(
        "subtitle",
        (EDGE, EDGE + 28),
        f"{job.name}, revision {job.revision}, {job.date}. Scale {scale.words} printed at full size, {_size(sheet)}.",
        _SUBTITLE,
    )
    sheet.write("datum", (EDGE, EDGE + 40), _datum(content), _SUBTITLE)


def _size(sheet: ScaledSheet) -> str:
    return f"{sheet.width / 72:.2f} × {sheet.height / 72:.2f} in"


def _datum(content: WallContent) -> str:
    words = "Every measure runs from one datum: the wall's left corner and the floor, both finished."
    out, up = content.bare
    if out or up:
        words += " Columns with * add the finish still to come."
    if not content.height_measured:
        words += " THE CEILING IS NOT MEASURED: its line stands for nothing."
    return words


def _notes(plan: Plan, content: WallContent) -> list[str]:
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
    notes += [
        f"Hatched: where {shade.mover} may stand so that {shade.cable} reaches, with every measurement at its worst."
        for shade in content.shades
    ]
    if not plan.sound:
        notes.append("NOT SOUND: do not build from this sheet before the plan's findings are cured.")
    notes.append(ON_A_DRAWING)
    return notes


def _foot(sheet: ScaledSheet, plan: Plan, content: WallContent) -> None:
    lines = [line for note in _notes(plan, content) for line in wrap(note, _SMALL.pt, sheet.width - 2 * EDGE)]
    top = sheet.height - EDGE - _LINE * (len(lines) - 1)
    for number, line in enumerate(lines):
        sheet.write(f"foot-{number}", (EDGE, top + number * _LINE), line, _SMALL)


def _in_words(plan: Plan, content: WallContent) -> str:
    """The drawing for who can't see it: every box, hole and way with its numbers."""
    parts = [f"Wall {content.wall.tag} of {plan.derived.job.job.name}."]
    for table in tables_of(plan, content):
        parts.append(f"{table.title}:")
        parts += [" ".join(filter(None, row)) + "." for row in table.rows]
    return " ".join(parts)
