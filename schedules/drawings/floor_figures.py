"""What a plan view shows, drawn to scale: walls, openings, cabinets, range, hood, boxes and the cables' ways."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.drawings.floor_content import thickness
from schedules.drawings.ink import INK, PAPER, SOFT_INK
from schedules.drawings.scaled_sheet import Pen, Room, Type
from schedules.drawings.wall_words import write_beside, write_near
from schedules.quantities.lengths import format_length
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.drawings.floor_content import Entry, FloorContent, Kind
    from schedules.drawings.scaled_sheet import ScaledSheet
    from schedules.drawings.scales import Mapping
    from schedules.drawings.wall_words import Place
    from schedules.site.legs import Medium
    from schedules.site.room import PlacedWall

_FACE = Pen(1.6)
_OPEN = Pen(1.0, dashes=(10, 4, 2, 4))
_PENS: dict[Kind, Pen] = {
    "cabinet": Pen(0.8),
    "hung cabinet": Pen(0.7, dashes=(4, 2.5)),
    "range": Pen(1.1),
    "hood": Pen(1.1, dashes=(6, 2)),
    "window": Pen(0.9, fill=PAPER),
    "door": Pen(0.9, dashes=(2, 2), fill=PAPER),
    "taken": Pen(0.9, fill="[taken]"),
    "box": Pen(1.2, fill=PAPER),
}
_IN_WALL = Pen(3.4, colour="#8a8a8a")
_WAYS: dict[Medium, Pen] = {
    "above the ceiling": Pen(1.5, dashes=(7, 3)),
    "below the floor": Pen(1.7, dashes=(1.5, 2.5)),
    "in raceway": Pen(3.4),
    "in the open": Pen(1.0),
}
_NAME = Type(7.5)
_WALL = Type(8.5, bold=True)
_OUTSIDE = 4.0
_ARROW = 11.0
_BARB = 5.0
_CLEAR_OF_WALL = 24.0
EDGE_ROOM_PT = 14.0
"""What is kept free round the walls for their names [pt]."""


def draw_floor(sheet: ScaledSheet, mapping: Mapping, content: FloorContent) -> None:
    """Draw the kitchen from above, from the walls to what stands and runs before them."""
    sheet.hatch("taken", 4.0, 45.0, 0.5, SOFT_INK)
    sheet.hatch("solid", 2.5, -45.0, 0.35, SOFT_INK)
    for wall in content.walls:
        if not wall.open:
            _band(sheet, mapping, content, wall)
    for wall in content.walls:
        ends = [mapping.at(*wall.start), mapping.at(*wall.end)]
        sheet.chain(f"wall-{wall.tag}", ends, _OPEN if wall.open else _FACE)
    for thing in content.things:
        if thing.kind != "box":
            _rectangle(
                sheet, mapping, f"{thing.kind.replace(' ', '-')}-{thing.tag}", thing.zone, _PENS[thing.kind]
            )
    bounds = content.bounds
    left, top = mapping.at(bounds.left, bounds.bottom)
    right, bottom = mapping.at(bounds.right, bounds.top)
    edge = EDGE_ROOM_PT
    with sheet.clipped("drawn", Room(left - edge, top - edge, right + edge, bottom + edge)):
        _ways(sheet, mapping, content)
        _entries(sheet, mapping, content)
        _names(sheet, mapping, content)


def _band(sheet: ScaledSheet, mapping: Mapping, content: FloorContent, wall: PlacedWall) -> None:
    """A wall's thickness, out to the next one's at an inside corner."""
    thick = thickness(wall)
    number = content.walls.index(wall)
    before, after = content.walls[number - 1], content.walls[(number + 1) % len(content.walls)]
    left = -thickness(before) if _turns_in(before, wall) and not before.open else 0.0
    right = wall.length_in + (thickness(after) if _turns_in(wall, after) and not after.open else 0.0)
    one, other = wall.spot(left, -thick, 0.0), wall.spot(right, 0.0, 0.0)
    zone = Zone(*sorted((one[0], other[0])), *sorted((one[1], other[1])))
    _rectangle(sheet, mapping, f"band-{wall.tag}", zone, Pen(0.3, colour=SOFT_INK, fill="[solid]"))


def _turns_in(wall: PlacedWall, after: PlacedWall) -> bool:
    """Whether the next wall begins where this one ends and comes towards the room."""
    meets = max(abs(a - b) for a, b in zip(wall.end, after.start, strict=True)) < 1.0
    return meets and after.right == wall.inward


def _ways(sheet: ScaledSheet, mapping: Mapping, content: FloorContent) -> None:
    """In walls grey and broad, so that what runs above or below over the same line shows on it."""
    order = sorted(enumerate(content.level), key=lambda item: item[1].medium in _WAYS)
    for number, piece in order:
        pen = _WAYS.get(piece.medium, _IN_WALL)
        sheet.chain(f"way-{number}", [mapping.at(*spot[:2]) for spot in (piece.start, piece.end)], pen)
        if piece.medium == "in raceway":
            ends = [mapping.at(*spot[:2]) for spot in (piece.start, piece.end)]
            sheet.chain(f"way-core-{number}", ends, Pen(1.8, colour=PAPER))
    for place, spot in enumerate(dict.fromkeys(piece.start[:2] for piece in content.risers)):
        sheet.circle(f"riser-{place}", mapping.at(*spot), 2.6, Pen(0.8, fill=PAPER))


def _entries(sheet: ScaledSheet, mapping: Mapping, content: FloorContent) -> None:
    for thing in content.things:
        if thing.kind == "box":
            _rectangle(sheet, mapping, f"box-{thing.tag}", thing.zone, _PENS["box"])
    for entry in content.entries:
        if entry.far:
            _points_to(sheet, mapping, content, entry)
            continue
        x, y = mapping.at(*entry.spot[:2])
        sheet.circle(f"entry-{entry.tag}", (x, y), 1.7, Pen(0.5, fill=INK))
        sheet.kept.append(Room(x - 2, y - 2, x + 2, y + 2))


def _points_to(sheet: ScaledSheet, mapping: Mapping, content: FloorContent, entry: Entry) -> None:
    """An arrow at the drawing's edge, to what stands beyond it."""
    bounds = content.bounds
    at = (
        min(max(entry.spot[0], bounds.left), bounds.right),
        min(max(entry.spot[1], bounds.bottom), bounds.top),
    )
    x, y = mapping.at(*at)
    dx = (entry.spot[0] > bounds.right) - (entry.spot[0] < bounds.left)
    dy = (entry.spot[1] > bounds.top) - (entry.spot[1] < bounds.bottom)
    long = math.hypot(dx, dy)
    ahead = (dx / long, dy / long)
    tip = (x + ahead[0] * _ARROW, y + ahead[1] * _ARROW)
    sheet.chain(f"far-{entry.tag}", [(x, y), tip], Pen(1.2))
    barbs = [
        (
            tip[0] - ahead[0] * _BARB + side * ahead[1] * _BARB / 2,
            tip[1] - ahead[1] * _BARB - side * ahead[0] * _BARB / 2,
        )
        for side in (-1, 1)
    ]
    sheet.chain(f"far-{entry.tag}-tip", [barbs[0], tip, barbs[1]], Pen(1.2))
    words = f"{entry.tag}: {format_length(entry.spot[0])} along, {format_length(entry.spot[1])} out"
    sides: list[Place] = []
    for down in (-5, 12, -15, 22, -25, 32, -35, 42):
        sides += [(x - _CLEAR_OF_WALL, y + down, "end"), (x + _CLEAR_OF_WALL, y + down, "start")]
    write_near(sheet, f"tag-{entry.tag}", words, _NAME, sides)


