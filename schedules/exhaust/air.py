"""How dense and how viscous the air in a duct is, by altitude and temperature."""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.answers import resting_on
from schedules.tables import load
from schedules.working import Input, Source, Working

_IN_PER_FT = 12
_F_TO_RANKINE = 459.67
_RANKINE_PER_KELVIN = 1.8
_HIGHEST_FT = 36_000
_PROPERTIES = "air_properties"


@dataclass(frozen=True, slots=True)
class Air:
    """Air in a duct: density [lb/ft³], kinematic viscosity [ft²/s], density over that of standard air.

    reference_fpm: the speed [fpm] whose velocity pressure is 1 in wg in air of 1 lb/ft³.
    """

    density_lb_cu_ft: float
    viscosity_sq_ft_s: float
    density_ratio: float
    reference_fpm: float
    working: Working

    def velocity_pressure(self, velocity_fpm: float) -> float:
        """Velocity pressure [in wg] at this speed [fpm]: density · (v / 1097)²."""
        return self.density_lb_cu_ft * (velocity_fpm / self.reference_fpm) ** 2


def standard_air() -> Air:
    """Air of 70 °F at sea level, in which fan curves are given."""
    temperature, _ = _property("standard_temperature")
    return air_at(altitude_in=0.0, temperature_c=(temperature - 32) / 1.8)


def air_at(*, altitude_in: float, temperature_c: float) -> Air:
    """Air at an altitude above sea level [in] and a temperature [°C]: gas law, standard atmosphere, Sutherland.

    Raises ValueError above 36,000 ft, far below sea level, or at no possible temperature.
    """
    altitude_ft = altitude_in / _IN_PER_FT
    warm_r = temperature_c * _RANKINE_PER_KELVIN + 32 + _F_TO_RANKINE
    if not -2_000 <= altitude_ft <= _HIGHEST_FT or warm_r <= 0:
        raise ValueError(f"altitude to 36,000 ft, temperature above absolute zero; found {altitude_ft:g} ft")
    density, density_source = _property("standard_density")
    viscosity, viscosity_source = _property("standard_viscosity")
    standard_f, _ = _property("standard_temperature")
    lapse, lapse_source = _property("lapse")
    exponent, _ = _property("lapse_exponent")
    sutherland, sutherland_source = _property("sutherland_constant")
    standard_r = standard_f + _F_TO_RANKINE
    pressure_ratio = math.pow(1 - lapse * altitude_ft, exponent)
    ratio = pressure_ratio * standard_r / warm_r
    warm_k, standard_k = warm_r / _RANKINE_PER_KELVIN, standard_r / _RANKINE_PER_KELVIN
    thicker = math.pow(warm_k / standard_k, 1.5) * (standard_k + sutherland) / (warm_k + sutherland)
    return Air(
        density * ratio,
        viscosity * thicker / ratio,
        ratio,
        _property("velocity_pressure_constant")[0],
        Working(
            name="density of the air",
            formula="standard density x pressure ratio of the altitude x standard over actual absolute temperature",
            inputs=(
                Input("standard density", f"{density:g} lb/ft³", str(density_source)),
                Input("altitude", f"{altitude_ft:g} ft"),
                Input("pressure ratio", f"{pressure_ratio:.4f}", str(lapse_source)),
                Input("temperature", f"{temperature_c:g} °C"),
            ),
            result=f"{density * ratio:.4f} lb/ft³, {ratio:.3f} of standard air",
            source=resting_on(
                "gas law, standard atmosphere",
                density_source,
                viscosity_source,
                lapse_source,
                sutherland_source,
            ),
        ),
    )


def _property(name: str) -> tuple[float, Source]:
    table = load(_PROPERTIES)
    row = table.row(name)
    return row.number("value"), table.source(row, "value")
