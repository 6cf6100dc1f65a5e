"""What does the hood do to the house's pressure, and does it endanger an appliance that draws by itself?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.practice import practice
from schedules.working import Confidence, Input, Source, Working

_TEST_PA = 50.0
_LEAKAGE = Source("leakage of a house: airflow = C · pressure^n", Confidence.MEMORY)


@dataclass(frozen=True, slots=True)
class HousePressure:
    """How far below outdoors the house goes [Pa]: at the usual exponent, and between the common ones.

    beyond_test: above the pressure of the test, where the law is stretched.
    """

    pressure_pa: float
    lowest_pa: float
    highest_pa: float
    beyond_test: bool
    working: Working


def depressurisation(net_exhaust_cfm: float, cfm50: float, *, exponent: float | None = None) -> HousePressure:
    """How far an exhaust pulls a house below outdoors [Pa]: 50 · (Q / CFM50)^(1/n).

    net_exhaust_cfm: exhaust less make-up air [cfm]. cfm50: leakage at 50 Pa by the blower door [cfm]. exponent: as the
    test gave it; without it the usual one, with the common ones as a range. Wind, other fans and stack effect come on
    top. Raises ValueError for a leakage that is not above zero, a negative exhaust, or an exponent outside 0.5 to 1.
    """
    if cfm50 <= 0 or net_exhaust_cfm < 0:
        raise ValueError(f"leakage above 0 and exhaust 0 or more, not {cfm50:g} and {net_exhaust_cfm:g} cfm")
    if exponent is not None and not 0.5 <= exponent <= 1:
        raise ValueError(f"a leakage exponent lies between 0.5 and 1, not {exponent:g}")
    usual = practice("house_exponent")
    tried = (
        (usual.number, practice("house_exponent_low").number, practice("house_exponent_high").number)
        if exponent is None
        else (exponent,)
    )
    pressures = [_TEST_PA * math.pow(net_exhaust_cfm / cfm50, 1 / each) for each in tried]
    middle, low, high = pressures[0], min(pressures), max(pressures)
    spread = "" if exponent is not None else f" ({low:.1f} to {high:.1f} Pa)"
    return HousePressure(
        middle,
        low,
        high,
        high > _TEST_PA,
        Working(
            name="house below outdoors while the hood runs",
            formula="50 Pa · (net exhaust / leakage at 50 Pa)^(1/exponent)",
            inputs=(
                Input("net exhaust", f"{net_exhaust_cfm:.4g} cfm"),
                Input("leakage at 50 Pa", f"{cfm50:g} cfm", "blower door"),
                Input(
                    "exponent", f"{tried[0]:g}", "blower door" if exponent is not None else str(usual.source)
                ),
            ),
            result=f"{middle:.1f} Pa{spread}",
            source=_LEAKAGE,
            note="wind, other fans and stack effect come on top",
        ),
    )


def airflow_within(pressure_pa: float, cfm50: float) -> float:
    """The net exhaust that pulls the house down by just this pressure [cfm], at the usual exponent.

    Raises ValueError for a figure that is not above zero.
    """
    if pressure_pa <= 0 or cfm50 <= 0:
        raise ValueError(f"pressure and leakage are above 0, not {pressure_pa:g} Pa and {cfm50:g} cfm")
    return cfm50 * math.pow(pressure_pa / _TEST_PA, practice("house_exponent").number)