def _names(sheet: ScaledSheet, mapping: Mapping, content: FloorContent) -> None:
    for wall in content.walls:
        _wall_name(sheet, mapping, wall)
    for entry in content.entries:
        if not entry.far:
            _entry_name(sheet, mapping, content, entry)
    for thing in content.things:
        if thing.kind != "box":
            x, y = mapping.at(*thing.zone.centre)
            places: list[Place] = [(x, y + 3 + down, "middle") for down in (0, 10, -10, 20, -20, 30)]
            places += [
                (mapping.at(thing.zone.right, 0.0)[0] + 3, y + 3, "start"),
                (mapping.at(thing.zone.left, 0.0)[0] - 3, y + 3, "end"),
            ]
            write_near(sheet, f"name-{thing.kind}-{thing.tag}", thing.words, _NAME, places)
    _way_names(sheet, mapping, content)


def _wall_name(sheet: ScaledSheet, mapping: Mapping, wall: PlacedWall) -> None:
    """Outside the wall where there is room, else inside; upright walls have theirs on end."""
    words = f"{'open side' if wall.open else 'wall'} {wall.tag}  {format_length(wall.length_in)}"
    thick = 0.0 if wall.open else thickness(wall)
    level = abs(wall.right[0]) > 0
    for out, side in ((-thick, -1), (0.0, 1)):
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            x, y = mapping.at(*wall.spot(share * wall.length_in, out, 0.0)[:2])
            x += side * wall.inward[0] * _OUTSIDE
            y += side * wall.inward[1] * _OUTSIDE
            # A baseline lies at the lower edge of words, at their right one where they stand on end.
            if level:
                place: Place = (x, y + (8 if side * wall.inward[1] > 0 else 0), "middle")
            else:
                place = (x + (8 if side * wall.inward[0] > 0 else 0), y, "middle")
            if write_near(sheet, f"name-wall-{wall.tag}", words, _WALL, [place], turn=0 if level else -90):
                return


