"""Each piece of framing that wiring passes: may it be cut so, and what protects the wiring there?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.answers import reaches
from schedules.framing.cuts import (
    joist_hole,
    joist_notch_limit,
    plate_tie_needed,
    stud_hole,
    stud_notch_limit,
)
from schedules.framing.nail_plates import (
    CABLE,
    exempt_from_plates,
    plate_along_framing,
    plate_for_hole,
    plate_for_notch,
)
from schedules.framing.walls import BORED, bored_for, outside_diameter
from schedules.raceways.openings import leading_plug
from schedules.raceways.raceway_plan import cable_occupant
from schedules.site.lumber import lumber, lumber_sizes
from schedules.tables import Adopted, load, rule
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.answers import Verdict
    from schedules.connections.options import Selection
    from schedules.framing.cuts import Cut, Hole
    from schedules.job.building import Framing
    from schedules.job.records import Job
    from schedules.raceways.raceway_plan import RacewayPlan
    from schedules.sheet.wiring import Cable

FRAMING_RULES = "irc_framing_rules"
_SHEET = Source("equipment sheet", Confidence.SHEET)
_MISSING = Source("nobody gives it", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class FramingPlan:
    """One kind of member that a raceway or cable passes.

    passes: what goes through, in words. wiring: its kind, for protection. across_in: its width [in], None where nobody
    gives it. hole_in: the hole bored, or as the job says [in]. open: what nobody says, in words, with the answer's key.
    bored: how the hole's diameter or the furred depth came about. hole, notch: the cut against its limit. tight: the
    hole doesn't pass what goes through. furring_in: the furred depth that it needs [in]. steel, tie: whether a steel
    plate and a tie of the top plate are needed.
    """

    framing: Framing
    passes: str
    wiring: str
    across_in: float | None
    hole_in: float | None
    open: tuple[tuple[str, str], ...]
    bored: Working | None = None
    hole: Hole | None = None
    notch: Cut | None = None
    tight: bool = False
    wider_than_plate: bool = False
    furring_in: float | None = None
    steel: Verdict | None = None
    tie: Verdict | None = None

    @property
    def allowed(self) -> bool:
        """Whether the member may be cut so, as far as it is known, and what passes finds room."""
        hole = self.hole is None or self.hole.allowed
        depth = self.framing.notch
        notch = self.notch is None or depth is None or reaches(self.notch.limit_in, depth)
        furred = self.framing.furring
        room = self.furring_in is None or furred is None or reaches(furred, self.furring_in)
        return hole and notch and room and not self.tight and not self.wider_than_plate

    @property
    def workings(self) -> Iterator[Working]:
        """How the cut and its limits came about."""
        if self.bored is not None:
            yield self.bored
        for part in (self.hole, self.notch, self.steel, self.tie):
            if part is not None:
                yield part.working


def framing_code(job: Job) -> Adopted:
    """The IRC for framing: the job's edition, else the latest whose text was read whole; with the amendments."""
    editions = load(FRAMING_RULES).editions
    asked = str(job.job.residential_code)
    read = max(year for year, edition in editions.items() if not edition.note)
    return Adopted(asked if asked in editions else read, job.adopted.amendments)


def plan_framing(job: Job, selection: Selection, raceways: Sequence[RacewayPlan]) -> tuple[FramingPlan, ...]:
    """Hold every piece of framing against what passes it; what isn't there with these options is left out."""
    plans = (plan_member(job, selection, raceways, framing) for framing in job.framing)
    return tuple(plan for plan in plans if plan is not None)


def plan_member(
    job: Job, selection: Selection, raceways: Sequence[RacewayPlan], framing: Framing
) -> FramingPlan | None:
    """Hold one piece of framing against what passes it; None where that isn't there with these options."""
    by_tag = {item.raceway: item for item in raceways}
    cables = {cable.tag: cable for cable in selection.cables}
    if framing.raceway in by_tag:
        return _planned(job, framing, _of_raceway(by_tag[framing.raceway], framing))
    if framing.cable in cables:
        return _planned(job, framing, _of_cable(job, selection, cables[framing.cable], framing))
    return None


@dataclass(frozen=True, slots=True)
class _Passing:
    """What goes through: words, kind of wiring, width [in] and where that comes from, what is missing."""

    words: str
    wiring: str
    across_in: float | None
    source: Source = _MISSING
    open: tuple[tuple[str, str], ...] = ()


def _of_raceway(planned: RacewayPlan, framing: Framing) -> _Passing:
    words = f"{planned.raceway} ({planned.kind} {planned.size or 'of unknown size'})"
    if planned.size is None:
        return _Passing(words, planned.kind, None, open=((f"the size of {planned.raceway}", "hole"),))
    try:
        outside = outside_diameter(planned.kind, planned.size)
    except LookupError:
        standard = load("raceway_kinds").row(planned.kind).text("product_standard")
        inside = load("nec_ch9_table4_raceway_internal").row(planned.kind, str(planned.size))
        missing = (
            f"the outside diameter of {planned.kind} {planned.size}, which is above its bore of "
            f"{inside.number('internal_diameter_in'):g} in, stands in {standard} and isn't carried: measure it, and "
            "give the hole"
        )
        return _Passing(
            words, planned.kind, None, open=() if framing.hole is not None else ((missing, "hole"),)
        )
    return _Passing(words, planned.kind, outside.diameter_in, outside.source)


def _of_cable(job: Job, selection: Selection, cable: Cable, framing: Framing) -> _Passing:
    """A cable, with the connector that must pass the same hole."""
    occupant, plug = cable_occupant(cable, job.adopted), leading_plug(selection, cable)
    widths = [(item.diameter_in, item.source) for item in (occupant,) if item is not None]
    widths += [(item.across_in, _SHEET) for item in (plug,) if item is not None]
    widest, source = max(widths, key=lambda pair: pair[0], default=(None, _MISSING))
    words = cable.tag if plug is None else f"{cable.tag} with its {plug.name}"
    missing = ((f"the width of {cable.tag}: give the hole", "hole"),)
    needed = () if occupant is not None or framing.hole is not None else missing
    return _Passing(words, CABLE, widest, source, needed)


