"""The numbers of a plan view: running dimensions along the range wall and out from it, and its tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.running_dimensions import Row
from schedules.drawings.sheet_tables import SheetTable
from schedules.quantities.lengths import format_length
from schedules.site.routes import Route

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.floor_content import FloorContent
    from schedules.plan import Plan

_MEASURED = frozenset({"cabinet", "hung cabinet", "range", "hood"})
_NOISE_IN = 1e-6


def floor_rows(content: FloorContent) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """What is measured along the range wall and what out from it, all from its left corner."""
    return _rows(content, 0), _rows(content, 1)


def dimensioned(content: FloorContent) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The enclosures that must have a measure along, and those that must have one out, by their tags."""
    shown = [entry for entry in content.entries if not entry.far]
    along = tuple(entry.tag for entry in shown)
    return along, tuple(entry.tag for entry in shown if abs(entry.spot[1]) > _NOISE_IN)


def _rows(content: FloorContent, axis: int) -> tuple[Row, ...]:
    asked = dimensioned(content)[axis]
    boxes = [(entry.spot[axis], entry.tag) for entry in content.entries if entry.tag in asked]
    edges = [
        (value, thing.tag)
        for thing in content.things
        if thing.kind in _MEASURED
        for value in (
            (thing.zone.left, thing.zone.right) if axis == 0 else (thing.zone.bottom, thing.zone.top)
        )
        if abs(value) > _NOISE_IN
    ]
    openings = [
        (value, thing.tag)
        for thing in content.things
        if thing.kind in ("window", "door", "taken")
        for value in _faces(content, thing.tag, axis)
    ]
    corners = sorted(
        {(wall.end[axis], "corner") for wall in content.walls}
        | {(wall.start[axis], "corner") for wall in content.walls}
    )
    rows = (
        Row.of("boxes", boxes),
        Row.of("edges", edges + openings),
        Row.of("corners", corners),
    )
    return tuple(row for row in rows if row.marks)


def _faces(content: FloorContent, tag: str, axis: int) -> Iterator[float]:
    """Both sides of an opening where they are measured along this direction."""
    for wall in content.walls:
        for item in wall.taken:
            if item.tag == tag and abs(wall.right[axis]) > _NOISE_IN:
                yield from (wall.spot(side, 0.0, 0.0)[axis] for side in (item.zone.left, item.zone.right))


def floor_tables(plan: Plan, content: FloorContent) -> tuple[SheetTable, ...]:
    """The tables of a plan view, those without a row left out."""
    tables = (_walls(content), _openings(content), _boxes(content), _ways(plan))
    return tuple(table for table in tables if table.rows)


def _walls(content: FloorContent) -> SheetTable:
    rows = []
    for number, wall in enumerate(content.walls):
        after = content.walls[(number + 1) % len(content.walls)]
        rows.append(
            (
                wall.tag,
                "open side" if wall.open else "wall",
                format_length(wall.length_in),
                f"{format_length(wall.end[0])}, {format_length(wall.end[1])}",
                after.tag if number + 1 < len(content.walls) or after.start == wall.end else "",
                wall.lumber or "",
            )
        )
    heads = ("Wall", "What", "Length", "Right corner: along, out", "Then", "Studs")
    return SheetTable("walls", "Walls from left to right, seen from inside", heads, tuple(rows))


def _openings(content: FloorContent) -> SheetTable:
    rows = tuple(
        (
            item.tag,
            item.kind,
            wall.tag,
            f"{format_length(item.zone.left)} – {format_length(item.zone.right)}",
            f"{format_length(item.zone.bottom)} – {format_length(item.zone.top)}",
        )
        for wall in content.walls
        for item in wall.taken
    )
    title = "Doors, windows and what else is taken, along their own wall"
    return SheetTable("openings", title, ("Tag", "What", "Wall", "Left – right", "Bottom – top"), rows)


def _boxes(content: FloorContent) -> SheetTable:
    rows = tuple(
        (
            entry.tag,
            entry.name,
            entry.wall or "",
            format_length(entry.own[0]) if entry.wall else "",
            format_length(entry.spot[0]),
            format_length(entry.spot[1]),
            format_length(entry.spot[2]),
        )
        for entry in content.entries
    )
    heads = ("Box", "What", "On wall", "Along it", "Along", "Out", "Up")
    return SheetTable("boxes", "Boxes: where cables enter, from the datum", heads, rows)


def _ways(plan: Plan) -> SheetTable:
    lengths = {item.cable: item for item in plan.derived.lengths}
    rows = []
    for cable in plan.derived.selection.cables:
        route = lengths[cable.tag].route
        if isinstance(route, Route):
            ends = f"{cable.origin.enclosure} – {cable.target.enclosure}"
            rows.append((cable.tag, ends, route.kind, format_length(route.length_in)))
    return SheetTable(
        "ways", "Cables, and how long their ways are", ("Cable", "From – to", "Way", "Long"), tuple(rows)
    )
