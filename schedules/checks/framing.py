"""May every stud, plate and joist be cut as the wiring needs it, and is the wiring safe from nails there?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.framing.framing_plan import FRAMING_RULES, framing_code
from schedules.tables import load, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.derived import Derived
    from schedules.framing.framing_plan import FramingPlan
    from schedules.working import Source


def check_framing(derived: Derived) -> Iterator[Finding]:
    """Check holes and notches, steel plates and ties, and ask what each planned raceway passes."""
    source = rule("stud_hole_edge", framing_code(derived.job), FRAMING_RULES).source
    for plan in derived.framing:
        if not plan.allowed:
            yield _refused(plan, source)
        yield from _protection(plan)
        yield from _open(plan, source)
    yield from _edition(derived, source)
    yield from _unasked(derived, source)


def _refused(plan: FramingPlan, source: Source) -> Finding:
    framing = plan.framing
    decisive = plan.hole.working if plan.hole is not None and not plan.hole.allowed else None
    if decisive is None and plan.notch is not None:
        decisive = plan.notch.working
    return Finding(
        code="framing-cut",
        severity=Severity.STOP,
        subject=framing.tag,
        says=_why(plan),
        rule="framing keeps its strength: holes and notches stay within their share, and away from edges",
        source=source if decisive is None else decisive.source,
        numbers=() if decisive is None else decisive.inputs,
        answer=("framing", framing.tag, "hole"),
        remedies=_passable(plan),
    )


def _why(plan: FramingPlan) -> str:
    framing = plan.framing
    member = f"a {framing.lumber} {framing.member}"
    if framing.member != "joist":
        member += " of a wall that bears" if framing.bearing is not False else " of a wall that bears nothing"
    if plan.hole is not None and not plan.hole.allowed:
        return (
            f"{plan.passes} needs a hole of {plan.hole.diameter_in:g} in; {member} may have "
            f"{plan.hole.limit.limit_in:.2f} in and keeps {plan.hole.least_edge_in:g} in at its edge, "
            f"here {plan.hole.edge_in:.2f} in"
        )
    if plan.wider_than_plate:
        return f"{plan.passes} is wider than {member}"
    if plan.tight:
        return f"{plan.passes}, {plan.across_in or 0:.2f} in across, doesn't pass the cut that the job gives"
    if plan.furring_in is not None:
        return (
            f"{plan.passes} needs a furred space of {plan.furring_in:.2f} in, not {framing.furring or 0:g} in"
        )
    limit = plan.notch.limit_in if plan.notch is not None else 0.0
    return f"a notch of {framing.notch or 0:g} in for {plan.passes}; {member} may have {limit:.2f} in"


def _passable(plan: FramingPlan) -> tuple[Remedy, ...]:
    """Where the job's own cut is at fault: bore what the wiring needs, in the middle."""
    framing = plan.framing
    own = [key for key in ("hole", "notch", "edge") if getattr(framing, key) is not None]
    if framing.way != "through" or not own:
        return ()
    words = f"bore {framing.tag} in the middle, as large as {plan.passes} needs"
    return (Remedy(words, tuple(Edit("framing", framing.tag, key, None) for key in own)),)


def _protection(plan: FramingPlan) -> Iterator[Finding]:
    framing = plan.framing
    if plan.steel is not None and plan.steel.holds and not framing.steel_plate:
        yield _missing(plan, plan.steel, "steel-plate", "steel_plate", "a steel plate")
    if plan.tie is not None and plan.tie.holds and not framing.tie:
        yield _missing(plan, plan.tie, "plate-tie", "tie", "a metal tie across the top plate")


def _missing(plan: FramingPlan, verdict: Verdict, code: str, key: str, what: str) -> Finding:
    framing = plan.framing
    return Finding(
        code=code,
        severity=Severity.FIX,
        subject=framing.tag,
        says=f"where {plan.passes} passes a {framing.lumber} {framing.member}, {what} is needed and none is planned",
        rule="; ".join(verdict.reasons),
        source=verdict.working.source,
        numbers=verdict.working.inputs,
        answer=("framing", framing.tag, key),
        remedies=(Remedy(f"plan {what} at {framing.tag}", (Edit("framing", framing.tag, key, True),)),),
    )


def _open(plan: FramingPlan, source: Source) -> Iterator[Finding]:
    for words, key in plan.open:
        yield Finding(
            code=f"framing-{key}-open",
            severity=Severity.CHECK,
            subject=plan.framing.tag,
            says=f"for {plan.passes} in the {plan.framing.lumber} {plan.framing.member} nobody says {words}",
            rule="a cut is judged by what is known of the member; the builder answers for the rest",
            source=source,
            answer=("framing", plan.framing.tag, key),
        )


def _edition(derived: Derived, source: Source) -> Iterator[Finding]:
    asked = derived.job.job.residential_code
    if not derived.framing or str(asked) in load(FRAMING_RULES).editions:
        return
    used = framing_code(derived.job)
    why = (
        "the job doesn't say which edition of the residential code is adopted"
        if asked is None
        else (f"the framing rules of IRC {asked} aren't carried")
    )
    yield Finding(
        code="framing-edition-open",
        severity=Severity.CHECK,
        subject="residential code",
        says=f"{why}: holes and notches are judged by IRC {used}; the authority having jurisdiction decides",
        rule="framing is cut as the adopted residential code allows",
        source=source,
        answer=("job", None, "residential_code"),
    )


def _unasked(derived: Derived, source: Source) -> Iterator[Finding]:
    """A raceway whose way nobody described: what it passes decides whether it fits at all."""
    known = {framing.raceway for framing in derived.job.framing}
    for raceway in derived.raceways:
        if raceway.raceway not in known:
            yield Finding(
                code="framing-open",
                severity=Severity.CHECK,
                subject=raceway.raceway,
                says=(
                    f"nobody says which studs, plates or joists {raceway.raceway} ({raceway.kind} "
                    f"{raceway.size or 'of unknown size'}) passes: a large raceway doesn't go through a thin wall"
                ),
                rule="framing may be bored only so far",
                source=source,
                answer=("framing", None, "raceway"),
            )
