"""The way of a cable that lies in raceways whose own course is given: to each of them, through it, and on."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.site.ends import End
from schedules.site.legs import Leg, joined
from schedules.site.ways import Way, find_way, passed, rectangular

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.job.records import Job, Raceway, RouteKind, Run
    from schedules.site.ends import Surroundings
    from schedules.site.room import Spot

_NOISE_IN = 1e-6


def laid_raceways(job: Job, cable: str) -> tuple[Raceway, ...]:
    """The raceways that hold a cable and whose course is given, in the job's order."""
    return tuple(item for item in job.raceway if cable in item.cables and len(item.path) > 1)


def raceway_way(
    job: Job, run: Run, around: Surroundings | None, ends: tuple[End, End], raceways: Sequence[Raceway]
) -> Way:
    """The shortest way from end to end through every one of these raceways, each entered by either mouth."""
    ways = (
        _way(job, run, around, ends, courses)
        for courses in itertools.product(*(_both_directions(item) for item in raceways))
    )
    return min(ways, key=lambda way: way.cost_in)


Course = tuple[str, tuple["Spot", ...]]
"""A raceway's tag and the corners of its course."""


def _both_directions(raceway: Raceway) -> tuple[Course, Course]:
    spots = tuple((point.along, point.out, point.up) for point in raceway.path)
    return (raceway.tag, spots), (raceway.tag, spots[::-1])


def _way(
    job: Job, run: Run, around: Surroundings | None, ends: tuple[End, End], courses: Sequence[Course]
) -> Way:
    legs: list[Leg] = []
    cost = 0.0
    through: list[str] = []
    here = ends[0]
    for tag, spots in courses:
        for part in (
            *_reach(job, run, around, here, _mouth(around, tag, spots[0])),
            _inside(around, tag, spots),
        ):
            legs += part.legs
            cost += part.cost_in
            through += part.through
        here = _mouth(around, tag, spots[-1])
    for part in _reach(job, run, around, here, ends[1]):
        legs += part.legs
        cost += part.cost_in
        through += part.through
    return Way(run.route, joined(legs), cost, tuple(dict.fromkeys(through)))


def _reach(job: Job, run: Run, around: Surroundings | None, start: End, end: End) -> Iterator[Way]:
    """The way from one place to the next, none where they are one."""
    if math.dist(start.spot, end.spot) <= _NOISE_IN:
        return
    if around is None:
        legs = rectangular(start.spot, end.spot, start.spot[2])
        yield Way("direct", legs, sum(leg.length_in for leg in legs))
        return
    on_walls = start.wall is not None and end.wall is not None
    kind: RouteKind = "direct" if on_walls else run.route
    yield find_way(kind, around, job.site, job.routing, (start, end))


def _inside(around: Surroundings | None, tag: str, spots: tuple[Spot, ...]) -> Way:
    """A raceway's own course; its legs on a wall carry the wall's name, since it takes holes there too."""
    mouths = [_mouth(around, tag, spot) for spot in spots]
    legs = tuple(Leg(a.spot, b.spot, "in raceway", _shared(a, b), tag) for a, b in itertools.pairwise(mouths))
    through = () if around is None else passed(around, legs, (mouths[0], mouths[-1]))
    return Way("direct", legs, sum(leg.length_in for leg in legs), through)


def _shared(a: End, b: End) -> str | None:
    return a.wall.tag if a.wall is not None and a.wall is b.wall else None


def _mouth(around: Surroundings | None, tag: str, spot: Spot) -> End:
    """A corner of a raceway as the end of a way; on the wall in whose face it lies."""
    loose = End(tag, spot, None, spot, 0.0 if around is None else around.tolerance_in)
    if around is None:
        return loose
    for wall in around.room.walls:
        along, out, up = own = wall.local(spot)
        on_face = abs(out) <= _NOISE_IN and -_NOISE_IN <= along <= wall.length_in + _NOISE_IN
        if on_face and not wall.open and 0 <= up <= around.ceiling_in:
            return replace(loose, wall=wall, own=own)
    return loose
