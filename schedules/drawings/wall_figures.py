"""What an elevation shows within the wall's outline, drawn to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ink import INK, PAPER, SOFT_INK
from schedules.drawings.scaled_sheet import Pen, Room, Type
from schedules.drawings.wall_words import write_names
from schedules.quantities.lengths import format_length
from schedules.site.polygons import rectangle

if TYPE_CHECKING:
    from schedules.drawings.scaled_sheet import Anchor, ScaledSheet
    from schedules.drawings.scales import Mapping
    from schedules.drawings.wall_content import Shade, WallContent
    from schedules.site.polygons import Point, Polygon
    from schedules.site.zones import Zone

_OUTLINE = Pen(1.6)
_STUD = Pen(0.35, colour=SOFT_INK)
_CENTRE = Pen(0.25, dashes=(6, 2, 1, 2), colour=SOFT_INK)
_BOX = Pen(1.3, fill=PAPER)
_HOLE = Pen(0.7, fill=PAPER)
_CROSS = Pen(0.4)
_BODY = Pen(1.3)
_DASHED = Pen(0.7, dashes=(4, 2.5))
_DOTTED = Pen(0.7, dashes=(1, 2))
_REACH_END = Pen(1.0, dashes=(5, 2))
_CROSS_ARM = 4.0
_NOISE_IN = 1e-6
_TOP_PLATES_IN = 3.0
_BOTTOM_PLATE_IN = 1.5
ABOVE_WALL_PT = 30.0
"""What stands over the ceiling's line: arrows and the names of holes [pt]."""
ABOVE_PART_PT = 42.0
"""The same with the names of match lines [pt]."""
_BEYOND_CORNER = 14.0
_MATCH = Pen(1.1, dashes=(12, 3, 2, 3))
_MATCH_WORDS = Type(7.5, bold=True)
_PAST_CEILING = 16.0
_PAST_FLOOR = 9.0


def draw_wall(
    sheet: ScaledSheet, mapping: Mapping, content: WallContent, matches: tuple[float, ...] = ()
) -> None:
    """Draw one wall, or its part between the match lines, from what lies behind to what stands before it.

    matches: along the wall [in].
    """
    sheet.hatch("taken", 5.0, 45.0, 0.5, SOFT_INK)
    if not matches:
        _draw(sheet, mapping, content)
        return
    left, top = mapping.at(content.first_in, content.height_in)
    right, floor = mapping.at(content.last_in, 0.0)
    # The corner of the wall is not cut off, nor the line of the floor beyond it.
    outer = Room(
        left - (_BEYOND_CORNER if content.first_in <= 0 else 0.0),
        top - ABOVE_PART_PT,
        right + (_BEYOND_CORNER if content.last_in >= content.wall.length_in else 0.0),
        floor + _PAST_FLOOR + 1,
    )
    with sheet.clipped("part", outer):
        _draw(sheet, mapping, content)
    for number, at in enumerate(matches):
        x = mapping.at(at, 0.0)[0]
        words = f"match line {format_length(at)}"
        sheet.line(f"match-{number}", (x, top - ABOVE_PART_PT + 10), (x, floor + _PAST_FLOOR), _MATCH)
        side: Anchor = "end" if at > (content.first_in + content.last_in) / 2 else "start"
        sheet.write(f"match-name-{number}", (x, top - ABOVE_PART_PT + 7), words, _MATCH_WORDS, anchor=side)


