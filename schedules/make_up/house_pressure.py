"""What does the hood do to the house's pressure, and does it endanger an appliance that draws by itself?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.make_up.make_up_air import opening_airflow
from schedules.practice import practice
from schedules.working import Confidence, Input, Source, Working

_TEST_PA = 50.0
_HALVINGS = 60
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
    tried = _tried(net_exhaust_cfm, cfm50, exponent)
    return _reckoned(
        [_TEST_PA * math.pow(net_exhaust_cfm / cfm50, 1 / each) for each in tried],
        name="house below outdoors while the hood runs",
        formula="50 Pa · (net exhaust / leakage at 50 Pa)^(1/exponent)",
        inputs=(
            Input("net exhaust", f"{net_exhaust_cfm:.4g} cfm"),
            Input("leakage at 50 Pa", f"{cfm50:g} cfm", "blower door"),
            _exponent_input(tried[0], given=exponent is not None),
        ),
        note="wind, other fans and stack effect come on top",
    )


def airflow_within(pressure_pa: float, cfm50: float) -> float:
    """The net exhaust that pulls the house down by just this pressure [cfm], at the usual exponent.

    Raises ValueError for a figure that is not above zero.
    """
    if pressure_pa <= 0 or cfm50 <= 0:
        raise ValueError(f"pressure and leakage are above 0, not {pressure_pa:g} Pa and {cfm50:g} cfm")
    return cfm50 * math.pow(pressure_pa / _TEST_PA, practice("house_exponent").number)


def through_opening(
    exhaust_cfm: float, cfm50: float, opening_sq_in: float, *, exponent: float | None = None
) -> HousePressure:
    """How far an exhaust pulls a house below outdoors [Pa] that lets air in by its leaks and by a passive opening.

    The pressure at which both together pass the exhaust. opening_sq_in: free area. Otherwise as `depressurisation`;
    raises ValueError for an opening that is not above zero too.
    """
    if opening_sq_in <= 0:
        raise ValueError(f"an opening is above 0, not {opening_sq_in:g} sq in")
    tried = _tried(exhaust_cfm, cfm50, exponent)
    at_test = opening_airflow(opening_sq_in, _TEST_PA)
    return _reckoned(
        [_shared_pa(exhaust_cfm, cfm50, at_test, each) for each in tried],
        name="house below outdoors while the hood runs, its passive opening free",
        formula="the pressure at which leaks and opening together pass the exhaust",
        inputs=(
            Input("exhaust", f"{exhaust_cfm:.4g} cfm"),
            Input("leakage at 50 Pa", f"{cfm50:g} cfm", "blower door"),
            Input("opening, free", f"{opening_sq_in:g} sq in", "job"),
            _exponent_input(tried[0], given=exponent is not None),
        ),
        note="a sharp-edged opening; a duct to it, wind, other fans and stack effect come on top",
    )


def _reckoned(
    pressures: list[float], *, name: str, formula: str, inputs: tuple[Input, ...], note: str
) -> HousePressure:
    """The pressure at the first exponent tried, and the range over all of them [Pa]."""
    middle, low, high = pressures[0], min(pressures), max(pressures)
    spread = f" ({low:.1f} to {high:.1f} Pa)" if len(pressures) > 1 else ""
    result = f"{middle:.1f} Pa{spread}"
    working = Working(name=name, formula=formula, inputs=inputs, result=result, source=_LEAKAGE, note=note)
    return HousePressure(middle, low, high, high > _TEST_PA, working)


def _exponent_input(exponent: float, *, given: bool) -> Input:
    source = "blower door" if given else str(practice("house_exponent").source)
    return Input("exponent", f"{exponent:g}", source)


def _tried(exhaust_cfm: float, cfm50: float, exponent: float | None) -> tuple[float, ...]:
    """The exponents to reckon with, the likeliest first. Raises ValueError for figures that can't be."""
    if cfm50 <= 0 or exhaust_cfm < 0:
        raise ValueError(f"leakage above 0 and exhaust 0 or more, not {cfm50:g} and {exhaust_cfm:g} cfm")
    if exponent is not None and not 0.5 <= exponent <= 1:
        raise ValueError(f"a leakage exponent lies between 0.5 and 1, not {exponent:g}")
    if exponent is not None:
        return (exponent,)
    names = ("house_exponent", "house_exponent_low", "house_exponent_high")
    return tuple(practice(name).number for name in names)


def _shared_pa(exhaust_cfm: float, cfm50: float, opening_at_test_cfm: float, exponent: float) -> float:
    """Where leaks, growing by their exponent, and opening, growing by the root, pass the exhaust [Pa]."""
    low, high = 0.0, _TEST_PA * math.pow(exhaust_cfm / cfm50, 1 / exponent)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        share = middle / _TEST_PA
        passed = cfm50 * math.pow(share, exponent) + opening_at_test_cfm * math.sqrt(share)
        low, high = (middle, high) if passed < exhaust_cfm else (low, middle)
    return high
