"""How much air the fan moves through this duct, and how long the duct may be."""

from __future__ import annotations

import bisect
import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import resting_on
from schedules.exhaust.ducts import Run, duct_loss, duct_pressure, friction_loss, velocity
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.exhaust.air import Air

_IN_PER_FT = 12
_HALVINGS = 80
_LEAST_POINTS = 3
_SLICES = 16
"""Pieces into which a curve that rises somewhere is cut between two points; a falling one meets its duct once."""

_CURVE = Source("sheet's fan curve", Confidence.SHEET)


@dataclass(frozen=True, slots=True)
class FanCurve:
    """A fan's pressure [in wg] over its airflow [cfm] in standard air.

    outlet_sq_in: the outlet's area where the curve is fan static pressure: its velocity pressure is then added, so
    that the whole duct with its exit stands against it. None where the curve is total pressure.
    """

    airflow_cfm: tuple[float, ...]
    pressure_in_wg: tuple[float, ...]
    slopes: tuple[float, ...]
    outlet_sq_in: float | None


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where fan and duct meet: airflow [cfm], the duct's total loss and what a manometer at the fan shows [in wg]."""

    airflow_cfm: float
    loss_in_wg: float
    static_in_wg: float
    velocity_fpm: float
    working: Working


@dataclass(frozen=True, slots=True)
class LongestRun:
    """The longest straight duct with these fittings that still moves an airflow [in]; below 0 where none does."""

    length_in: float
    working: Working


class NoOperatingPointError(ValueError):
    """Fan and duct meet nowhere on the curve, or where the fan is unsteady."""


def fan_curve(points: tuple[tuple[float, float], ...], *, outlet_sq_in: float | None) -> FanCurve:
    """A fan curve from points (cfm, in wg), joined so that no swing is invented between them (Fritsch–Carlson).

    outlet_sq_in: the fan outlet's area [sq in] for a curve of fan static pressure, None for total pressure. Raises
    ValueError for fewer than three points, airflows that don't rise, or a negative figure.
    """
    flows, pressures = tuple(flow for flow, _ in points), tuple(pressure for _, pressure in points)
    if len(points) < _LEAST_POINTS:
        raise ValueError(f"a fan curve has at least three points, not {len(points)}")
    if any(after <= before for before, after in itertools.pairwise(flows)):
        raise ValueError("the airflows of a fan curve rise from point to point")
    if min(flows) < 0 or min(pressures) < 0 or (outlet_sq_in is not None and outlet_sq_in <= 0):
        raise ValueError("airflows and pressures are 0 or more, an outlet's area above 0")
    return FanCurve(flows, pressures, _slopes(flows, pressures), outlet_sq_in)


def fan_pressure(curve: FanCurve, airflow_cfm: float, air: Air) -> float:
    """The pressure as the curve gives it [in wg], at this air's density. Raises ValueError outside the curve."""
    value, _ = _on_curve(curve, airflow_cfm)
    return value * air.density_ratio


def total_pressure(curve: FanCurve, airflow_cfm: float, air: Air) -> float:
    """Total pressure that the fan gives [in wg]: the curve, and for a static one the outlet's velocity pressure."""
    pressure = fan_pressure(curve, airflow_cfm, air)
    if curve.outlet_sq_in is None:
        return pressure
    return pressure + air.velocity_pressure(velocity(airflow_cfm, curve.outlet_sq_in))


def operating_point(curve: FanCurve, run: Run, air: Air) -> OperatingPoint:
    """Where the fan's total pressure equals the duct's loss, its exit counted in.

    The airflow hardly changes with altitude, since both scale with density; the pressure shown by a manometer does.
    Raises NoOperatingPointError where they don't meet on the curve, meet twice, or meet where the curve rises.
    """

    def spare(airflow: float) -> float:
        return total_pressure(curve, airflow, air) - duct_pressure(airflow, run, air)

    crossings = _crossings(curve, spare)
    if not crossings:
        ends = "even at the end of the fan's curve" if spare(curve.airflow_cfm[-1]) > 0 else "anywhere on it"
        raise NoOperatingPointError(f"fan and duct don't meet: the fan's pressure is not used up {ends}")
    airflow = crossings[-1]
    _, slope = _on_curve(curve, airflow)
    if len(crossings) > 1 or slope > 0:
        raise NoOperatingPointError(f"the fan is unsteady near {airflow:.0f} cfm: its curve rises there")
    loss = duct_loss(airflow, run, air)
    static = fan_pressure(curve, airflow, air)
    total = total_pressure(curve, airflow, air)
    return OperatingPoint(
        airflow,
        loss.pressure_in_wg,
        static,
        loss.velocity_fpm,
        Working(
            name="airflow through this duct",
            formula="where the fan's total pressure equals the duct's loss, both at this air's density",
            inputs=(
                Input("duct's loss", f"{loss.pressure_in_wg:.3f} in wg"),
                Input("fan's total pressure", f"{total:.3f} in wg"),
                *_of_static(static, total),
                Input("speed in the duct", f"{loss.velocity_fpm:.0f} fpm"),
            ),
            result=f"{airflow:.0f} cfm",
            source=_with_curve(loss.working.source),
            steps=(loss.working,),
        ),
    )


