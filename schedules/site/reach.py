"""Does each factory cable reach, and how long is each field cable to be cut?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.site.chance import chance_within, root_sum_square
from schedules.site.routes import Route, Unmeasured, find_route, measured_once
from schedules.tables import rule
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.job.records import Job, Run
    from schedules.sheet.hardware import Enclosure
    from schedules.sheet.wiring import Cable, CableEnd
    from schedules.site.ends import Surroundings

CUT_STEP_IN = 1.0
"""Field cable is cut to whole inches, upwards."""


class Verdict(StrEnum):
    """How a factory cable's length compares with its way, the measurements' tolerance taken off."""

    REACHES = "reaches"
    TIGHT = "tight"
    SHORT = "short"
    UNKNOWN = "unknown"
    CUT_ON_SITE = "cut on site"


@dataclass(frozen=True, slots=True)
class CableLength:
    """One cable's length.

    required_in: route and every allowance, None while something is unmeasured. supplied_in: what the factory cable
    and its extension give, None for field cable. margin_in: supplied less required. worst_in: margin with every
    measurement off to the wrong side. cut_in: what to cut a field cable to.
    """

    cable: str
    verdict: Verdict
    route: Route | Unmeasured
    required_in: float | None
    supplied_in: float | None
    margin_in: float | None
    worst_in: float | None
    cut_in: float | None
    working: Working | None

    @property
    def likely_off_in(self) -> float | None:
        """What the way may be off by when errors make up for one another by chance, root-sum-square [in]."""
        return None if isinstance(self.route, Unmeasured) else root_sum_square(self.route.spans)

    @property
    def chance(self) -> float | None:
        """The chance that a factory cable reaches, 0 to 1; None for field cable or while something is unmeasured."""
        if self.margin_in is None or isinstance(self.route, Unmeasured):
            return None
        return chance_within(self.route.spans, self.margin_in)


def cable_length(
    job: Job, cable: Cable, boxes: tuple[Enclosure | None, Enclosure | None], around: Surroundings | None
) -> CableLength:
    """Compare one cable's way through the room with its length, or give the length to cut.

    boxes: the enclosures of its two ends, None for one that isn't there.
    """
    run = run_of(job, cable.tag)
    pulled = pulled_length(job, cable.tag)
    if pulled is not None:
        return _as_pulled(job, cable, run, pulled)
    if run is None:
        return _unknown(cable, Unmeasured((("run", cable.tag, "route"),)))
    route = find_route(job, run, cable.origin.enclosure, cable.target.enclosure, around)
    if isinstance(route, Unmeasured):
        return _unknown(cable, route)
    ends = [
        (box, end) for box, end in zip(boxes, (cable.origin, cable.target), strict=True) if box is not None
    ]
    inputs = [Input("route", format_length(route.length_in), route.kind)]
    parts = [route.length_in]
    for enclosure, end in ends:
        for name, length in _allowances(enclosure, end, cable, job):
            if length:
                inputs.append(Input(f"{name} at {enclosure.tag}", format_length(length), "sheet"))
                parts.append(length)
    required = math.fsum(parts)
    if cable.make == "field":
        return _cut(job, cable, route, required, inputs)
    return _reach(cable, run, route, required, inputs)


def _as_pulled(job: Job, cable: Cable, run: Run | None, pulled: float) -> CableLength:
    """What was measured on the pulled cable, end to end, stands in place of every estimate."""
    working = Working(
        name="pulled length",
        formula="measured on the cable, end to end",
        inputs=(Input("as built", format_length(pulled), "job"),),
        result=format_length(pulled),
        source=Source("as-built record", Confidence.JOB),
    )
    rests_on = measured_once("length as pulled", pulled, job.site.tolerance)
    route = Route("as pulled", pulled, rests_on, (), working)
    inputs = [Input("as built", format_length(pulled), "job")]
    if cable.make == "field":
        return CableLength(cable.tag, Verdict.CUT_ON_SITE, route, pulled, None, None, None, pulled, working)
    return _reach(cable, run, route, pulled, inputs)


def run_of(job: Job, cable: str) -> Run | None:
    """The job's entry on how this cable goes."""
    return next((item for item in job.run if item.cable == cable), None)


