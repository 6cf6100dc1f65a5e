"""One kitchen's hood on its wall: height, fit, fasteners, what it sweeps, who lifts it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.mechanical_code import residential_code
from schedules.mounting.bracket import Fastening, fasten, studs_behind
from schedules.mounting.height import (
    Fit,
    Height,
    HeightWindow,
    KeepClear,
    bracket_height,
    combustible_clearance,
    height_window,
    keep_clear,
    room_above,
    room_beside,
)
from schedules.mounting.lifting import Lift, shared_lift
from schedules.practice import practice

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.sheet.hood import Hood
    from schedules.sheet.sheet import Sheet
    from schedules.site.room import Cabinet, Room
    from schedules.site.routes import Answer
    from schedules.working import Working


@dataclass(frozen=True, slots=True)
class Overhead:
    """A cabinet above the cooking surface: its underside above it, and the least height of combustible wood [in]."""

    cabinet: str
    above_surface_in: float
    least: Height


@dataclass(frozen=True, slots=True)
class Hanging:
    """Everything about the hood on its wall; None where an answer is missing. conflict: why no height is left."""

    hood: Hood
    given: bool
    window: HeightWindow | None
    conflict: str
    heights: tuple[Height, ...]
    fits: tuple[Fit, ...]
    overhead: tuple[Overhead, ...]
    fastening: Fastening | None
    swept: KeepClear | None
    lift: Lift | None
    missing: tuple[Answer, ...]

    @property
    def workings(self) -> tuple[Working, ...]:
        """How its numbers came about."""
        fastening = self.fastening
        uses = () if fastening is None else (fastening.aim, fastening.use, fastening.service_use)
        parts = (self.window, *self.heights, *self.fits, *uses, self.swept, self.lift)
        return tuple(part.working for part in parts if part is not None)


def hang_hood(sheet: Sheet, job: Job, room: Room | None) -> Hanging | None:
    """Work out the hood on its wall; None where the sheet doesn't say what hangs there."""
    hood = sheet.hood
    if hood is None:
        return None
    window, conflict = _window(hood, job)
    behind = studs_behind(job, room)
    base = underside(job)
    return Hanging(
        hood=hood,
        given=job.mounting != type(job.mounting)(),
        window=window,
        conflict=conflict,
        heights=_heights(hood, job),
        fits=_fits(hood, job, room),
        overhead=_overhead(hood, job, room),
        fastening=None if base is None or behind is None else fasten(hood, job, behind, base),
        swept=_swept(hood, job),
        lift=_lift(hood, job),
        missing=_missing(job, known=behind is not None),
    )


def _window(hood: Hood, job: Job) -> tuple[HeightWindow | None, str]:
    try:
        return height_window(
            sheet_lowest_in=hood.lowest,
            sheet_highest_in=hood.highest,
            range_lowest_in=job.mounting.range_lowest,
        ), ""
    except ValueError as error:
        return None, str(error)


def _missing(job: Job, *, known: bool) -> tuple[Answer, ...]:
    names = ("cooking_surface", "clearance", "centre", "wall_board", "fastener", "fastener_length")
    missing: list[Answer] = [
        ("mounting", None, name) for name in names if getattr(job.mounting, name) is None
    ]
    if not known:
        missing.append(("stud", "S1", "along") if job.mounting.stud_size else ("mounting", None, "stud_size"))
    return tuple(missing)


def underside(job: Job) -> float | None:
    """Height of the hood's underside above the finished floor [in], None while it isn't known."""
    hung = job.mounting
    if hung.cooking_surface is None or hung.clearance is None:
        return None
    return hung.cooking_surface + hung.clearance


def _heights(hood: Hood, job: Job) -> tuple[Height, ...]:
    hung = job.mounting
    if hung.cooking_surface is None or hung.clearance is None:
        return ()
    return tuple(
        bracket_height(
            cooking_surface_in=hung.cooking_surface,
            clearance_in=hung.clearance,
            hole_above_underside_in=up,
            floor_finish_in=job.site.floor_finish or 0.0,
        )
        for up in sorted({hole.up for hole in hood.bracket.hole})
    )


def _fits(hood: Hood, job: Job, room: Room | None) -> tuple[Fit, ...]:
    base = underside(job)
    found = []
    if base is not None:
        top = base + hood.height
        chimney = hood.chimney_shortest or 0.0
        if job.site.ceiling is not None:
            found.append(room_above(top_in=top + chimney, limit_in=job.site.ceiling, limit_name="ceiling"))
    beside = _opening(hood, job, room)
    if beside is not None:
        found.append(room_beside(body_width_in=hood.width, opening_width_in=beside))
    return tuple(found)


def _level(job: Job, room: Room | None) -> tuple[tuple[Cabinet, ...], float, float]:
    """Cabinets of the range wall, with the hood's underside and centre; none while the hood isn't placed."""
    base, centre = underside(job), job.mounting.centre
    if base is None or centre is None or room is None:
        return (), 0.0, 0.0
    return room.main.cabinets, base, centre


def _opening(hood: Hood, job: Job, room: Room | None) -> float | None:
    """Width between the cabinets left and right of the hood [in], None where one side is free."""
    cabinets, base, centre = _level(job, room)
    beside = [
        item.zone for item in cabinets if item.zone.bottom < base + hood.height and item.zone.top > base
    ]
    left = [zone.right for zone in beside if (zone.left + zone.right) / 2 < centre]
    right = [zone.left for zone in beside if (zone.left + zone.right) / 2 >= centre]
    return min(right) - max(left) if left and right else None


def _overhead(hood: Hood, job: Job, room: Room | None) -> tuple[Overhead, ...]:
    """Cabinets over the cooking surface, which the hood shields below them."""
    cabinets, base, centre = _level(job, room)
    code = residential_code(job)
    if code is None or job.mounting.cooking_surface is None:
        return ()
    least = combustible_clearance(protected=True, edition=code)
    half = hood.width / 2
    return tuple(
        Overhead(item.tag, item.zone.bottom - job.mounting.cooking_surface, least)
        for item in cabinets
        if item.zone.bottom >= base and item.zone.left < centre + half and item.zone.right > centre - half
    )


def _swept(hood: Hood, job: Job) -> KeepClear | None:
    hung, base = job.mounting, underside(job)
    if base is None or hung.centre is None or hung.cooking_surface is None:
        return None
    return keep_clear(
        centre_in=hung.centre,
        body_width_in=hood.width,
        body_height_in=hood.height,
        body_depth_in=hood.depth,
        underside_in=base,
        cooking_surface_in=hung.cooking_surface,
        lowered_in=hood.lowered,
        drawn_out_in=hood.drawn_out,
    )


def _lift(hood: Hood, job: Job) -> Lift | None:
    """Hands under the hood's lower edge, from a table or the packing up to its place."""
    base = underside(job)
    if base is None:
        return None
    return shared_lift(
        hood.weight,
        job.mounting.people,
        start_height_in=practice("lift_from").number,
        end_height_in=base,
        start_reach_in=practice("lift_reach_start").number,
        end_reach_in=practice("lift_reach_end").number,
    )
