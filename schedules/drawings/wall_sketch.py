"""One wall as a sketch of characters, for a terminal: what stands where, and where a box may stand instead.

It is not to scale: a character stands for some inches, and what is smaller takes one.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.wall_content import WallContent
    from schedules.site.zones import Zone

_HEIGHT_OF_CHARACTER = 2.0
"""A character is about twice as high as wide."""
_LEAST_ROWS = 5
_LEAST_COLUMNS = 20


@dataclass(frozen=True, slots=True)
class Signs:
    """The characters of a sketch. Outlines: level, upright, and the corners from the left upper one on, clockwise."""

    reach: str
    taken: str
    entry: str
    way: str
    wall: str
    body: str
    dashed: str


LINES = Signs("░", "▒", "■", "═║╬", "─│┌┐┘└", "━┃┏┓┛┗", "┄┆┌┐┘└")
PLAIN = Signs(":", "#", "@", "===", "-|++++", "-|++++", "......")
"""Where a terminal has only ASCII."""


def signs_for(encoding: str) -> Signs:
    """The finest characters that an encoding has."""
    try:
        "".join(
            (LINES.reach, LINES.taken, LINES.entry, LINES.way, LINES.wall, LINES.body, LINES.dashed)
        ).encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return PLAIN
    return LINES


def wall_sketch(
    content: WallContent,
    *,
    columns: int,
    rows: int,
    signs: Signs = LINES,
    subject: str | None = None,
    cable: str | None = None,
) -> tuple[str, ...]:
    """A wall in no more columns and rows, its legend below it apart.

    subject: the enclosure that is asked about; it stands in brackets. cable: whose way is drawn.
    """
    if columns < _LEAST_COLUMNS or rows < _LEAST_ROWS:
        return ()
    across = columns - 2
    inches = content.wall.length_in / across
    high = max(3, min(rows - 2, round(content.height_in / inches / _HEIGHT_OF_CHARACTER)))
    grid = _Grid(across, high, content.wall.length_in, content.height_in)
    _draw(grid, content, signs, subject, cable)
    level, upright, *corners = tuple(signs.wall)
    top = corners[0] + level * across + corners[1]
    bottom = corners[3] + level * across + corners[2]
    return (top, *(f"{upright}{line}{upright}" for line in grid.lines()), bottom)


def sketch_legend(
    content: WallContent,
    *,
    columns: int,
    signs: Signs = LINES,
    subject: str | None = None,
    cable: str | None = None,
) -> tuple[str, ...]:
    """What the sketch shows, in lines of no more columns."""
    said = []
    device = next((item for item in content.devices if item.enclosure == subject), None)
    if device is not None:
        spot = f"{format_length(device.along_in)} along, {format_length(device.up_in)} up"
        inside = 0 <= device.along_in <= content.wall.length_in and 0 <= device.up_in <= content.height_in
        said.append(f"[{device.enclosure}] stands {spot}{'' if inside else ', NOT ON THIS WALL'}.")
    ceiling = format_length(content.height_in) if content.height_measured else "not measured"
    long = format_length(content.wall.length_in)
    said.append(
        f"Wall {content.wall.tag} from inside, a sketch, not to scale: {long} long, ceiling {ceiling}."
    )
    said += [
        f"{signs.reach * 2} {shade.mover} may stand here, by where its cables enter, and {shade.cable} reaches."
        for shade in content.shades
    ]
    if cable is not None and _has_way(content, cable):
        said.append(f"{signs.way[0] * 2} way of {cable}.")
    if content.wall.taken:
        said.append(f"{signs.taken * 2} taken.")
    return tuple(textwrap.wrap(" ".join(said), columns))


@dataclass(slots=True)
class _Grid:
    """The characters between floor and ceiling, corner and corner."""

    columns: int
    rows: int
    length_in: float
    height_in: float
    cells: list[list[str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.cells = [[" "] * self.columns for _ in range(self.rows)]

    def lines(self) -> tuple[str, ...]:
        """From the ceiling down."""
        return tuple("".join(row) for row in self.cells)

    def at(self, along: float, up: float) -> tuple[int, int]:
        """Column and row of a point; what lies beyond the wall lies at its edge."""
        column = int(along / self.length_in * self.columns)
        row = self.rows - 1 - int(up / self.height_in * self.rows)
        return min(max(column, 0), self.columns - 1), min(max(row, 0), self.rows - 1)

    def middles(self) -> Iterator[tuple[int, int, float, float]]:
        """Each character's column and row, and the point of the wall at its middle [in]."""
        for row in range(self.rows):
            for column in range(self.columns):
                along = (column + 0.5) / self.columns * self.length_in
                yield column, row, along, (self.rows - row - 0.5) / self.rows * self.height_in

    def outline(self, zone: Zone, characters: str) -> None:
        """The edge of a rectangle."""
        level, upright, *corners = tuple(characters)
        left, top = self.at(zone.left, zone.top)
        right, bottom = self.at(zone.right, zone.bottom)
        for column in range(left, right + 1):
            self.cells[top][column] = self.cells[bottom][column] = level
        for row in range(top, bottom + 1):
            self.cells[row][left] = self.cells[row][right] = upright
        places = ((left, top), (right, top), (right, bottom), (left, bottom))
        for (column, row), corner in zip(places, corners, strict=True):
            self.cells[row][column] = corner

    def write(self, column: int, row: int, words: str) -> None:
        """Words, as far as the wall reaches."""
        start = min(max(column, 0), max(0, self.columns - len(words)))
        for place, character in enumerate(words[: self.columns]):
            self.cells[row][start + place] = character

    def name(self, zone: Zone, words: str) -> None:
        """Words in the middle of a rectangle, where they fit into it and it is free there."""
        left, top = self.at(zone.left, zone.top)
        right, bottom = self.at(zone.right, zone.bottom)
        inside = range(top + 1, bottom) if bottom - top > 1 else range(top, bottom + 1)
        starts = range(left + 1, right - len(words) + 1)
        places = sorted(
            ((row, start) for row in inside for start in starts),
            key=lambda place: (
                abs(2 * place[0] - top - bottom),
                abs(2 * place[1] + len(words) - left - right - 1),
            ),
        )
        for row, start in places:
            if len(set(self.cells[row][start : start + len(words)])) == 1:
                self.write(start, row, words)
                return


