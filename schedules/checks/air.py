"""Does enough air come in for what the hood takes out, does its damper follow, and is any flue endangered?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.behaviour.make_up_wiring import make_up_wiring
from schedules.checks.asking import ask
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.make_up.make_up_air import interlock
from schedules.mechanical_code import residential_code
from schedules.practice import practice
from schedules.tables import rule
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.make_up.house_air import HouseAir

_SUBJECT = "make-up air"
_IRC = "irc_mechanical_rules"
_DAMPER_RULE_SINCE = 2015


def check_air(derived: Derived) -> Iterator[Finding]:
    """Report make-up air that is missing, too little or wrongly switched, and flues at risk."""
    air = derived.house_air
    if air is None:
        return
    if air.missing:
        yield ask("air-unknown", _SUBJECT, air.missing, given=air.given, what="make-up air")
    yield from _enough(derived, air)
    yield from _damper(derived)
    yield from _flue(derived, air)


def _enough(derived: Derived, air: HouseAir) -> Iterator[Finding]:
    needed, plan = air.needed, derived.job.air
    if needed is None or not needed.required.holds:
        return
    source = needed.required.working.source
    wanted = needed.airflow_cfm
    if plan.make_up == "none":
        yield Finding(
            code="make-up-none",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"no make-up air is planned: {'; '.join(needed.required.reasons)}",
            rule="above the code's airflow about as much air is let in as the hood takes out",
            source=source,
            numbers=needed.required.working.inputs,
            answer=("air", None, "make_up"),
        )
    elif air.supplied_cfm is not None and not air.fan_is_enough:
        yield Finding(
            code="make-up-short",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"the make-up fan brings {air.supplied_cfm:g} cfm, about {wanted:.0f} cfm is wanted",
            rule="make-up air is about equal to the exhaust",
            source=source,
            answer=("air", None, "make_up_airflow"),
            remedies=(
                Remedy(
                    f"bring {wanted:.0f} cfm by the make-up fan",
                    (Edit("air", None, "make_up_airflow", f"{wanted:.0f} cfm"),),
                ),
            ),
        )
    elif air.opening is not None and plan.opening is not None and plan.opening < air.opening.area_sq_in:
        yield Finding(
            code="make-up-opening-small",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"the passive opening has {plan.opening:g} sq in free, {air.opening.area_sq_in:.0f} sq in are needed",
            rule="a passive opening lets the whole airflow in at the pressure it may cost the house",
            source=air.opening.working.source,
            numbers=air.opening.working.inputs,
            answer=("air", None, "opening"),
        )
    for judgement in needed.required.judgements:
        yield Finding(
            code="make-up-amended",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=judgement.question,
            rule=f"decided by {judgement.who_decides}",
            source=judgement.source,
            answer=("air", None, "book"),
        )


def _damper(derived: Derived) -> Iterator[Finding]:
    plan, code = derived.job.air, residential_code(derived.job)
    if plan.damper_access is False:
        source = Source("service of dampers", Confidence.COMMON_PRACTICE)
        if code is not None and int(code.year) >= _DAMPER_RULE_SINCE:
            source = rule("makeup_air_damper_access", code, _IRC).source
        yield Finding(
            code="damper-no-access",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says="the make-up damper can't be reached without cutting construction",
            rule="a make-up damper stays reachable for inspection, service and replacement",
            source=source,
            answer=("air", None, "damper_access"),
            remedies=(Remedy("leave a hatch to it", (Edit("air", None, "damper_access", value=True),)),),
        )
    wiring = None if plan.spring is None else make_up_wiring(derived)
    if plan.spring is None or wiring is None or wiring.contact is None:
        return
    right = interlock(spring=plan.spring, fire_exhaust=wiring.fire_exhaust, fire_make_up=wiring.fire_make_up)
    if wiring.contact != right.contact:
        other = "open" if plan.spring == "closed" else "closed"
        yield Finding(
            code="damper-spring-wrong",
            severity=Severity.STOP,
            subject=_SUBJECT,
            says=f"the damper springs {plan.spring}, so its contact has to be one that {right.contact}; the hood's "
            f"{wiring.contact}",
            rule="a damper is open while the exhaust runs: power opens one that springs closed, and shuts the other",
            source=right.working.source,
            numbers=right.working.inputs,
            answer=("air", None, "spring"),
            remedies=(Remedy(f"use a damper that springs {other}", (Edit("air", None, "spring", other),)),),
        )


def _flue(derived: Derived, air: HouseAir) -> Iterator[Finding]:
    """A house pulled down endangers a natural-draft appliance even below the code's airflow."""
    if not derived.job.air.natural_draft:
        return
    risk = practice("natural_draft_at_risk")
    low = min(risk.numbers)
    pressure = air.with_ if air.with_ is not None else air.without
    if pressure is None:
        yield Finding(
            code="flue-unknown",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"an appliance draws by itself, and what {air.exhaust_cfm:.0f} cfm do to the house is not known",
            rule="the house's leakage is measured by a blower door, or the appliance's draft with the hood running",
            source=risk.source,
            answer=("air", None, "leakage"),
        )
    elif pressure.highest_pa > low:
        yield Finding(
            code="flue-at-risk",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"the hood can pull the house {pressure.working.result} below outdoors: a natural-draft appliance "
            f"may spill from {low:g} Pa",
            rule="flue gas never comes back into the room, whatever the code asks of make-up air",
            source=risk.source,
            numbers=(*pressure.working.inputs, Input("at risk from", f"{low:g} to {max(risk.numbers):g} Pa")),
            answer=("air", None, "make_up"),
        )
