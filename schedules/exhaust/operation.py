"""One kitchen's exhaust: its duct, where its fan works on it, how long it may be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.exhaust.air import Air, air_at, standard_air
from schedules.exhaust.duct_fittings import (
    Coefficient,
    contraction,
    elbow_by_diameter,
    elbow_by_radius,
    enlargement,
    flat_elbow,
    free_exit,
    given_coefficient,
    mitred_elbow,
)
from schedules.exhaust.duct_limits import CodeLength, DuctSize, Speed, code_duct_length, round_duct, speed_of
from schedules.exhaust.ducts import Run, Section, Surface, rectangular_section, round_section, surface
from schedules.exhaust.fan_curve import (
    LongestRun,
    NoOperatingPointError,
    OperatingPoint,
    fan_curve,
    longest_run,
    operating_point,
)
from schedules.mechanical_code import residential_code
from schedules.practice import practice
from schedules.tables import rule

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.job.mechanical import Duct, DuctFitting
    from schedules.job.records import Job
    from schedules.sheet.hood import Collar, Fan, Hood
    from schedules.site.routes import Answer
    from schedules.working import Working

_SAME_AREA = 0.01
"""Areas that differ by less than this share count as one: a collar and its duct are never exactly alike."""

_BY_DIAMETER = ("stamped 90", "stamped 45", "pleated 90", "pleated 45", "gored 90", "gored 45")
_BY_RADIUS = ("three gores 90", "smooth 90")


@dataclass(frozen=True, slots=True)
class Guessed:
    """A loss that no maker's sheet gave: what it is, the value counted (the trade's high end), the job's answer."""

    name: str
    value: float
    answer: Answer


@dataclass(frozen=True, slots=True)
class Exhaust:
    """Everything about the exhaust; None where an answer is missing.

    refusals: fittings that the tables don't know, and why fan and duct don't meet, in words. wanted_cfm: least airflow
    that is asked for, wanted_by: who asks.
    """

    fan: Fan | None
    given: bool
    collar: Section
    section: Section | None
    surface: Surface | None
    air: Air
    run: Run | None
    guessed: tuple[Guessed, ...]
    point: OperatingPoint | None
    longest: LongestRun | None
    code_length: CodeLength | None
    advised: DuctSize | None
    wanted_cfm: float | None
    wanted_by: str
    refusals: tuple[str, ...]
    missing: tuple[Answer, ...]

    @property
    def speed(self) -> Speed | None:
        """What the trade says of the air's speed in the duct."""
        return None if self.point is None else speed_of(self.point.velocity_fpm)

    @property
    def workings(self) -> tuple[Working, ...]:
        """How its numbers came about."""
        parts = (self.point, self.longest, self.code_length, self.advised)
        return tuple(part.working for part in parts if part is not None)


def lead_exhaust(selection: Selection, job: Job) -> Exhaust | None:
    """Work out the exhaust; None where the sheet doesn't say what the hood's collar is."""
    hood = selection.sheet.hood
    return None if hood is None else exhaust_with(fan_of(selection), hood, job)


def fan_of(selection: Selection) -> Fan | None:
    """The fan that was chosen."""
    return next((item for item in selection.sheet.fan if item.when.holds(selection.choices)), None)


def exhaust_with(fan: Fan | None, hood: Hood, job: Job) -> Exhaust:
    """The exhaust of a hood with one fan: whatever else is chosen, it is the same."""
    duct = job.duct
    collar = section_of(hood.collar)
    section = duct_section(duct)
    lining = None if duct.surface is None else surface(duct.surface)
    air = _air(duct)
    fittings, guessed, refusals = _fittings(job, fan, collar, section)
    run = None
    if section is not None and lining is not None and duct.length is not None:
        run = Run(section, duct.length, lining, fittings)
    wanted, wanted_by = _wanted(job)
    point, longest = None, None
    if run is not None and fan is not None and not refusals:
        point, longest, refusals = _meet(fan, hood, run, air, wanted)
    return Exhaust(
        fan=fan,
        given=duct != type(duct)(),
        collar=collar,
        section=section,
        surface=lining,
        air=air,
        run=run,
        guessed=guessed,
        point=point,
        longest=longest,
        code_length=_code_length(job, fan, lining, section),
        advised=None if fan is None else round_duct(fan.rated, collar.area_sq_in),
        wanted_cfm=wanted,
        wanted_by=wanted_by,
        refusals=refusals,
        missing=_missing(duct, fan),
    )


def section_of(collar: Collar) -> Section:
    """The free section of a collar."""
    if collar.diameter is not None:
        return round_section(collar.diameter)
    return rectangular_section(collar.width or 0.0, collar.height or 0.0)


def duct_section(duct: Duct) -> Section | None:
    """The free section of the duct, None while it isn't known."""
    if duct.diameter is not None:
        return round_section(duct.diameter)
    if duct.width is not None and duct.height is not None:
        return rectangular_section(duct.width, duct.height)
    return None


def _missing(duct: Duct, fan: Fan | None) -> tuple[Answer, ...]:
    missing: list[Answer] = []
    if duct_section(duct) is None:
        missing.append(("duct", None, "diameter"))
    missing += [("duct", None, name) for name in ("surface", "length") if getattr(duct, name) is None]
    if duct.straight_first is None:
        missing.append(("duct", None, "straight_first"))
    if fan is not None and fan.place == "inline":
        missing += [("duct", None, name) for name in ("arrow", "fan_access") if getattr(duct, name) is None]
    return tuple(missing)


