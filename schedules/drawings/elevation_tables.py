"""The tables beside an elevation: where each box stands, where each hole is bored, which way each cable goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.sheet_tables import SheetTable
from schedules.quantities.lengths import format_length
from schedules.site.routes import Route

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.wall_content import WallContent
    from schedules.framing.bored_holes import BoredHole
    from schedules.plan import Plan
    from schedules.site.wall_devices import WallDevice


def tables_of(plan: Plan, content: WallContent) -> tuple[SheetTable, ...]:
    """The tables of one wall, those without a row left out."""
    tables = (_boxes(content), _holes(content), _bracket(content), _ways(plan, content))
    return tuple(table for table in tables if table.rows)


def _boxes(content: WallContent) -> SheetTable:
    return SheetTable(
        "boxes",
        "Boxes: where cables enter, and the part of the wall taken",
        ("Box", "What", "Along", "Up", "Left – right", "Bottom – top", "Set"),
        tuple(_box(content, device) for device in content.devices),
    )


def _box(content: WallContent, device: WallDevice) -> tuple[str, ...]:
    zone = device.zone
    is_hood = content.hood is not None and content.hood.enclosure == device.enclosure
    spans = ("", "")
    if device.sized and not is_hood:
        spans = (
            f"{format_length(zone.left)} – {format_length(zone.right)}",
            f"{format_length(zone.bottom)} – {format_length(zone.top)}",
        )
    set_in = {True: "in the wall", False: "on the wall", None: ""}[device.flush]
    if device.out_in > 0 and not device.flush:
        set_in = f"{format_length(device.out_in)} out"
    return (
        device.enclosure,
        device.name,
        format_length(device.along_in),
        format_length(device.up_in),
        *spans,
        "hood" if is_hood else set_in,
    )


def _holes(content: WallContent) -> SheetTable:
    bare = any(content.bare)
    heads = ("Hole", "Through", "Along", "Up", *(("Along*", "Up*") if bare else ()), "Bore", "For", "Then")
    title = "Holes to bore, mid-depth"
    return SheetTable(
        "holes",
        f"{title}; * from bare corner, subfloor" if bare else title,
        heads,
        tuple(_hole(content, hole) for hole in content.holes),
    )


def _hole(content: WallContent, hole: BoredHole) -> tuple[str, ...]:
    out, up = content.bare
    in_stud = hole.member == "stud"
    bare = (format_length(hole.along_in + out), format_length(hole.up_in + up) if in_stud else "")
    lumber = hole.plan.framing.lumber if hole.plan is not None else ""
    return (
        hole.tag,
        f"{lumber} {hole.member}".strip(),
        format_length(hole.along_in),
        format_length(hole.up_in) if in_stud else "",
        *(bare if any(content.bare) else ()),
        format_length(hole.diameter_in) if hole.diameter_in is not None else f"measure {hole.passes}",
        hole.passes,
        ", ".join(_then(hole)),
    )


def _then(hole: BoredHole) -> Iterator[str]:
    if hole.plan is not None and not hole.plan.allowed:
        yield "NOT ALLOWED"
    if hole.steel:
        yield "steel plate"
    if hole.tied:
        yield "tie across"


def _bracket(content: WallContent) -> SheetTable:
    holes = content.hood.holes if content.hood is not None else ()
    up = content.bare[1]
    heads = ("Bracket", "Along", "Up", *(("Up*",) if up else ()), "On")
    rows = tuple(
        (
            f"K{number}",
            format_length(along),
            format_length(high),
            *((format_length(high + up),) if up else ()),
            _wood(content, along),
        )
        for number, (along, high) in enumerate(holes, start=1)
    )
    title = "Holes of the hood's bracket"
    return SheetTable("bracket", f"{title}; * from the subfloor" if up else title, heads, rows)


def _wood(content: WallContent, along: float) -> str:
    """Which stud a bracket's hole meets, as far as studs were measured."""
    stud = next((item for item in content.wall.studs if item.left_in <= along <= item.right_in), None)
    if stud is not None:
        return f"stud at {format_length(stud.centre_in)}"
    return "a block, no stud" if content.wall.studs else "studs not measured"


def _ways(plan: Plan, content: WallContent) -> SheetTable:
    """Every cable that runs in this wall."""
    here = {tag for piece in content.ways for tag in piece.cables}
    lengths = {item.cable: item for item in plan.derived.lengths}
    rows = []
    for cable in plan.derived.selection.cables:
        route = lengths[cable.tag].route
        if cable.tag in here and isinstance(route, Route):
            raceways = ", ".join(
                f"{item.raceway}: {item.kind} {item.size or 'of unknown size'}"
                for item in plan.derived.raceways
                if cable.tag in item.cables
            )
            ends = f"{cable.origin.enclosure} – {cable.target.enclosure}"
            rows.append((cable.tag, ends, cable.type, route.kind, raceways))
    return SheetTable(
        "ways", "Cables in this wall", ("Cable", "From – to", "Type", "Way", "Raceway"), tuple(rows)
    )