def _of_static(static_in_wg: float, total_in_wg: float) -> tuple[Input, ...]:
    """What a static curve's total pressure is made of [in wg]; a total one is read off as it is."""
    if static_in_wg == total_in_wg:
        return ()
    velocity_in_wg = total_in_wg - static_in_wg
    return (
        Input("of it by the curve, static", f"{static_in_wg:.3f} in wg"),
        Input("of it the outlet's velocity pressure", f"{velocity_in_wg:.3f} in wg"),
    )


def longest_run(curve: FanCurve, run: Run, air: Air, *, least_cfm: float) -> LongestRun:
    """The longest straight duct [in] with the run's fittings at which the fan still moves least_cfm [cfm].

    Raises ValueError where least_cfm lies outside the curve.
    """
    whole = duct_loss(least_cfm, run, air)
    left = total_pressure(curve, least_cfm, air) - whole.fittings_in_wg
    per_inch = friction_loss(
        least_cfm, run.section, length_in=1.0, roughness_in=run.surface.roughness_in, air=air
    ).pressure_in_wg
    length = left / per_inch
    return LongestRun(
        length,
        Working(
            name=f"longest straight duct for {least_cfm:.0f} cfm",
            formula="(fan's total pressure − fittings) / friction per length",
            inputs=(
                Input("fan's total pressure", f"{total_pressure(curve, least_cfm, air):.3f} in wg"),
                Input("fittings", f"{whole.fittings_in_wg:.3f} in wg"),
                Input("friction", f"{per_inch * _IN_PER_FT * 100:.3f} in wg per 100 ft"),
            ),
            result="none" if length <= 0 else f"{length / _IN_PER_FT:.1f} ft",
            source=_with_curve(whole.working.source),
            steps=(whole.working,),
        ),
    )


def _with_curve(source: Source) -> Source:
    """The source of a number made from the sheet's curve and a duct's loss: no better confirmed than the loss."""
    return resting_on(f"{_CURVE.citation}; {source.citation}", source)


def _slopes(flows: tuple[float, ...], pressures: tuple[float, ...]) -> tuple[float, ...]:
    """Slope of the curve at each point by Fritsch and Butland: 0 at a peak or valley, else a weighted harmonic mean."""
    widths = [after - before for before, after in itertools.pairwise(flows)]
    steps = [
        (after - before) / width
        for (before, after), width in zip(itertools.pairwise(pressures), widths, strict=True)
    ]
    inner = [
        _harmonic(left, right, width_left, width_right)
        for (left, right), (width_left, width_right) in zip(
            itertools.pairwise(steps), itertools.pairwise(widths), strict=True
        )
    ]
    first = _end_slope(widths[0], widths[1], steps[0], steps[1])
    last = _end_slope(widths[-1], widths[-2], steps[-1], steps[-2])
    return (first, *inner, last)


def _harmonic(left: float, right: float, width_left: float, width_right: float) -> float:
    if left * right <= 0:
        return 0.0
    near, far = 2 * width_right + width_left, width_right + 2 * width_left
    return (near + far) / (near / left + far / right)


def _end_slope(width: float, next_width: float, step: float, next_step: float) -> float:
    """One-sided parabola, held back so that the end piece neither turns nor overshoots."""
    slope = ((2 * width + next_width) * step - width * next_step) / (width + next_width)
    if slope * step <= 0:
        return 0.0
    if step * next_step <= 0 and abs(slope) > 3 * abs(step):
        return 3 * step
    return slope


def _on_curve(curve: FanCurve, airflow_cfm: float) -> tuple[float, float]:
    """Pressure and slope of the cubic piece at this airflow."""
    flows = curve.airflow_cfm
    if not flows[0] <= airflow_cfm <= flows[-1]:
        raise ValueError(
            f"the fan's curve runs from {flows[0]:g} to {flows[-1]:g} cfm, not to {airflow_cfm:.0f}"
        )
    place = min(bisect.bisect_right(flows, airflow_cfm), len(flows) - 1) - 1
    width = flows[place + 1] - flows[place]
    low, high = curve.pressure_in_wg[place], curve.pressure_in_wg[place + 1]
    start, end = curve.slopes[place] * width, curve.slopes[place + 1] * width
    t = (airflow_cfm - flows[place]) / width
    square, cube = 3 * (high - low) - 2 * start - end, 2 * (low - high) + start + end
    value = low + t * (start + t * (square + t * cube))
    slope = (start + t * (2 * square + 3 * t * cube)) / width
    return value, slope


def _crossings(curve: FanCurve, spare: Callable[[float], float]) -> list[float]:
    """Every airflow at which the spare pressure changes sign, between slices fine enough for one bend each."""
    found = []
    falls = all(slope <= 0 for slope in curve.slopes)
    slices = 1 if falls else _SLICES
    for low, high in itertools.pairwise(curve.airflow_cfm):
        marks = [low + (high - low) * step / slices for step in range(slices + 1)]
        for before, after in itertools.pairwise(marks):
            if (spare(before) > 0) != (spare(after) > 0):
                found.append(_halve(spare, before, after))
    return found


def _halve(spare: Callable[[float], float], low: float, high: float) -> float:
    rising = spare(high) > 0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if (spare(middle) > 0) == rising:
            high = middle
        else:
            low = middle
        if math.isclose(low, high, rel_tol=1e-12):
            break
    return (low + high) / 2