def _air(duct: Duct) -> Air:
    """Air at this altitude and temperature; at sea level and of 70 °F where the job is silent."""
    if duct.altitude is None and duct.air is None:
        return standard_air()
    return air_at(
        altitude_in=duct.altitude or 0.0, temperature_c=duct.air if duct.air is not None else (70 - 32) / 1.8
    )


def _wanted(job: Job) -> tuple[float | None, str]:
    if job.duct.wanted is not None:
        return job.duct.wanted, "the job"
    code = residential_code(job)
    if code is None:
        return None, ""
    least = rule("exhaust_least", code, "irc_mechanical_rules")
    return least.number, least.source.citation


def _fittings(
    job: Job, fan: Fan | None, collar: Section, section: Section | None
) -> tuple[tuple[Coefficient, ...], tuple[Guessed, ...], tuple[str, ...]]:
    if section is None:
        return (), (), ()
    found: list[Coefficient] = []
    refusals = []
    if fan is not None and fan.hood_loss is not None:
        found.append(given_coefficient("hood and filters", fan.hood_loss, collar.area_sq_in))
    found += _change(collar, section)
    for item in job.fitting:
        try:
            found += [_elbow(item, job.duct, section)] * item.count
        except (LookupError, ValueError) as error:
            refusals.append(f"{item.tag}, {item.kind}: {error}")
    guessed = []
    for name, key, given in (
        ("backdraft damper", "damper_loss", job.duct.damper_loss),
        ("cap", "cap_loss", job.duct.cap_loss),
    ):
        if given is None:
            counted = max(practice(key).numbers)
            guessed.append(Guessed(name, counted, ("duct", None, key)))
            source = practice(key).source
            found.append(Coefficient(name, counted, section.area_sq_in, source, "counted at the high end"))
        else:
            found.append(given_coefficient(name, given, section.area_sq_in))
    found.append(free_exit(section.area_sq_in))
    return tuple(found), tuple(guessed), tuple(refusals)


def _change(collar: Section, section: Section) -> list[Coefficient]:
    """Where the duct is not as wide as the collar, counted as sudden: a long taper costs less."""
    before, after = collar.area_sq_in, section.area_sq_in
    if abs(after - before) <= _SAME_AREA * before:
        return []
    return [enlargement(before, after)] if after > before else [contraction(before, after)]


def narrower(exhaust: Exhaust) -> bool:
    """Whether the duct is smaller than the hood's collar."""
    return exhaust.section is not None and (
        exhaust.section.area_sq_in < exhaust.collar.area_sq_in * (1 - _SAME_AREA)
    )


def _elbow(item: DuctFitting, duct: Duct, section: Section) -> Coefficient:
    """One elbow of the job. Raises LookupError or ValueError, in words, for what the tables can't give."""
    if item.kind == "other":
        if item.loss is None:
            raise ValueError("its loss coefficient is missing")
        return given_coefficient(f"fitting {item.tag}", item.loss, section.area_sq_in)
    if item.kind in _BY_DIAMETER:
        return elbow_by_diameter(item.kind, section.friction_diameter_in)
    if item.kind == "mitred 90":
        return mitred_elbow(*_bent(item, duct))
    if item.radius is None:
        raise ValueError("its radius is missing")
    if item.kind in _BY_RADIUS:
        ratio = item.radius / section.friction_diameter_in
        return elbow_by_radius(item.kind, ratio, section.area_sq_in)
    return flat_elbow(*_bent(item, duct), item.radius)


def _bent(item: DuctFitting, duct: Duct) -> tuple[float, float]:
    """The side that is bent round, then the one that stands along the bend's axis [in]."""
    if duct.width is None or duct.height is None:
        raise ValueError("a flat elbow in a duct that has no width and height")
    if item.turns is None:
        raise ValueError("which side is bent is missing")
    return (duct.width, duct.height) if item.turns == "width" else (duct.height, duct.width)


def _meet(
    fan: Fan, hood: Hood, run: Run, air: Air, wanted: float | None
) -> tuple[OperatingPoint | None, LongestRun | None, tuple[str, ...]]:
    outlet = section_of(fan.outlet or hood.collar).area_sq_in if fan.pressure == "static" else None
    try:
        curve = fan_curve(tuple((point.airflow, point.pressure) for point in fan.point), outlet_sq_in=outlet)
        longest = None
        if wanted is not None and curve.airflow_cfm[0] < wanted <= curve.airflow_cfm[-1]:
            longest = longest_run(curve, run, air, least_cfm=wanted)
        return operating_point(curve, run, air), longest, ()
    except NoOperatingPointError as error:
        return None, None, (str(error),)


def _code_length(
    job: Job, fan: Fan | None, lining: Surface | None, section: Section | None
) -> CodeLength | None:
    """The code's table, where it speaks of so small a fan and so wide a duct."""
    code = residential_code(job)
    if code is None or fan is None or lining is None or section is None or not section.round_:
        return None
    try:
        return code_duct_length(
            "flexible" if lining.flexible else "smooth",
            section.friction_diameter_in,
            fan.rated,
            elbows=sum(item.count for item in job.fitting),
            edition=code,
        )
    except LookupError:
        return None
