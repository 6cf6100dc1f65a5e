"""What a duct costs the air in it: speed, friction, fittings, all together for one airflow."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import resting_on
from schedules.tables import load
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.exhaust.air import Air
    from schedules.exhaust.duct_fittings import Coefficient

_IN_PER_FT = 12
_SQ_IN_PER_SQ_FT = 144
_SECONDS_PER_MINUTE = 60
_LAMINAR_BELOW = 2_300.0
_ROUNDS = 60
_ROUGHNESS = "duct_roughness"
_FRICTION = Source("Darcy–Weisbach and Colebrook, ASHRAE Fundamentals", Confidence.TWO_TEXTS)


@dataclass(frozen=True, slots=True)
class Section:
    """A duct's cross-section: its free area [sq in] and the round duct of equal friction [in]."""

    name: str
    area_sq_in: float
    friction_diameter_in: float
    round_: bool


@dataclass(frozen=True, slots=True)
class Surface:
    """A duct's inside: roughness [in], whether the model code lets it serve a hood, whether it is flexible."""

    name: str
    roughness_in: float
    hood_duct: bool
    flexible: bool
    source: Source


@dataclass(frozen=True, slots=True)
class Friction:
    """Friction of a straight duct [in wg] with the factor it came from."""

    pressure_in_wg: float
    factor: float
    reynolds: float
    working: Working


@dataclass(frozen=True, slots=True)
class Run:
    """A whole duct: section, straight length [in], surface, every fitting with the area its coefficient is for."""

    section: Section
    length_in: float
    surface: Surface
    fittings: tuple[Coefficient, ...]


@dataclass(frozen=True, slots=True)
class Loss:
    """What a whole duct costs at one airflow [in wg]: friction, fittings, speed in the duct [fpm]."""

    airflow_cfm: float
    friction_in_wg: float
    fittings_in_wg: float
    velocity_fpm: float
    working: Working

    @property
    def pressure_in_wg(self) -> float:
        """Friction and fittings together [in wg]."""
        return self.friction_in_wg + self.fittings_in_wg


def round_section(diameter_in: float) -> Section:
    """A round duct [in]. Raises ValueError for a diameter that is not above zero."""
    if diameter_in <= 0:
        raise ValueError(f"a duct's diameter is above 0, not {diameter_in:g} in")
    return Section(f"{diameter_in:g} in round", math.pi / 4 * diameter_in**2, diameter_in, round_=True)


def rectangular_section(width_in: float, height_in: float) -> Section:
    """A rectangular duct [in]; its friction is that of De = 1.30 (ab)^0.625 / (a + b)^0.25, ASHRAE.

    Raises ValueError for a side that is not above zero.
    """
    if width_in <= 0 or height_in <= 0:
        raise ValueError(f"a duct's sides are above 0, not {width_in:g} and {height_in:g} in")
    area = width_in * height_in
    equivalent = 1.30 * math.pow(area, 0.625) / math.pow(width_in + height_in, 0.25)
    return Section(f"{width_in:g} x {height_in:g} in", area, equivalent, round_=False)


def surface(name: str) -> Surface:
    """A duct's inside by name, e.g. `galvanized`. Raises LookupError for one not carried."""
    table = load(_ROUGHNESS)
    row = table.row(name)
    return Surface(
        row.text("name"),
        row.number("roughness_ft") * _IN_PER_FT,
        row.text("hood_duct") == "yes",
        row.text("flexible") == "yes",
        table.source(row, "roughness_ft"),
    )


def surfaces() -> tuple[str, ...]:
    """Names of every surface carried."""
    return tuple(row.text("surface") for row in load(_ROUGHNESS).rows)