def pulled_length(job: Job, cable: str) -> float | None:
    """The length of this cable as pulled [in], if the job records it; the last entry stands."""
    lengths = [item.length for item in job.as_built if item.cable == cable and item.length is not None]
    return lengths[-1] if lengths else None


def _allowances(enclosure: Enclosure, end: CableEnd, cable: Cable, job: Job) -> list[tuple[str, float]]:
    """What one end takes beyond the route [in]. A fitted connector plugs in: it needs no free conductor."""
    free = 0.0 if end.connector is not None else enclosure.free_conductor
    if cable.make == "field" and enclosure.kind in ("panel", "box"):
        free = max(free, rule("free_conductor", job.adopted).number)
    return [("entry", enclosure.entry), ("free conductor", free), ("service loop", enclosure.service_loop)]


def _unknown(cable: Cable, missing: Unmeasured) -> CableLength:
    return CableLength(cable.tag, Verdict.UNKNOWN, missing, None, cable.length, None, None, None, None)


def _reach(cable: Cable, run: Run | None, route: Route, required: float, inputs: list[Input]) -> CableLength:
    if cable.length is None:
        raise ValueError(f"{cable.tag} is a factory cable without a length")
    extension = next((item for item in cable.extension if run and item.part == run.extension), None)
    supplied = cable.length + (extension.length if extension else 0.0)
    margin = supplied - required
    worst = margin - route.tolerance_in
    verdict = Verdict.REACHES if worst >= 0 else Verdict.TIGHT if margin >= 0 else Verdict.SHORT
    inputs.append(Input("supplied", format_length(supplied), "cable and extension" if extension else "cable"))
    working = Working(
        name=f"reach of {cable.tag}",
        formula="margin = supplied − (route + entry, free conductor and service loop at each end)",
        inputs=(*inputs, *_tolerances(route)),
        result=f"{format_length(margin)} to spare, {format_length(worst)} in the worst case: {verdict}",
        source=Source("sheet's cable length and allowances, site's measurements", Confidence.SHEET),
        steps=(route.working,),
    )
    return CableLength(cable.tag, verdict, route, required, supplied, margin, worst, None, working)


def _tolerances(route: Route) -> Iterator[Input]:
    """Each measurement that the route rests on, and what all of them may be off by together."""
    for span in route.spans:
        for error in span.errors:
            times = f", counted {error.times:g} times" if error.times != 1 else ""
            yield Input(f"{error.what} may be off by", f"{format_length(error.tolerance_in)}{times}", "site")
    yield Input("all of them at worst", format_length(route.tolerance_in), "plan")
    yield Input("all of them by root-sum-square", format_length(root_sum_square(route.spans)), "plan")


def _cut(job: Job, cable: Cable, route: Route, required: float, inputs: list[Input]) -> CableLength:
    """Add the stated waste, and round up: waste belongs to cable cut on site, never to a fixed length."""
    waste = required * job.site.waste / 100
    cut = math.ceil((required + waste) / CUT_STEP_IN) * CUT_STEP_IN
    if waste:
        inputs.append(Input("waste", f"{job.site.waste:g} % of {format_length(required)}", "job"))
    working = Working(
        name=f"cut length of {cable.tag}",
        formula="route + entry, free conductor and service loop at each end + waste, rounded up to the inch",
        inputs=tuple(inputs),
        result=format_length(cut),
        source=rule("free_conductor", job.adopted).source,
        note="" if waste else "no waste stated in the job",
        steps=(route.working,),
    )
    return CableLength(cable.tag, Verdict.CUT_ON_SITE, route, required, None, None, None, cut, working)
