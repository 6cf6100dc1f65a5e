"""The rows of running dimensions round an elevation: what is measured along and what up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.running_dimensions import Row

if TYPE_CHECKING:
    from schedules.drawings.wall_content import WallContent


def along_rows(content: WallContent) -> tuple[Row, ...]:
    """From the left corner: boxes, holes, studs, edges, the whole."""
    rows = (
        Row.of("boxes", [(device.along_in, device.enclosure) for device in content.devices]),
        Row.of(
            "holes",
            [
                *((hole.along_in, hole.tag) for hole in content.holes),
                *((along, f"K{n}") for n, (along, _) in enumerate(_bracket(content), start=1)),
            ],
        ),
        Row.of("studs", [(stud.centre_in, "") for stud in content.wall.studs]),
        Row.of("edges", [*_edges(content, across=True), (content.wall.length_in, "corner")]),
    )
    return tuple(row for row in rows if row.marks)


def up_rows(content: WallContent) -> tuple[Row, ...]:
    """From the floor: boxes, holes in studs and of the bracket, edges, the ceiling."""
    rows = (
        Row.of("boxes", [(device.up_in, device.enclosure) for device in content.devices]),
        Row.of(
            "holes",
            [
                *((hole.up_in, hole.tag) for hole in content.holes if hole.member == "stud"),
                *((up, f"K{n}") for n, (_, up) in enumerate(_bracket(content), start=1)),
            ],
        ),
        Row.of("edges", [*_edges(content, across=False), (content.height_in, "ceiling")]),
    )
    return tuple(row for row in rows if row.marks)


def _bracket(content: WallContent) -> tuple[tuple[float, float], ...]:
    return content.hood.holes if content.hood is not None else ()


def _edges(content: WallContent, *, across: bool) -> list[tuple[float, str]]:
    """Both edges of everything that is drawn as a rectangle, the boxes apart."""
    zones = [(item.tag, item.zone) for item in content.wall.taken]
    zones += [(item.tag, item.zone) for item in content.wall.cabinets]
    found = [
        (value, tag)
        for tag, zone in zones
        for value in ((zone.left, zone.right) if across else (zone.bottom, zone.top))
    ]
    hood = content.hood
    if hood is not None:
        body = hood.body
        found += [
            (value, "hood") for value in ((body.left, body.right) if across else (body.bottom, body.top))
        ]
        if not across:
            found.append((hood.cooking_surface_in, "range"))
        else:
            found.append((hood.centre_in, "hood mid"))
    hearth = content.hearth_zone
    if across and hearth is not None:
        found += [(hearth.left, "range"), (hearth.right, "range")]
    return [(value, tag) for value, tag in found if value >= 0]
