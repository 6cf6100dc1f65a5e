"""Is the duct a hood duct, wide enough, short enough, and does it end where it may?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.checks.asking import ask
from schedules.exhaust.duct_limits import Speed
from schedules.exhaust.operation import narrower
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.mechanical_code import residential_code
from schedules.practice import practice
from schedules.quantities.lengths import format_length
from schedules.tables import rule
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.exhaust.operation import Exhaust

_SUBJECT = "duct"
_IRC = "irc_mechanical_rules"
_IN_PER_FT = 12
_SHEET = Source("sheet's collar and fan curve", Confidence.SHEET)


def check_duct(derived: Derived) -> Iterator[Finding]:
    """Report duct, fittings, airflow, length, inline fan and outlet."""
    exhaust = derived.exhaust
    if exhaust is None:
        return
    if exhaust.missing:
        yield ask("duct-unknown", _SUBJECT, exhaust.missing, given=exhaust.given, what="the exhaust duct")
    yield from _kind(derived, exhaust)
    yield from _width(derived, exhaust)
    yield from _airflow(derived, exhaust)
    yield from _inline(derived, exhaust)
    yield from _outlet(derived)


def _kind(derived: Derived, exhaust: Exhaust) -> Iterator[Finding]:
    edition = residential_code(derived.job)
    lining = exhaust.surface
    if lining is None or lining.hood_duct:
        return
    source = lining.source if edition is None else rule("duct_material", edition, _IRC).source
    why = "flexible duct is not smooth inside and sags" if lining.flexible else "this is none of them"
    yield Finding(
        code="duct-flexible" if lining.flexible else "duct-material",
        severity=Severity.FIX,
        subject=_SUBJECT,
        says=f"the duct is {lining.name}: {why}",
        rule="a hood's duct is of galvanised steel, stainless steel or copper, smooth inside and airtight",
        source=source,
        answer=("duct", None, "surface"),
        remedies=(Remedy("use galvanised steel duct", (Edit("duct", None, "surface", "galvanized"),)),),
    )


def _width(derived: Derived, exhaust: Exhaust) -> Iterator[Finding]:
    duct = derived.job.duct
    collar = exhaust.collar
    if narrower(exhaust) and exhaust.section is not None:
        yield Finding(
            code="duct-reduced",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"the duct, {exhaust.section.name}, is narrower than the hood's collar, {collar.name}",
            rule="a hood's duct is nowhere narrower than its collar",
            source=_SHEET,
            numbers=(
                Input("duct", f"{exhaust.section.area_sq_in:.1f} sq in"),
                Input("collar", f"{collar.area_sq_in:.1f} sq in", "sheet"),
            ),
            answer=("duct", None, "diameter" if duct.diameter is not None else "width"),
        )
    straight, section = duct.straight_first, exhaust.section
    needed = practice("straight_before_elbow")
    if straight is not None and section is not None and derived.job.fitting:
        least = needed.number * section.friction_diameter_in
        if straight < least:
            yield Finding(
                code="elbow-at-collar",
                severity=Severity.CHECK,
                subject=_SUBJECT,
                says=f"an elbow comes {format_length(straight)} after the collar, {format_length(least)} is better",
                rule=needed.words,
                source=needed.source,
                answer=("duct", None, "straight_first"),
                remedies=(
                    Remedy(
                        f"lead the duct {format_length(least, rounding='up')} straight before it bends",
                        (Edit("duct", None, "straight_first", format_length(least, rounding="up")),),
                    ),
                ),
            )
    bay = duct.stud_bay
    side = min(filter(None, (duct.diameter, duct.width, duct.height)), default=None)
    if bay is not None and side is not None and side > bay:
        yield Finding(
            code="duct-in-wall",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"the duct is {format_length(side)} thick, the stud bay {format_length(bay)} deep",
            rule="a duct runs between studs that it fits, and never through one",
            source=Source("framing depth", Confidence.JOB),
            answer=("duct", None, "stud_bay"),
            remedies=(
                Remedy("lead it in front of the wall, in a chase", (Edit("duct", None, "stud_bay", None),)),
            ),
        )


def _airflow(derived: Derived, exhaust: Exhaust) -> Iterator[Finding]:
    for words in exhaust.refusals:
        yield Finding(
            code="duct-not-solved",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"the airflow can't be worked out: {words}",
            rule="every fitting has a known loss, and the fan works on the falling part of its curve",
            source=_SHEET,
            answer=("duct", None, "length"),
        )
    for guess in exhaust.guessed:
        yield Finding(
            code="loss-unknown",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"the loss of the {guess.name} is not known: {guess.value:g} velocity pressures are counted",
            rule="no published value stands for flaps: the maker's sheet is asked for, or the airflow measured",
            source=Source("losses of caps and dampers", Confidence.COMMON_PRACTICE),
            answer=guess.answer,
        )
    point, wanted = exhaust.point, exhaust.wanted_cfm
    if point is None:
        return
    if wanted is not None and point.airflow_cfm < wanted:
        longest = exhaust.longest
        says = (
            f"the fan moves {point.airflow_cfm:.0f} cfm here, {wanted:g} cfm is wanted by {exhaust.wanted_by}"
        )
        if longest is not None and longest.length_in > 0:
            says += f"; straight duct with these fittings at most {longest.length_in / _IN_PER_FT:.1f} ft"
        elif longest is not None:
            says += "; with these fittings no straight duct is short enough"
        yield Finding(
            code="airflow-short",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=says,
            rule="fan and duct together move what the range needs",
            source=point.working.source,
            numbers=point.working.inputs,
            answer=("duct", None, "length"),
        )
    if exhaust.speed is Speed.LOUD:
        loud = practice("duct_speed_loud")
        yield Finding(
            code="duct-loud",
            severity=Severity.NOTE,
            subject=_SUBJECT,
            says=f"air runs at {point.velocity_fpm:.0f} fpm: it will be heard",
            rule=loud.words,
            source=loud.source,
            numbers=(Input("heard above", f"{loud.number:g} fpm"),),
            answer=("duct", None, "diameter"),
        )
    yield from _length(derived, exhaust)


def _length(derived: Derived, exhaust: Exhaust) -> Iterator[Finding]:
    length, fan = derived.job.duct.length, exhaust.fan
    if length is None or fan is None:
        return
    if fan.longest_duct is not None and length > fan.longest_duct:
        yield Finding(
            code="duct-long",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"{length / _IN_PER_FT:g} ft of straight duct, its maker allows {fan.longest_duct / _IN_PER_FT:g} ft",
            rule="the duct is no longer than the hood's maker allows",
            source=_SHEET,
            answer=("duct", None, "length"),
        )
    code = exhaust.code_length
    if code is not None and length > code.length_in:
        yield Finding(
            code="duct-long-by-code",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"{length / _IN_PER_FT:g} ft of duct, the code's table has {code.working.result}",
            rule="the code's table of duct lengths, unless the maker's design or a measurement stands in its place",
            source=code.working.source,
            numbers=code.working.inputs,
            answer=("duct", None, "length"),
        )


def _inline(derived: Derived, exhaust: Exhaust) -> Iterator[Finding]:
    if exhaust.fan is None or exhaust.fan.place != "inline":
        return
    duct = derived.job.duct
    if duct.arrow == "hood":
        yield Finding(
            code="fan-backwards",
            severity=Severity.STOP,
            subject="fan",
            says="the inline fan's arrow points towards the hood: it blows smoke into the kitchen",
            rule="the arrow on an inline fan points the way the air goes, to the outlet",
            source=Source("direction of airflow", Confidence.COMMON_PRACTICE),
            answer=("duct", None, "arrow"),
            remedies=(Remedy("turn the fan round", (Edit("duct", None, "arrow", "outlet"),)),),
        )
    if duct.fan_access is False:
        yield Finding(
            code="fan-no-access",
            severity=Severity.FIX,
            subject="fan",
            says="the inline fan can't be reached without opening the building",
            rule="a fan that is cleaned and replaced stays reachable",
            source=Source("service of inline fans", Confidence.COMMON_PRACTICE),
            answer=("duct", None, "fan_access"),
            remedies=(Remedy("leave a hatch to it", (Edit("duct", None, "fan_access", value=True),)),),
        )


def _outlet(derived: Derived) -> Iterator[Finding]:
    """Distances of the outlet, IRC M1504.3."""
    edition, duct = residential_code(derived.job), derived.job.duct
    if edition is None:
        return
    above = rule("termination_above_intake", edition, _IRC).number * _IN_PER_FT
    high_enough = duct.above_intake is not None and duct.above_intake >= above
    for key, name, subject, what in (
        ("to_property_line", "termination_property_line", "outlet, property line", "the property line"),
        ("to_opening", "termination_opening", "outlet, window", "a window or door that opens"),
        ("to_intake", "termination_intake", "outlet, intake", "an air intake"),
    ):
        distance: float | None = getattr(duct, key)
        least = rule(name, edition, _IRC)
        if distance is None or distance >= least.number * _IN_PER_FT or (key == "to_intake" and high_enough):
            continue
        yield Finding(
            code="outlet-near",
            severity=Severity.FIX,
            subject=subject,
            says=f"the outlet is {format_length(distance)} from {what}, {least.number:g} ft is the least",
            rule=least.words,
            source=least.source,
            numbers=(Input("distance", format_length(distance), "job"),),
            answer=("duct", None, key),
            remedies=(
                Remedy(
                    f"set the outlet at least {least.number:g} ft from {what}",
                    (Edit("duct", None, key, f"{least.number:g} ft"),),
                ),
            ),
        )
