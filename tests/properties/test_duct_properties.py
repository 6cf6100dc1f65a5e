"""What must hold for every duct: longer, rougher or more bent never moves more air; wider never less."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from schedules.exhaust.air import Air, air_at, standard_air
from schedules.exhaust.duct_fittings import elbow_by_diameter, free_exit, given_coefficient
from schedules.exhaust.ducts import Run, duct_pressure, friction_factor, round_section, surface, surfaces
from schedules.exhaust.fan_curve import FanCurve, fan_curve, fan_pressure, longest_run, operating_point

diameters = st.sampled_from((5.0, 6.0, 7.0, 8.0, 9.0, 10.0))
lengths = st.floats(0, 600)
names = st.sampled_from(surfaces())
elbow_counts = st.integers(0, 4)
airs = st.builds(air_at, altitude_in=st.floats(0, 100_000), temperature_c=st.floats(-20, 60))


def run_of(diameter: float, length: float, name: str, elbows: int, cap: float = 1.0) -> Run:
    section = round_section(diameter)
    return Run(
        section,
        length,
        surface(name),
        (
            *(elbow_by_diameter("gored 90", diameter),) * elbows,
            given_coefficient("cap", cap, section.area_sq_in),
            free_exit(section.area_sq_in),
        ),
    )


@st.composite
def falling_curves(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    flows = draw(st.lists(st.floats(20, 300), min_size=3, max_size=6))
    drops = draw(st.lists(st.floats(0.02, 0.5), min_size=len(flows), max_size=len(flows)))
    x = list(itertools.accumulate(flows, initial=0.0))
    falls = list(itertools.accumulate(drops, initial=0.0))
    return tuple((flow, falls[-1] - fall) for flow, fall in zip(x, falls, strict=True))


def airflow(points: tuple[tuple[float, float], ...], run: Run, air: Air | None = None) -> float:
    curve = fan_curve(points, outlet_sq_in=run.section.area_sq_in)
    return operating_point(curve, run, air or standard_air()).airflow_cfm


@given(falling_curves(), diameters, lengths, st.floats(0.1, 600), elbow_counts)
def test_a_longer_duct_never_moves_more_air(
    points: tuple[tuple[float, float], ...], diameter: float, length: float, more: float, elbows: int
) -> None:
    short, long = (run_of(diameter, each, "galvanized", elbows) for each in (length, length + more))
    assert airflow(points, long) <= airflow(points, short) * (1 + 1e-9)


@given(falling_curves(), diameters, lengths, elbow_counts, st.floats(0, 3))
def test_another_elbow_or_a_heavier_flap_never_moves_more_air(
    points: tuple[tuple[float, float], ...], diameter: float, length: float, elbows: int, heavier: float
) -> None:
    plain = airflow(points, run_of(diameter, length, "galvanized", elbows))
    assert airflow(points, run_of(diameter, length, "galvanized", elbows + 1)) <= plain * (1 + 1e-9)
    heavy = run_of(diameter, length, "galvanized", elbows, cap=1.0 + heavier)
    assert airflow(points, heavy) <= plain * (1 + 1e-9)


@given(falling_curves(), diameters, lengths)
def test_flexible_duct_never_moves_more_air_than_steel(
    points: tuple[tuple[float, float], ...], diameter: float, length: float
) -> None:
    steel, flexible = (run_of(diameter, length, name, 2) for name in ("galvanized", "flexible"))
    assert airflow(points, flexible) <= airflow(points, steel) * (1 + 1e-9)


runs = st.builds(run_of, diameters, lengths, names, elbow_counts)


@given(runs, st.floats(1, 1500), st.floats(0.1, 300), airs)
def test_more_air_always_costs_more_pressure(run: Run, flow: float, more: float, air: Air) -> None:
    assert duct_pressure(flow + more, run, air) > duct_pressure(flow, run, air)


@given(st.floats(1, 1e7), st.floats(0, 0.05), st.floats(1.0001, 10))
def test_friction_never_falls_with_speed(reynolds: float, relative: float, faster: float) -> None:
    """f · Re², which the pressure goes with, rises even where laminar flow ends."""
    slow, fast = reynolds, reynolds * faster
    assert friction_factor(fast, relative) * fast**2 > friction_factor(slow, relative) * slow**2


@given(falling_curves(), st.floats(0, 1))
def test_the_curve_never_leaves_its_points(points: tuple[tuple[float, float], ...], share: float) -> None:
    curve = fan_curve(points, outlet_sq_in=None)
    for (low, upper), (high, lower) in itertools.pairwise(points):
        value = fan_pressure(curve, low + share * (high - low), standard_air())
        assert lower - 1e-12 <= value <= upper + 1e-12


@given(falling_curves(), st.floats(0, 0.999), st.floats(0, 0.999))
def test_a_falling_curve_stays_falling(
    points: tuple[tuple[float, float], ...], first: float, second: float
) -> None:
    curve: FanCurve = fan_curve(points, outlet_sq_in=None)
    low, high = sorted((first, second))
    assume(high > low)
    end = points[-1][0]
    air = standard_air()
    assert fan_pressure(curve, high * end, air) <= fan_pressure(curve, low * end, air) + 1e-12


@given(falling_curves(), diameters, lengths, airs)
def test_altitude_hardly_moves_the_airflow_but_the_pressure(
    points: tuple[tuple[float, float], ...], diameter: float, length: float, air: Air
) -> None:
    run = run_of(diameter, length, "galvanized", 2)
    here, there = airflow(points, run), airflow(points, run, air)
    assert there == pytest.approx(here, rel=0.06)


@given(falling_curves(), diameters, lengths, st.floats(0.2, 0.95))
def test_the_longest_run_is_just_long_enough(
    points: tuple[tuple[float, float], ...], diameter: float, length: float, share: float
) -> None:
    run = run_of(diameter, length, "galvanized", 1)
    curve = fan_curve(points, outlet_sq_in=run.section.area_sq_in)
    wanted = airflow(points, run) * share
    longest = longest_run(curve, run, standard_air(), least_cfm=wanted).length_in
    assert longest >= length
    assume(longest < 1e6)
    assert airflow(points, run_of(diameter, longest, "galvanized", 1)) == pytest.approx(wanted, rel=1e-6)