def velocity(airflow_cfm: float, area_sq_in: float) -> float:
    """Mean speed of the air [fpm] through a free area [sq in]."""
    return airflow_cfm * _SQ_IN_PER_SQ_FT / area_sq_in


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Darcy friction factor: Colebrook above Reynolds 2300, below it 64/Re.

    Between 2300 and 4000 Colebrook stands on the safe side. Raises ValueError for a Reynolds number that is not
    above zero or a roughness below zero.
    """
    if reynolds <= 0 or relative_roughness < 0:
        raise ValueError(
            f"Reynolds number above 0, roughness 0 or more; found {reynolds:g}, {relative_roughness:g}"
        )
    if reynolds < _LAMINAR_BELOW:
        return 64 / reynolds
    # x = 1/√f; the right side changes x so little that repeating it settles to the last digit.
    x = 8.0
    for _ in range(_ROUNDS):
        following = -2 * math.log10(relative_roughness / 3.7 + 2.51 * x / reynolds)
        if following == x:
            break
        x = following
    return 1 / x**2


def friction_loss(
    airflow_cfm: float, section: Section, *, length_in: float, roughness_in: float, air: Air
) -> Friction:
    """Friction of a straight duct [in wg], Darcy–Weisbach with Colebrook.

    length_in: of the duct [in]. roughness_in: absolute roughness of its inside [in]. Raises ValueError for a
    negative airflow or length.
    """
    if airflow_cfm < 0 or length_in < 0:
        raise ValueError(f"airflow and length 0 or more, not {airflow_cfm:g} cfm and {length_in:g} in")
    reynolds, factor, per_length = _friction(airflow_cfm, section, roughness_in, air)
    pressure = per_length * length_in
    return Friction(
        pressure,
        factor,
        reynolds,
        Working(
            name="friction of the straight duct",
            formula="f · L / D · velocity pressure, 1/√f = −2 log(ε / 3.7 D + 2.51 / (Re √f))",
            inputs=(
                Input("airflow", f"{airflow_cfm:.0f} cfm"),
                Input("diameter of equal friction", f"{section.friction_diameter_in:.2f} in"),
                Input("length", f"{length_in / _IN_PER_FT:g} ft"),
                Input("roughness", f"{roughness_in / _IN_PER_FT:g} ft"),
                Input("Reynolds number", f"{reynolds:.0f}"),
                Input("friction factor", f"{factor:.4f}"),
            ),
            result=f"{pressure:.3f} in wg",
            source=_FRICTION,
            steps=(air.working,),
        ),
    )


def duct_pressure(airflow_cfm: float, run: Run, air: Air) -> float:
    """What a whole duct costs at an airflow [in wg], 0 or more; the number of `duct_loss` without its working."""
    _, _, per_length = _friction(airflow_cfm, run.section, run.surface.roughness_in, air)
    return per_length * run.length_in + math.fsum(_fitting_pressures(airflow_cfm, run, air))


def duct_loss(airflow_cfm: float, run: Run, air: Air) -> Loss:
    """What a whole duct costs at an airflow [in wg]: friction and every fitting at the speed it is given for.

    Raises ValueError for a negative airflow.
    """
    friction = friction_loss(
        airflow_cfm,
        run.section,
        length_in=run.length_in,
        roughness_in=run.surface.roughness_in,
        air=air,
    )
    pressures = _fitting_pressures(airflow_cfm, run, air)
    speed = velocity(airflow_cfm, run.section.area_sq_in)
    return Loss(
        airflow_cfm,
        friction.pressure_in_wg,
        math.fsum(pressures),
        speed,
        Working(
            name=f"loss of the duct at {airflow_cfm:.0f} cfm",
            formula="friction + sum of coefficient x velocity pressure",
            inputs=(
                Input("section", run.section.name),
                Input("surface", run.surface.name, str(run.surface.source)),
                Input("speed", f"{speed:.0f} fpm"),
                *(
                    Input(fitting.name, f"C {fitting.value:.2f}: {pressure:.3f} in wg", str(fitting.source))
                    for fitting, pressure in zip(run.fittings, pressures, strict=True)
                ),
            ),
            result=f"{friction.pressure_in_wg + math.fsum(pressures):.3f} in wg",
            source=resting_on(_FRICTION.citation, *_sources(run)),
            steps=(friction.working,),
        ),
    )


def _sources(run: Run) -> tuple[Source, ...]:
    """Published sources of a run; what the maker's own sheet gives is as good as the sheet."""
    published = (run.surface.source, *(item.source for item in run.fittings))
    return (_FRICTION, *(source for source in published if source.confidence is not Confidence.SHEET))


def _friction(
    airflow_cfm: float, section: Section, roughness_in: float, air: Air
) -> tuple[float, float, float]:
    """Reynolds number, friction factor, pressure per length [in wg per in]."""
    if airflow_cfm == 0:
        return 0.0, 0.0, 0.0
    diameter = section.friction_diameter_in
    # Equal friction holds at the same airflow in the round duct of that diameter, so its speed is meant.
    speed = velocity(airflow_cfm, math.pi / 4 * diameter**2)
    reynolds = speed / _SECONDS_PER_MINUTE * diameter / _IN_PER_FT / air.viscosity_sq_ft_s
    factor = friction_factor(reynolds, roughness_in / diameter)
    return reynolds, factor, factor / diameter * air.velocity_pressure(speed)


def _fitting_pressures(airflow_cfm: float, run: Run, air: Air) -> tuple[float, ...]:
    return tuple(
        fitting.value * air.velocity_pressure(velocity(airflow_cfm, fitting.area_sq_in))
        for fitting in run.fittings
    )


def equivalent_length(coefficient: float, diameter_in: float, factor: float) -> float:
    """Straight duct that costs as much as a fitting [in]: C · D / f. Right for one size and airflow only."""
    return coefficient * diameter_in / factor
