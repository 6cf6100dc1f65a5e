"""Which way a cable goes and how long that way is."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.site.chance import worst_case
from schedules.site.ends import end_at
from schedules.site.legs import Error, Leg, Span, corners, joined
from schedules.site.raceway_ways import laid_raceways, raceway_way
from schedules.site.spans import spans, spans_by_points
from schedules.site.ways import find_way, passed, rectangular
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.job.records import Job, Place, Run, Site
    from schedules.site.ends import End, Surroundings
    from schedules.site.legs import Medium
    from schedules.site.room import Spot

Answer = tuple[str, str | None, str]
"""One answer of the job: table, row, field."""

_SITE = Source("measured on site", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class Route:
    """A cable's way between two enclosures.

    length_in: centre-line length. spans: how far it goes along, out and up, with the measurements that each rests on.
    legs: its straight pieces, none where it was taped. through: what it passes though nothing may pass there.
    """

    kind: str
    length_in: float
    spans: tuple[Span, ...]
    legs: tuple[Leg, ...]
    working: Working
    through: tuple[str, ...] = ()

    @property
    def tolerance_in(self) -> float:
        """What the way may be longer by, with every measurement off to the wrong side [in]."""
        return worst_case(self.spans)

    @property
    def spots(self) -> tuple[Spot, ...]:
        """The points at which it starts, turns and ends; none where it was taped."""
        return corners(self.legs)


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


def find_route(
    job: Job, run: Run, origin: str, target: str, around: Surroundings | None
) -> Route | Unmeasured:
    """Find the way of one run between two enclosures, or what must be measured first.

    around: the measured room; without it every way but a straight or taped one goes along, out and up in the open.
    """
    site = job.site
    if run.route == "taped":
        if run.taped is None:
            return Unmeasured((("run", run.cable, "taped"),))
        return _taped(run.taped, site.tolerance)
    places = tuple(_place(job, tag) for tag in (origin, target))
    missing = [
        answer
        for tag, place in zip((origin, target), places, strict=True)
        for answer in _unmeasured(tag, place)
    ]
    missing += [("site", None, key) for key in _needs(run) if getattr(site, key) is None]
    if run.route == "waypoints" and not run.waypoint:
        missing.append(("run", run.cable, "waypoint"))
    missing += [("site", None, key) for key in _finish_needed(job, places)]
    ends = _ends(job, places, around)
    if missing or ends is None:
        return Unmeasured(tuple(dict.fromkeys(missing)) or (("place", origin, "wall"),))
    return _between(job, run, ends, around)


def _between(job: Job, run: Run, ends: tuple[End, End], around: Surroundings | None) -> Route:
    """The route of two measured ends."""
    site, a, b = job.site, *ends
    room = around.room if around is not None else None
    if run.route in ("straight", "waypoints"):
        points = (a.spot, *((item.along, item.out, item.up) for item in run.waypoint), b.spot)
        if run.route == "straight":
            points = (a.spot, b.spot)
        legs = joined(Leg(*pair, _medium(site, pair)) for pair in itertools.pairwise(points))
        through = () if around is None else passed(around, legs, ends)
        return _route(run.route, legs, spans_by_points(points, ends, room, site.tolerance), through)
    raceways = laid_raceways(job, run.cable)
    if raceways:
        way = raceway_way(job, run, around, ends, raceways)
        points = corners(way.legs)
        return _route(run.route, way.legs, spans_by_points(points, ends, room, site.tolerance), way.through)
    if around is None:
        height = run_height(site, run.route)
        legs = rectangular(a.spot, b.spot, a.spot[2] if height is None else height)
        kind, through = run.route, ()
    else:
        way = find_way(run.route, around, site, job.routing, ends)
        kind, legs, through = way.kind, way.legs, way.through
        height = run_height(site, kind)
    rests_on = spans(legs, ends, room, tolerance_in=site.tolerance, run_height_in=height)
    return _route(kind, legs, rests_on, through)


def run_height(site: Site, kind: str) -> float | None:
    """The height at which a kind of route crosses [in], None for one that crosses where it starts."""
    return {
        "overhead": (site.ceiling or 0.0) + (site.rise_above or 0.0),
        "underfloor": -(site.drop_below or 0.0),
        "cabinets": site.cabinet_height or 0.0,
    }.get(kind)


def _place(job: Job, enclosure: str) -> Place | None:
    return next((item for item in job.place if item.enclosure == enclosure), None)


def _unmeasured(tag: str, place: Place | None) -> list[Answer]:
    return [("place", tag, key) for key in ("along", "out", "up") if getattr(place, key, None) is None]


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


def _ends(job: Job, places: tuple[Place | None, ...], around: Surroundings | None) -> tuple[End, End] | None:
    found = [
        end_at(job, None if around is None else around.room, place) for place in places if place is not None
    ]
    measured = [end for end in found if end is not None]
    return (measured[0], measured[1]) if len(measured) == 2 else None


def _medium(site: Site, leg: tuple[Spot, Spot]) -> Medium:
    if site.ceiling is not None and all(spot[2] >= site.ceiling for spot in leg):
        return "above the ceiling"
    return "below the floor" if all(spot[2] < 0 for spot in leg) else "in the open"


def _route(kind: str, legs: tuple[Leg, ...], rests_on: tuple[Span, ...], through: tuple[str, ...]) -> Route:
    length = math.fsum(leg.length_in for leg in legs)
    working = Working(
        name="route",
        formula="sum of the legs between the corners of the way",
        inputs=tuple(
            Input(f"leg {n}, {leg.medium}", format_length(leg.length_in), "positions")
            for n, leg in enumerate(legs, start=1)
        ),
        result=format_length(length),
        source=_SITE,
        note=f"{kind}; what it rests on may be off by {format_length(worst_case(rests_on))} together",
    )
    return Route(kind, length, rests_on, legs, working, through)


def _taped(length_in: float, tolerance_in: float) -> Route:
    working = Working(
        name="route",
        formula="measured with a tape along the way",
        inputs=(Input("taped length", format_length(length_in), "job"),),
        result=format_length(length_in),
        source=_SITE,
        note=f"may be off by {format_length(tolerance_in)}",
    )
    return Route("taped", length_in, measured_once("tape", length_in, tolerance_in), (), working)


def measured_once(what: str, length_in: float, tolerance_in: float) -> tuple[Span, ...]:
    """The only span of a length that was measured as a whole [in]."""
    return (Span("whole", length_in, (Error(what, tolerance_in),)),)