def _planned(job: Job, framing: Framing, passing: _Passing) -> FramingPlan:
    missing = list(passing.open) if framing.way in ("through", "furred") else []
    if framing.lumber not in lumber_sizes():
        missing.append((f"a lumber size that is carried: {', '.join(lumber_sizes())}", "lumber"))
    if framing.engineered:
        missing.append(("what the maker's chart of this engineered member allows", "engineered"))
    if framing.bearing is None and framing.member != "joist" and framing.way == "through":
        missing.append(("whether the wall is exterior or bears; it is taken as if", "bearing"))
    hole = framing.hole
    if hole is None and passing.across_in is not None:
        hole = bored_for(passing.across_in)
    bored = (
        None if hole is None or framing.way != "through" or framing.notch is not None else _bit(passing, hole)
    )
    plan = FramingPlan(framing, passing.words, passing.wiring, passing.across_in, hole, tuple(missing), bored)
    if framing.engineered or framing.lumber not in lumber_sizes():
        return plan
    match framing.way:
        case "through" if framing.notch is not None:
            return _notched(job, plan, framing.notch)
        case "through" if hole is not None:
            return _bored(job, plan, hole)
        case "along":
            return _along(job, plan)
        case "furred":
            return _furred(job, plan)
        case _:
            return plan


def _bit(passing: _Passing, hole_in: float) -> Working:
    """How large the hole is: as the job says, else what goes through, a little more, up to the next bit."""
    across = "not known" if passing.across_in is None else f"{passing.across_in:.3f} in"
    return Working(
        name=f"hole for {passing.words}",
        formula="as the job gives it, else outside diameter or width and a clearance, up to the next bit",
        inputs=(Input("outside diameter or width", across, str(passing.source)),),
        result=f"{hole_in:g} in",
        source=BORED,
    )


def _bored(job: Job, plan: FramingPlan, hole_in: float) -> FramingPlan:
    framing, edition = plan.framing, framing_code(job)
    depth = lumber(framing.lumber).depth_in
    bearing = framing.bearing is not False
    tight = plan.across_in is not None and not reaches(hole_in, plan.across_in)
    centred = (depth - hole_in) / 2
    off = 0.0 if framing.edge is None else max(0.0, centred - framing.edge)
    if framing.member == "plate":
        cut = min(hole_in, depth)
        return replace(
            plan,
            tight=tight,
            wider_than_plate=not reaches(depth, hole_in),
            steel=plate_for_hole(max(0.0, centred - abs(off)), wiring=plan.wiring, edition=job.adopted),
            tie=plate_tie_needed(framing.lumber, cut, bearing=bearing, edition=edition),
        )
    if framing.member == "joist":
        hole = joist_hole(framing.lumber, hole_in, off_centre_in=off, edition=edition)
    else:
        hole = stud_hole(
            framing.lumber,
            hole_in,
            bearing=bearing,
            doubled=framing.doubled,
            off_centre_in=off,
            edition=edition,
        )
    steel = plate_for_hole(max(0.0, hole.edge_in), wiring=plan.wiring, edition=job.adopted)
    return replace(plan, tight=tight, hole=hole, steel=steel)


def _notched(job: Job, plan: FramingPlan, depth_in: float) -> FramingPlan:
    framing, edition = plan.framing, framing_code(job)
    bearing = framing.bearing is not False
    steel = plate_for_notch(wiring=plan.wiring, edition=job.adopted)
    tight = plan.across_in is not None and not reaches(depth_in, plan.across_in)
    if framing.member == "plate":
        width = lumber(framing.lumber).depth_in
        tie = plate_tie_needed(framing.lumber, min(depth_in, width), bearing=bearing, edition=edition)
        return replace(plan, tight=tight, wider_than_plate=not reaches(width, depth_in), steel=steel, tie=tie)
    if framing.member == "joist":
        notch = joist_notch_limit(framing.lumber, at_end=framing.at_end, edition=edition)
    else:
        notch = stud_notch_limit(framing.lumber, bearing=bearing, edition=edition)
    return replace(plan, tight=tight, notch=notch, steel=steel)


def _along(job: Job, plan: FramingPlan) -> FramingPlan:
    edge = plan.framing.edge
    if edge is None:
        missing = (f"how far {plan.passes} keeps from the member's edge", "edge")
        return replace(plan, open=(*plan.open, missing))
    return replace(plan, steel=plate_along_framing(edge, wiring=plan.wiring, edition=job.adopted))


def _furred(job: Job, plan: FramingPlan) -> FramingPlan:
    """A furred space takes the wiring and keeps nails away from it, unless its raceway is exempt."""
    if plan.across_in is None:
        return plan
    nails = rule("parallel_edge", job.adopted)
    clear = 0.0 if exempt_from_plates(plan.wiring) else nails.number
    needed = plan.across_in + clear
    depth = Working(
        name=f"furred space for {plan.passes}",
        formula="what lies in it, and the distance that keeps nails away unless the raceway is exempt",
        inputs=(
            Input("outside diameter or width", f"{plan.across_in:.3f} in"),
            Input("clear of the face", f"{clear:g} in", str(nails.source)),
        ),
        result=f"{needed:.3f} in",
        source=nails.source,
    )
    missing = () if plan.framing.furring is not None else (("the depth of the furred space", "furring"),)
    return replace(plan, open=(*plan.open, *missing), furring_in=needed, bored=depth)
