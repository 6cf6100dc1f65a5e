"""The names on an elevation, each where no other words, box or hole are; every number stands round the wall besides."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt
from schedules.drawings.scaled_sheet import Anchor, Pen, Room, Turn, Type, room_of
from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.drawings.scaled_sheet import ScaledSheet
    from schedules.drawings.scales import Mapping
    from schedules.drawings.wall_content import Shade, WallContent

_TAG = Type(8.5, bold=True)
_NAME = Type(7.5)
_APART = 3.0
_STEPS = (0.0, 10.0, 20.0, 30.0, 45.0, 60.0)
_LEADER = Pen(0.5)
_OUTLINE_PT = 3.0

Place = tuple[float, float, Anchor]
"""A baseline's point [pt], and which end of the words stands there."""


def write_names(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    """Names of things, each where no other words stand; the numbers stand round the wall in any case."""
    for device in content.devices:
        if not content.first_in <= device.along_in <= content.last_in:
            continue
        x, y = mapping.at(device.along_in, device.up_in)
        zone = device.zone
        left, top = mapping.at(zone.left, zone.top)
        right, bottom = mapping.at(zone.right, zone.bottom)
        body = Room(min(left, x), min(top, y), max(right, x), max(bottom, y))
        write_beside(sheet, device.enclosure, (x, y), body)
    for hole in content.holes:
        x, y = mapping.at(hole.along_in, hole.up_in)
        radius = max((hole.diameter_in or 0.0) / 2 * mapping.points_per_in, 3.0) + 1.5
        over = -18.0 if hole.member == "top plate" else -radius - 1
        spots: list[Place] = [
            (x, y + over, "middle"),
            (x, y + over - 9, "middle"),
            (x + radius, y + 7, "start"),
            (x - radius, y + 7, "end"),
            (x + radius, y - 3, "start"),
            (x - radius, y - 3, "end"),
        ]
        if not write_near(sheet, f"tag-{hole.tag}", hole.tag, _NAME, spots):
            body = Room(x - radius, y - radius, x + radius, y + radius)
            write_beside(sheet, hole.tag, (x, y), body, "rlba", kind=_NAME)
    for name, words, whole in _named(content):
        zone = Zone(
            max(whole.left, content.first_in), min(whole.right, content.last_in), whole.bottom, whole.top
        )
        cut = zone != whole
        if cut and zone.width * mapping.points_per_in < width_pt(words, _NAME.pt):
            continue
        x, y = mapping.at(*zone.centre)
        top = mapping.at(0, zone.top)[1]
        middle: list[Place] = [
            (x, y + 3, "middle"),
            (x, top + 9, "middle"),
            (x, mapping.at(0, zone.bottom)[1] - 3, "middle"),
        ]
        write_near(sheet, f"name-{name}", words, _NAME, middle)
    _way_words(sheet, mapping, content)


def _named(content: WallContent) -> list[tuple[str, str, Zone]]:
    named = [(item.tag, f"{item.kind} {item.tag}", item.zone) for item in content.wall.taken]
    named += [(item.tag, f"cabinet {item.tag}", item.zone) for item in content.wall.cabinets]
    named += [
        (f"reach-{shade.cable}", f"{shade.mover} may stand here: {shade.cable} reaches", _widest(shade))
        for shade in content.shades
    ]
    if content.hood is not None:
        named.append(("hood", "hood", content.hood.body))
        named.append(("service", "comes down for service", content.hood.service))
    hearth = content.hearth_zone
    if hearth is not None:
        named.append(("range", "range", Zone(hearth.left, hearth.right, hearth.top / 2, hearth.top)))
    return named


def _widest(shade: Shade) -> Zone:
    """The largest cell that is wholly reached, else the largest of all."""
    cells = [cell for cell in shade.region.cells if cell.allowed and any(True for _ in cell.pieces())]
    return max(
        cells, key=lambda cell: (not cell.unreached, cell.zone.width * min(cell.zone.height, 20.0))
    ).zone


def _way_words(sheet: ScaledSheet, mapping: Mapping, content: WallContent) -> None:
    """What lies on each piece of way beside it, the longest piece of each set first, off the hood's outline."""
    told: set[tuple[str, ...]] = set()
    outline = _hood_outline(mapping, content)
    order = sorted(range(len(content.ways)), key=lambda n: -content.ways[n].length_in)
    for number in order:
        piece = content.ways[number]
        runs = content.runs(piece)
        if runs in told:
            continue
        (x1, y1), (x2, y2) = (
            mapping.at(min(max(along, content.first_in), content.last_in), up)
            for along, _, up in (content.wall.local(piece.start), content.wall.local(piece.end))
        )
        words = " ".join(runs)
        places: list[Place] = []
        for share in (0.5, 0.25, 0.75, 0.1, 0.9):
            x, y = x1 + share * (x2 - x1), y1 + share * (y2 - y1)
            if x1 == x2:
                places += [(x + 4, y + 3, "start"), (x - 4, y + 3, "end")]
            else:
                places += [(x, y - 4, "middle"), (x, y + 10, "middle")]
        places.sort(key=partial(_hides, outline, words))
        if write_near(sheet, f"way-name-{number}", words, _NAME, places):
            told.add(runs)


def _hides(outline: tuple[Room, ...], words: str, place: Place) -> bool:
    """Whether words at a place would lie over a side of the hood."""
    x, y, anchor = place
    return any(map(room_of(words, (x, y), _NAME, anchor).meets, outline))


def _hood_outline(mapping: Mapping, content: WallContent) -> tuple[Room, ...]:
    """The four sides of the hood's body as they are drawn."""
    if content.hood is None:
        return ()
    body = content.hood.body
    (left, top), (right, bottom) = mapping.at(body.left, body.top), mapping.at(body.right, body.bottom)
    near = _OUTLINE_PT / 2
    return (
        Room(left - near, top - near, left + near, bottom + near),
        Room(right - near, top - near, right + near, bottom + near),
        Room(left - near, top - near, right + near, top + near),
        Room(left - near, bottom - near, right + near, bottom + near),
    )


def write_beside(
    sheet: ScaledSheet,
    tag: str,
    at: tuple[float, float],
    body: Room,
    sides: str = "rlab",
    *,
    kind: Type = _TAG,
) -> None:
    """Write a thing's tag beside it; further off, at the end of a thin line, where others stand there.

    at: the point that is named; body: what the thing covers [pt]. sides: right, left, above, below, as preferred.
    """
    name = f"tag-{tag}"
    x, y = at
    for step in _STEPS:
        places: dict[str, Place] = {
            "r": (body.right + 3 + step, y + 3, "start"),
            "l": (body.left - 3 - step, y + 3, "end"),
            "a": (x, body.top - 3 - step, "middle"),
            "b": (x, body.bottom + 9 + step, "middle"),
        }
        for side in sides:
            if write_near(sheet, name, tag, kind, [places[side]]):
                if step:
                    end = {
                        "r": (body.right + 2 + step, y),
                        "l": (body.left - 2 - step, y),
                        "a": (x, body.top - 2 - step),
                        "b": (x, body.bottom + 2 + step),
                    }[side]
                    sheet.line(f"{name}-lead", at, end, _LEADER)
                return


def write_near(
    sheet: ScaledSheet, name: str, words: str, kind: Type, places: list[Place], *, turn: Turn = 0
) -> bool:
    """Write words at the first of these places that is free; whether one was."""
    for x, y, anchor in places:
        if sheet.free(room_of(words, (x, y), kind, anchor, turn), _APART):
            sheet.write(name, (x, y), words, kind, anchor=anchor, turn=turn, ground=True)
            return True
    return False