def _entry_name(sheet: ScaledSheet, mapping: Mapping, content: FloorContent, entry: Entry) -> None:
    x, y = mapping.at(*entry.spot[:2])
    box = next((item for item in content.things if item.kind == "box" and item.tag == entry.tag), None)
    zone = box.zone if box is not None else Zone(entry.spot[0], entry.spot[0], entry.spot[1], entry.spot[1])
    left, top = mapping.at(zone.left, zone.bottom)
    right, bottom = mapping.at(zone.right, zone.top)
    body = Room(min(left, x), min(top, y), max(right, x), max(bottom, y))
    write_beside(sheet, entry.tag, (x, y), body, "brla")


def _way_names(sheet: ScaledSheet, mapping: Mapping, content: FloorContent) -> None:
    """What lies on each piece of way beside it, the longest piece of each set first."""
    told: set[tuple[str, ...]] = set()
    for number in sorted(range(len(content.level)), key=lambda n: -content.level[n].length_in):
        piece = content.level[number]
        runs = content.runs(piece)
        if runs in told:
            continue
        x1, y1 = mapping.at(*piece.start[:2])
        x2, y2 = mapping.at(*piece.end[:2])
        level: list[Place] = []
        upright: list[Place] = []
        for share in (0.5, 0.25, 0.75, 0.1, 0.9):
            x, y = x1 + share * (x2 - x1), y1 + share * (y2 - y1)
            level += [(x, y - 4, "middle"), (x, y + 11, "middle")]
            upright += [(x - 4, y, "middle"), (x + 11, y, "middle")]
        words = " ".join(runs)
        stands = abs(x2 - x1) < abs(y2 - y1)
        if write_near(
            sheet, f"way-name-{number}", words, _NAME, upright if stands else level, turn=-90 if stands else 0
        ):
            told.add(runs)


def _rectangle(sheet: ScaledSheet, mapping: Mapping, name: str, zone: Zone, pen: Pen) -> None:
    sheet.rectangle(name, mapping.at(zone.left, zone.bottom), mapping.at(zone.right, zone.top), pen)