def _draw(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    _frame(sheet, mapping, content)
    for number, shade in enumerate(content.shades):
        _shade(sheet, mapping, shade, number)
    _furniture(sheet, mapping, content)
    _ways(sheet, mapping, content)
    _hood(sheet, mapping, content)
    _boxes(sheet, mapping, content)
    _holes(sheet, mapping, content)
    write_names(sheet, mapping, content)


def _frame(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    wall = content.wall
    left, top = mapping.at(0.0, content.height_in)
    right, floor = mapping.at(wall.length_in, 0.0)
    for number, stud in enumerate(wall.studs):
        low = mapping.at(stud.left_in, content.height_in)
        high = mapping.at(stud.right_in, 0.0)
        sheet.rectangle(f"stud-{number}", low, high, _STUD)
        sheet.line(
            f"stud-middle-{number}",
            mapping.at(stud.centre_in, content.height_in),
            mapping.at(stud.centre_in, 0.0),
            _CENTRE,
        )
    if wall.studs:
        plates = _TOP_PLATES_IN * mapping.points_per_in, _BOTTOM_PLATE_IN * mapping.points_per_in
        sheet.rectangle("top-plate", (left, top - plates[0]), (right, top), _STUD)
        sheet.rectangle("bottom-plate", (left, floor - plates[1]), (right, floor), _STUD)
    sheet.rectangle("wall", (left, top), (right, floor), _OUTLINE)
    sheet.line("floor", (left - _BEYOND_CORNER, floor), (right + _BEYOND_CORNER, floor), Pen(2.2))


def _furniture(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    for item in content.wall.taken:
        _zone(sheet, mapping, f"taken-{item.tag}", item.zone, Pen(0.9, fill="[taken]"))
    for cabinet in content.wall.cabinets:
        _zone(sheet, mapping, f"cabinet-{cabinet.tag}", cabinet.zone, _DASHED)
    hearth = content.hearth_zone
    if hearth is not None:
        _zone(sheet, mapping, "range", hearth, _DASHED)


def _hood(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    hood = content.hood
    if hood is None:
        return
    _zone(sheet, mapping, "service", hood.service, _DOTTED)
    _zone(sheet, mapping, "hood", hood.body, _BODY)
    sheet.line(
        "hood-middle",
        mapping.at(hood.centre_in, hood.body.top),
        mapping.at(hood.centre_in, hood.service.bottom),
        _CENTRE,
    )
    for number, (along, up) in enumerate(hood.holes, start=1):
        _cross(sheet, f"bracket-K{number}", mapping.at(along, up))
        sheet.circle(f"bracket-K{number}", mapping.at(along, up), 1.6, _HOLE)


def _boxes(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    hood = content.hood.enclosure if content.hood is not None else None
    for device in content.devices:
        if device.sized and device.enclosure != hood:
            _zone(sheet, mapping, f"box-{device.enclosure}", device.zone, _BOX)
            if device.flush:
                _zone(sheet, mapping, f"set-in-{device.enclosure}", device.zone.grown(-0.35), Pen(0.5))
            _keep(
                sheet,
                mapping.at(device.zone.left, device.zone.top),
                mapping.at(device.zone.right, device.zone.bottom),
            )
        x, y = mapping.at(device.along_in, device.up_in)
        sheet.circle(f"entry-{device.enclosure}", (x, y), 1.7, Pen(0.5, fill=INK))
        _keep(sheet, (x - 2, y - 2), (x + 2, y + 2))


def _holes(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    for hole in content.holes:
        at = mapping.at(hole.along_in, hole.up_in)
        radius = (hole.diameter_in or 0.0) / 2 * mapping.points_per_in
        sheet.circle(f"hole-{hole.tag}", at, radius, _HOLE)
        _cross(sheet, f"hole-{hole.tag}", at)


def _cross(sheet: ScaledSheet, name: str, at: tuple[float, float]) -> None:
    x, y = at
    _keep(sheet, (x - 3, y - 3), (x + 3, y + 3))
    sheet.line(f"{name}-across", (x - _CROSS_ARM, y), (x + _CROSS_ARM, y), _CROSS)
    sheet.line(f"{name}-up", (x, y - _CROSS_ARM), (x, y + _CROSS_ARM), _CROSS)


def _ways(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    """A way as a line; in raceway, in cabinets or on the wall as a double one; past ceiling and floor an arrow."""
    wall = content.wall
    for number, piece in enumerate(content.ways):
        points = [mapping.at(spot[0], spot[2]) for spot in (wall.local(piece.start), wall.local(piece.end))]
        in_raceway = not set(content.runs(piece)) & set(piece.cables)
        wide = in_raceway or piece.medium in ("in cabinets", "on the wall")
        sheet.chain(f"way-{number}", points, Pen(3.4 if wide else 1.8))
        if wide:
            sheet.chain(f"way-core-{number}", points, Pen(1.8, colour=PAPER))
    for hole in content.holes:
        if hole.member != "stud":
            _leaves(
                sheet, mapping, f"leaves-{hole.tag}", hole.along_in, hole.up_in, up=hole.member == "top plate"
            )


def _leaves(
    sheet: ScaledSheet, mapping: Mapping, name: str, along_in: float, up_in: float, *, up: bool
) -> None:
    x, y = mapping.at(along_in, up_in)
    tip = y - _PAST_CEILING if up else y + _PAST_FLOOR
    back = 4.0 if up else -4.0
    sheet.chain(name, [(x, y), (x, tip)], Pen(0.8))
    sheet.chain(f"{name}-tip", [(x - 2, tip + back), (x, tip), (x + 2, tip + back)], Pen(0.8))


def _shade(sheet: ScaledSheet, mapping: Mapping, shade: Shade, number: int) -> None:
    """Hatch what of each cell is reached, and outline it where the cable ends."""
    name = f"reach-{shade.cable}"
    sheet.hatch(name, 7.0, -45.0 if number % 2 else 20.0, 0.45)
    outlines: list[list[tuple[float, float]]] = []
    for cell in shade.region.cells:
        if not cell.allowed or not any(True for _ in cell.pieces()):
            continue
        outlines.append(_laid(mapping, rectangle(cell.zone)))
        if cell.unreached:
            outlines.append(_laid(mapping, cell.unreached))
    sheet.shape(name + "-region", outlines, Pen(0.0, fill=f"[{name}]"))
    ends = [edge for cell in shade.region.cells if cell.allowed for edge in _slants(cell.unreached)]
    for place, (a, b) in enumerate(ends):
        sheet.line(f"{name}-end-{place}", mapping.at(*a), mapping.at(*b), _REACH_END)


def _slants(polygon: Polygon) -> list[tuple[Point, Point]]:
    """The sides of what isn't reached that lie neither level nor upright: there the cable ends."""
    sides = zip(polygon, polygon[1:] + polygon[:1], strict=True)
    return [(a, b) for a, b in sides if abs(a[0] - b[0]) > _NOISE_IN and abs(a[1] - b[1]) > _NOISE_IN]


def _laid(mapping: Mapping, points: tuple[Point, ...]) -> list[tuple[float, float]]:
    return [mapping.at(*point) for point in points]


def _zone(sheet: ScaledSheet, mapping: Mapping, name: str, zone: Zone, pen: Pen) -> None:
    sheet.rectangle(name, mapping.at(zone.left, zone.top), mapping.at(zone.right, zone.bottom), pen)


def _keep(sheet: ScaledSheet, left_upper: tuple[float, float], right_lower: tuple[float, float]) -> None:
    """Keep words off a part of the sheet."""
    sheet.kept.append(Room(*left_upper, *right_lower))