def _draw(grid: _Grid, content: WallContent, signs: Signs, subject: str | None, cable: str | None) -> None:
    """From what lies behind to what must be seen."""
    for column, row, along, up in grid.middles():
        if any(item.zone.holds(along, up) for item in content.wall.taken):
            grid.cells[row][column] = signs.taken
        elif any(shade.region.holds(along, up) for shade in content.shades):
            grid.cells[row][column] = signs.reach
    things = tuple(_things(content, signs))
    for zone, characters, _ in things:
        grid.outline(zone, characters)
    if cable is not None:
        _way(grid, content, signs, cable)
    for item in content.wall.taken:
        grid.name(item.zone, f" {item.tag} ")
    for zone, _, words in things:
        grid.name(zone, words)
    _boxes(grid, content, signs, subject)


def _things(content: WallContent, signs: Signs) -> Iterator[tuple[Zone, str, str]]:
    """What is drawn as an outline: where, with which characters, and its name."""
    for cabinet in content.wall.cabinets:
        yield cabinet.zone, signs.dashed, cabinet.tag
    if content.hearth_zone is not None:
        yield content.hearth_zone, signs.wall, "range"
    if content.hood is not None:
        yield content.hood.body, signs.body, "hood"


def _boxes(grid: _Grid, content: WallContent, signs: Signs, subject: str | None) -> None:
    """Each box where its cables enter; the one that is asked about last, so that nothing hides it."""
    for device in sorted(content.devices, key=lambda item: item.enclosure == subject):
        column, row = grid.at(device.along_in, device.up_in)
        tag = f"[{device.enclosure}]" if device.enclosure == subject else device.enclosure
        if column + 1 + len(tag) > grid.columns:
            grid.write(column - len(tag), row, tag + signs.entry)
        else:
            grid.write(column, row, signs.entry + tag)


def _way(grid: _Grid, content: WallContent, signs: Signs, cable: str) -> None:
    level, upright, corner = tuple(signs.way)
    drawn: set[tuple[int, int]] = set()
    ends: list[tuple[int, int]] = []
    for piece in content.ways:
        if cable in piece.cables:
            (along, _, up), (other_along, _, other_up) = map(content.wall.local, (piece.start, piece.end))
            (x1, y1), (x2, y2) = grid.at(along, up), grid.at(other_along, other_up)
            ends += [(x1, y1), (x2, y2)]
            for column in range(min(x1, x2), max(x1, x2) + 1):
                for row in range(min(y1, y2), max(y1, y2) + 1):
                    grid.cells[row][column] = (
                        level if abs(along - other_along) > abs(up - other_up) else upright
                    )
                    drawn.add((column, row))
    for column, row in ends:
        beside = {(column - 1, row), (column + 1, row)} & drawn
        above = {(column, row - 1), (column, row + 1)} & drawn
        if beside and above:
            grid.cells[row][column] = corner


def _has_way(content: WallContent, cable: str) -> bool:
    return any(cable in piece.cables for piece in content.ways)
