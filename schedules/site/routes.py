"""Which way a cable goes and how long that way is.

The seam for the route graph: whatever finds the way, the result is a `Route`, a chain of points or a taped length.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.site.room import Spot, finished_spot
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.job.records import Job, Place, Run, Site
    from schedules.site.room import Room

Answer = tuple[str, str | None, str]
"""One answer of the job: table, row, field."""

_SITE = Source("measured on site", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class Route:
    """A cable's way between two enclosures.

    length_in: centre-line length. tolerance_in: what the measurements may be off by in the worst case. spots: the
    corners of the way, empty where it was taped.
    """

    kind: str
    length_in: float
    tolerance_in: float
    spots: tuple[Spot, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class Unmeasured:
    """Why a way can't be known yet: the job's answers that are missing, as (table, row, field)."""

    missing: tuple[Answer, ...]

    def in_words(self) -> str:
        """Name what is to be measured."""
        return "; ".join(
            f"{', '.join(field.replace('_', ' ') for _, _, field in answers)}{f' of {row}' if row else ''}"
            for row, answers in itertools.groupby(self.missing, lambda answer: answer[1])
        )


def find_route(job: Job, run: Run, origin: str, target: str, room: Room | None) -> Route | Unmeasured:
    """Find the length of one run between two enclosures [in], or what must be measured first."""
    site = job.site
    if run.route == "taped":
        if run.taped is None:
            return Unmeasured((("run", run.cable, "taped"),))
        return _taped(run.taped, site.tolerance)
    a, b = _place(job, origin), _place(job, target)
    missing = [*_unmeasured(origin, a), *_unmeasured(target, b)]
    missing += [("site", None, key) for key in _needs(run) if getattr(site, key) is None]
    if run.route == "waypoints" and not run.waypoint:
        missing.append(("run", run.cable, "waypoint"))
    missing += [("site", None, key) for key in _finish_needed(job, (a, b))]
    start, end = finished_spot(site, a, room), finished_spot(site, b, room)
    if missing or start is None or end is None:
        return Unmeasured(tuple(dict.fromkeys(missing)))
    spots = _spots(site, run, start, end)
    tolerance = sum(3 * _tolerance(site, place) for place in (a, b))
    return _measured(run.route, spots, tolerance)


def _place(job: Job, enclosure: str) -> Place | None:
    return next((item for item in job.place if item.enclosure == enclosure), None)


def _unmeasured(tag: str, place: Place | None) -> list[Answer]:
    return [("place", tag, key) for key in ("along", "out", "up") if getattr(place, key, None) is None]


def _tolerance(site: Site, place: Place | None) -> float:
    return site.tolerance if place is None or place.tolerance is None else place.tolerance


def _needs(run: Run) -> tuple[str, ...]:
    """The site's answers that a kind of route can't do without."""
    return {
        "overhead": ("ceiling", "rise_above"),
        "underfloor": ("drop_below",),
        "cabinets": ("cabinet_height",),
    }.get(run.route, ())


def _finish_needed(job: Job, places: tuple[Place | None, ...]) -> tuple[str, ...]:
    rough = any(place is not None and place.surface == "rough" for place in places)
    return tuple(key for key in ("wall_finish", "floor_finish") if rough and getattr(job.site, key) is None)


def _spots(site: Site, run: Run, a: Spot, b: Spot) -> tuple[Spot, ...]:
    """Lay the corners of the way; every kind but `straight` runs along, out and up only."""
    if run.route == "straight":
        return a, b
    if run.route == "waypoints":
        between = [(point.along, point.out, point.up) for point in run.waypoint]
        return (a, *between, b)
    height = {
        "overhead": (site.ceiling or 0.0) + (site.rise_above or 0.0),
        "underfloor": -(site.drop_below or 0.0),
        "cabinets": site.cabinet_height or 0.0,
    }.get(run.route, a[2])
    return _rectangular(a, b, height)


def _rectangular(a: Spot, b: Spot, height: float) -> tuple[Spot, ...]:
    """Go up or down to the height, along, out, then up or down to the end."""
    corners = (a, (a[0], a[1], height), (b[0], a[1], height), (b[0], b[1], height), b)
    return tuple(spot for spot, _ in itertools.groupby(corners))


def _measured(kind: str, spots: tuple[Spot, ...], tolerance_in: float) -> Route:
    legs = [math.dist(start, end) for start, end in itertools.pairwise(spots)]
    length = math.fsum(legs)
    working = Working(
        name="route",
        formula="sum of the legs between the corners of the way",
        inputs=tuple(
            Input(f"leg {n}", format_length(leg), "positions") for n, leg in enumerate(legs, start=1)
        ),
        result=format_length(length),
        source=_SITE,
        note=f"{kind}; each coordinate may be off, together at most {format_length(tolerance_in)}",
    )
    return Route(kind, length, tolerance_in, spots, working)


def _taped(length_in: float, tolerance_in: float) -> Route:
    working = Working(
        name="route",
        formula="measured with a tape along the way",
        inputs=(Input("taped length", format_length(length_in), "job"),),
        result=format_length(length_in),
        source=_SITE,
        note=f"may be off by {format_length(tolerance_in)}",
    )
    return Route("taped", length_in, tolerance_in, (), working)
