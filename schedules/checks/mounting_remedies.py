"""What cures a hood's height, its fasteners, and a box without room, as edits that can be planned again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.mounting.bracket import NDS, fasten, studs_behind
from schedules.mounting.fasteners import fastener_names
from schedules.mounting.hanging import underside
from schedules.quantities.lengths import format_length
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.job.mechanical import Space
    from schedules.mounting.bracket import Fastening
    from schedules.mounting.hanging import Hanging

_SIDES = ("width", "height", "depth")
_STEP_IN = 1 / 8
"""A hood is hung to eighths of an inch."""
_SCREW_STEP_IN = 0.5
_LONGEST_SCREW_IN = 4.0
"""Wood screws are sold by half inches, and no thread of one that is longer is carried."""


def fastener_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The shortest longer one of the same fastener that holds the hood in service, and the thinnest thicker one."""
    hung = derived.job.mounting
    if hung.fastener is None or hung.fastener_length is None:
        return
    names = fastener_names(NDS)
    if hung.fastener not in names:
        return
    longer = [(hung.fastener, length) for length in _lengths(hung.fastener) if length > hung.fastener_length]
    kind = load("nds_fasteners").row(hung.fastener).text("kind")
    thicker = [
        (name, length)
        for name in names[names.index(hung.fastener) + 1 :]
        if load("nds_fasteners").row(name).text("kind") == kind
        for length in _lengths(name)
        if length >= hung.fastener_length
    ]
    offered = [
        found
        for choices in (longer, thicker)
        if (found := next((item for item in choices if _holds(derived, *item)), None)) is not None
    ]
    for name, length in offered:
        long = format_length(length)
        thick = () if name == hung.fastener else (Edit("mounting", None, "fastener", name),)
        yield Remedy(f"use {name} x {long}", (*thick, Edit("mounting", None, "fastener_length", long)))
    fastening = None if derived.hanging is None else derived.hanging.fastening
    if not offered and fastening is not None:
        yield from _beyond_screws(fastening)


def service_height_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The least height at which the hood comes down clear of the range, where the makers allow one."""
    hanging = derived.hanging
    if hanging is None:
        return
    least = math.ceil(((hanging.hood.service_clear or 0.0) + hanging.hood.lowered) / _STEP_IN) * _STEP_IN
    yield from _hang(hanging, least, f"its service position needs at least {format_length(least)}")


def hood_room_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The greatest height at which the hood still goes in under the ceiling; else the room that is missing."""
    hanging, clearance = derived.hanging, derived.job.mounting.clearance
    if hanging is None or clearance is None:
        return
    for fit in hanging.fits:
        lack = format_length(-fit.spare_in, rounding="up")
        if fit.fits:
            continue
        if fit.working.name == "room between the cabinets":
            yield Remedy(f"set the cabinets beside the hood {lack} further apart")
        else:
            most = math.floor((clearance + fit.spare_in) / _STEP_IN) * _STEP_IN
            yield from _hang(hanging, most, f"the ceiling leaves at most {format_length(most)}")


def overhead_remedies(derived: Derived, cabinet: str) -> Iterator[Remedy]:
    """A cabinet over the range, set as high as combustible material has to be."""
    hanging, surface = derived.hanging, derived.job.mounting.cooking_surface
    if hanging is None or surface is None:
        return
    for over in hanging.overhead:
        if over.cabinet == cabinet:
            bottom = format_length(surface + over.least.height_in, rounding="up")
            yield Remedy(
                f"set {cabinet} {bottom} above the floor", (Edit("cabinet", cabinet, "bottom", bottom),)
            )


def space_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """The least space that the box stands in upright; else the box where no space hems it in."""
    space = next((item for item in derived.job.space if item.enclosure == tag), None)
    if space is None:
        return
    edits, words = [], []
    for side, body, given in zip(_SIDES, _body(derived, tag), _sizes(space), strict=True):
        if body is not None and given < body:
            needed = format_length(body, rounding="up")
            edits.append(Edit("space", tag, side, needed))
            words.append(f"{needed} in {side}")
    yield Remedy(f"give {tag} a space of at least {', '.join(words)}", tuple(edits))
    yield Remedy(f"set {tag} on the open wall, in no cabinet", (Edit("space", tag, "", None),))


def _hang(hanging: Hanging, height_in: float, why: str) -> Iterator[Remedy]:
    """Hang the hood at this height above the cooking surface, where its window has it; else say who is in the way."""
    window = hanging.window
    if window is None:
        return
    if window.holds(height_in):
        high = format_length(height_in)
        yield Remedy(
            f"hang it {high} above the cooking surface", (Edit("mounting", None, "clearance", high),)
        )
    elif height_in > window.highest_in:
        yield Remedy(
            f"no height cures it: {why}, {window.highest_from} allows at most {format_length(window.highest_in)}"
        )
    else:
        yield Remedy(
            f"no height cures it: {why}, {window.lowest_from} asks for at least {format_length(window.lowest_in)}"
        )


def _lengths(name: str) -> tuple[float, ...]:
    """Lengths that a fastener is made in [in], shortest first: those whose thread is known."""
    if load("nds_fasteners").row(name).text("kind") == "lag":
        return tuple(row.number("length_in") for row in load("nds_lag_thread_length").rows)
    return tuple(step * _SCREW_STEP_IN for step in range(2, int(_LONGEST_SCREW_IN / _SCREW_STEP_IN) + 1))


def _holds(derived: Derived, name: str, length_in: float) -> bool:
    """Whether every hole that meets wood grips with this fastener, and the worst one holds the service load."""
    hood, job = derived.sheet.hood, derived.job
    behind, base = studs_behind(job, derived.room), underside(job)
    if hood is None or behind is None or base is None:
        return False
    hung = job.mounting.model_copy(update={"fastener": name, "fastener_length": length_in})
    fastening = fasten(hood, job.model_copy(update={"mounting": hung}), behind, base)
    if fastening is None or fastening.service_use is None:
        return False
    grips = all(hole.held.grip.enough for hole in fastening.holes if hole.held is not None)
    return grips and fastening.service_use.holds


def _beyond_screws(fastening: Fastening) -> Iterator[Remedy]:
    """What no screw carried here cures: the load that each fastener would have to hold."""
    use = fastening.service_use
    if use is None:
        return
    worst = use.demands[use.worst]
    yield Remedy(
        f"no longer or thicker fastener carried here is enough: the worst one must hold {worst.pull_lb:.0f} lb out of "
        f"the wall and {worst.shear_lb:.0f} lb along it; back the whole bracket with solid wood, or ask the hood's "
        "maker for a bracket with more holes"
    )


def _body(derived: Derived, tag: str) -> tuple[float | None, ...]:
    """Width, height and depth of a box [in]: as measured on site, else the sheet's."""
    body = next((item for item in derived.selection.enclosures if item.tag == tag), None)
    place = next((item for item in derived.job.place if item.enclosure == tag), None)
    return tuple(getattr(place, side, None) or getattr(body, side, None) for side in _SIDES)


def _sizes(space: Space) -> tuple[float, float, float]:
    return space.width, space.height, space.depth
