"""Published duct figures, and the fluids library as an independent second opinion."""

from __future__ import annotations

import math

import fluids
import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from schedules.exhaust.air import air_at, standard_air
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
from schedules.exhaust.duct_limits import Speed, code_duct_length, round_duct, speed_of
from schedules.exhaust.ducts import (
    Run,
    duct_loss,
    equivalent_length,
    friction_factor,
    friction_loss,
    rectangular_section,
    round_section,
    surface,
    velocity,
)
from schedules.exhaust.fan_curve import NoOperatingPointError, fan_curve, longest_run, operating_point

FT = 12.0
PA_PER_IN_WG = 249.0889
M_PER_IN = 0.0254
M3_S_PER_CFM = 0.3048**3 / 60
GALVANIZED_IN = 0.0003 * FT
OLD_CHART_IN = 0.0005 * FT

# An invented fan.
POINTS = ((0.0, 1.10), (200.0, 1.02), (400.0, 0.88), (600.0, 0.66), (800.0, 0.32), (900.0, 0.0))


def per_100_ft(airflow_cfm: float, diameter_in: float, roughness_in: float = GALVANIZED_IN) -> float:
    return friction_loss(
        airflow_cfm,
        round_section(diameter_in),
        length_in=100 * FT,
        roughness_in=roughness_in,
        air=standard_air(),
    ).pressure_in_wg


def kitchen_run(diameter_in: float, length_in: float = 20 * FT) -> Run:
    """Two stamped elbows, a cap that costs one velocity pressure, the exit."""
    section = round_section(diameter_in)
    elbow = elbow_by_diameter("stamped 90", diameter_in)
    cap = given_coefficient("cap", 1.0, section.area_sq_in)
    return Run(section, length_in, surface("galvanized"), (elbow, elbow, cap, free_exit(section.area_sq_in)))


@pytest.mark.parametrize(
    ("airflow_cfm", "diameter_in", "printed_in_wg", "printed_fpm"),
    [
        # engineeringtoolbox.com, air ducts friction loss diagram, imperial: both worked examples.
        (4_000, 20, 0.23, 1_850),
        (100_000, 60, 0.4, 5_000),
    ],
)
def test_friction_diagram_of_a_handbook_page(
    airflow_cfm: float, diameter_in: float, printed_in_wg: float, printed_fpm: float
) -> None:
    """Read off a diagram, 'approximately' in its own words: within a tenth, speed within 3 %."""
    assert per_100_ft(airflow_cfm, diameter_in, OLD_CHART_IN) == pytest.approx(printed_in_wg, rel=0.1)
    assert velocity(airflow_cfm, round_section(diameter_in).area_sq_in) == pytest.approx(
        printed_fpm, rel=0.03
    )


@pytest.mark.parametrize("diameter_in", [6, 8, 10, 12])
@pytest.mark.parametrize("speed_fpm", [500, 1000, 1500, 2000, 2500])
def test_friction_chart_short_cut(diameter_in: float, speed_fpm: float) -> None:
    """0.109136 Q^1.9 / D^5.02 in wg per 100 ft fits the old chart, whose steel is rougher: 1 % below to 5 % above."""
    airflow = speed_fpm * round_section(diameter_in).area_sq_in / 144
    fit = 0.109136 * airflow**1.9 / diameter_in**5.02
    assert -1 <= round(100 * (fit / per_100_ft(airflow, diameter_in, OLD_CHART_IN) - 1)) <= 5


@pytest.mark.parametrize(
    ("airflow_cfm", "diameter_in", "factor", "in_wg"),
    [
        (300, 6, 0.02140, 0.623),
        (400, 7, 0.02069, 0.495),
        (600, 8, 0.01971, 0.544),
        (600, 10, 0.01993, 0.180),
        (1200, 10, 0.01820, 0.659),
    ],
)
def test_colebrook_reference_figures(
    airflow_cfm: float, diameter_in: float, factor: float, in_wg: float
) -> None:
    found = friction_loss(
        airflow_cfm,
        round_section(diameter_in),
        length_in=100 * FT,
        roughness_in=GALVANIZED_IN,
        air=standard_air(),
    )
    assert round(found.factor, 5) == factor
    assert round(found.pressure_in_wg, 3) == in_wg


@pytest.mark.parametrize("reynolds", [4_001, 2e4, 1e5, 7.3e5, 5e6])
@pytest.mark.parametrize("relative", [0, 1e-5, 4.5e-4, 0.003, 0.03])
def test_fluids_colebrook(reynolds: float, relative: float) -> None:
    oracle = fluids.friction_factor(Re=reynolds, eD=relative, Method="Colebrook")
    assert friction_factor(reynolds, relative) == pytest.approx(oracle, rel=1e-9)


@pytest.mark.parametrize(("airflow_cfm", "diameter_in"), [(150, 5), (300, 6), (600, 8), (1200, 10)])
@pytest.mark.parametrize(("altitude_ft", "temperature_c"), [(0, 21.11), (5_000, 21.11), (8_000, 60)])
def test_fluids_friction_of_a_straight_duct(
    airflow_cfm: float, diameter_in: float, altitude_ft: float, temperature_c: float
) -> None:
    air = air_at(altitude_in=altitude_ft * FT, temperature_c=temperature_c)
    density = air.density_lb_cu_ft * 0.45359237 / 0.3048**3
    oracle = fluids.one_phase_dP(
        m=airflow_cfm * M3_S_PER_CFM * density,
        rho=density,
        mu=air.viscosity_sq_ft_s * 0.3048**2 * density,
        D=diameter_in * M_PER_IN,
        roughness=GALVANIZED_IN * M_PER_IN,
        L=100 * 0.3048,
    )
    ours = friction_loss(
        airflow_cfm,
        round_section(diameter_in),
        length_in=100 * FT,
        roughness_in=GALVANIZED_IN,
        air=air,
    ).pressure_in_wg
    # 1097 is a rounded constant: two parts in a thousand.
    assert ours * PA_PER_IN_WG == pytest.approx(oracle, rel=0.002)


@pytest.mark.parametrize("altitude_ft", [0, 1_000, 5_000, 8_000])
def test_fluids_standard_atmosphere(altitude_ft: float) -> None:
    oracle = ATMOSPHERE_1976(altitude_ft * 0.3048)
    ours = air_at(altitude_in=altitude_ft * FT, temperature_c=oracle.T - 273.15)
    sea = ATMOSPHERE_1976(0)
    # Standard air is 70 °F at sea level, the atmosphere's is 59 °F there.
    expected = oracle.rho / sea.rho * (70 + 459.67) / (59 + 459.67)
    assert ours.density_ratio == pytest.approx(expected, rel=2e-4)


@pytest.mark.parametrize("temperature_c", [-10.0, 20.0, 60.0, 120.0])
def test_fluids_viscosity_by_temperature(temperature_c: float) -> None:
    ours = air_at(altitude_in=0, temperature_c=temperature_c)
    dynamic = ours.viscosity_sq_ft_s * 0.3048**2 * ours.density_lb_cu_ft * 0.45359237 / 0.3048**3
    oracle = ATMOSPHERE_1976.viscosity(temperature_c + 273.15)
    # The carried standard viscosity is a rounded one from memory, 1 % below the atmosphere's.
    assert dynamic == pytest.approx(oracle, rel=0.015)


@pytest.mark.parametrize(("small_in", "large_in"), [(6, 8), (7, 8), (8, 10), (6, 12)])
def test_fluids_sudden_changes_of_size(small_in: float, large_in: float) -> None:
    small, large = round_section(small_in).area_sq_in, round_section(large_in).area_sq_in
    assert enlargement(small, large).value == pytest.approx(
        fluids.fittings.diffuser_sharp(small_in, large_in)
    )
    assert contraction(large, small).value == pytest.approx(
        fluids.fittings.contraction_sharp(large_in, small_in)
    )


def test_ashrae_equivalent_round_of_a_flat_duct() -> None:
    """ASHRAE's table of equivalents: 3-1/4 x 10 is a 6.00 in duct, x 12 6.49, x 14 6.93."""
    found = [round(rectangular_section(3.25, width).friction_diameter_in, 2) for width in (10, 12, 14)]
    assert found == [6.00, 6.49, 6.93]


def test_ashrae_2009_elbows_between_printed_diameters() -> None:
    """At 8 in (203 mm) as the chapter's interpolation goes: stamped 0.11, pleated 0.34, five gores 0.23."""
    found = [round(elbow_by_diameter(name, 8).value, 2) for name in ("stamped 90", "pleated 90", "gored 90")]
    assert found == [0.11, 0.34, 0.23]


def test_equivalent_lengths_are_right_for_one_size_only() -> None:
    """At 8 in and 600 cfm, f 0.01971: 3.7, 7.9, 11.5, 14.2, 33.8 ft. A 15 ft elbow is C 0.44 there."""
    lengths = [round(equivalent_length(c, 8, 0.01971) / FT, 1) for c in (0.11, 0.2335, 0.34, 0.42, 1.0)]
    assert lengths == [3.7, 7.9, 11.5, 14.2, 33.8]


def oracle_airflow(run: Run) -> float:
    """The operating point by scipy's interpolation and root finder and the fluids library's friction."""
    curve = PchipInterpolator([x for x, _ in POINTS], [y for _, y in POINTS])
    diameter = run.section.friction_diameter_in
    density, viscosity = 1.2014, 1.63e-4 * 0.3048**2
    area = math.pi / 4 * (diameter * M_PER_IN) ** 2

    def spare(airflow: float) -> float:
        speed = airflow * M3_S_PER_CFM / area
        pressure = density * speed**2 / 2
        friction = fluids.one_phase_dP(
            m=airflow * M3_S_PER_CFM * density,
            rho=density,
            mu=viscosity * density,
            D=diameter * M_PER_IN,
            roughness=GALVANIZED_IN * M_PER_IN,
            L=run.length_in * M_PER_IN,
        )
        # The exit's one velocity pressure is already in a fan static pressure at the same area.
        fittings = sum(fitting.value for fitting in run.fittings) - 1.0
        return float(curve(airflow)) * PA_PER_IN_WG - friction - fittings * pressure

    return float(brentq(spare, 1, 900))


@pytest.mark.parametrize("diameter_in", [6, 7, 8, 10])
def test_fluids_and_scipy_operating_point(diameter_in: float) -> None:
    run = kitchen_run(diameter_in)
    curve = fan_curve(POINTS, outlet_sq_in=run.section.area_sq_in)
    found = operating_point(curve, run, standard_air())
    # 1097 is a rounded constant: two parts in a thousand of pressure, one of airflow.
    assert found.airflow_cfm == pytest.approx(oracle_airflow(run), rel=0.001)


def test_operating_point_worked_by_hand() -> None:
    """Invented fan, 20 ft of 8 in, two stamped elbows, cap 1.0: 721 cfm at 0.478 in wg; at 5000 ft 720 at 0.400."""
    run = kitchen_run(8)
    curve = fan_curve(POINTS, outlet_sq_in=run.section.area_sq_in)
    found = operating_point(curve, run, standard_air())
    assert (round(found.airflow_cfm), round(found.static_in_wg, 3)) == (721, 0.478)
    high = operating_point(curve, run, air_at(altitude_in=5_000 * FT, temperature_c=(70 - 32) / 1.8))
    assert (round(high.airflow_cfm), round(high.static_in_wg, 3)) == (720, 0.400)


def test_an_explained_operating_point_shows_both_sides_equal_and_what_a_static_curve_leaves_out() -> None:
    run = kitchen_run(8, 20 * FT)
    found = operating_point(
        fan_curve(POINTS, outlet_sq_in=run.section.area_sq_in), run, standard_air()
    ).working
    given = {item.name: item.value for item in found.inputs}
    assert given["fan's total pressure"] == given["duct's loss"]
    parts = [
        float(given[name].split()[0])
        for name in ("of it by the curve, static", "of it the outlet's velocity pressure")
    ]
    assert sum(parts) == pytest.approx(float(given["duct's loss"].split()[0]), abs=0.0011)


def test_counting_the_exit_twice_would_cost_a_tenth() -> None:
    run = kitchen_run(8)
    right = operating_point(fan_curve(POINTS, outlet_sq_in=run.section.area_sq_in), run, standard_air())
    wrong = operating_point(fan_curve(POINTS, outlet_sq_in=None), run, standard_air())
    assert (round(right.airflow_cfm), round(wrong.airflow_cfm)) == (721, 645)


def test_longest_run_gives_back_the_operating_point() -> None:
    run = kitchen_run(8)
    curve = fan_curve(POINTS, outlet_sq_in=run.section.area_sq_in)
    longest = longest_run(curve, run, standard_air(), least_cfm=650)
    found = operating_point(curve, kitchen_run(8, longest.length_in), standard_air())
    assert found.airflow_cfm == pytest.approx(650, rel=1e-6)


def test_a_fan_too_strong_for_its_curve_and_an_unsteady_one_are_refused() -> None:
    wide = Run(round_section(14), 12.0, surface("galvanized"), ())
    with pytest.raises(NoOperatingPointError, match="not used up even at the end"):
        operating_point(fan_curve(POINTS, outlet_sq_in=50.0), wide, standard_air())
    dip = ((0.0, 0.9), (150.0, 0.35), (300.0, 0.75), (500.0, 0.4), (600.0, 0.0))
    with pytest.raises(NoOperatingPointError, match="unsteady near"):
        operating_point(fan_curve(dip, outlet_sq_in=None), kitchen_run(5, 12 * FT), standard_air())


@pytest.mark.parametrize(
    ("points", "says"),
    [
        (((0, 1), (5, 0)), "at least three points"),
        (((0, 1), (5, 0.5), (5, 0)), "rise from point to point"),
        (((0, 1), (5, 0.5), (9, -0.1)), "0 or more"),
    ],
)
def test_a_curve_that_is_none_is_refused(points: tuple[tuple[float, float], ...], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        fan_curve(points, outlet_sq_in=None)


def test_irc_2021_m1504_2_rows_and_elbows() -> None:
    """From memory of the table: 6 in smooth at 200 cfm 53 ft, less 15 ft for each elbow."""

    def feet(duct: str, diameter: float, airflow: float, elbows: int = 0) -> float:
        return code_duct_length(duct, diameter, airflow, elbows=elbows, edition="2021").length_in / FT

    assert feet("smooth", 6, 200) == 53
    assert feet("smooth", 6, 200, elbows=2) == 23
    assert feet("smooth", 6.5, 190, elbows=4) == 0
    assert feet("smooth", 8, 150, elbows=3) == math.inf
    assert feet("flexible", 4, 125) == 0
    with pytest.raises(LookupError, match="no row for smooth 8 in at 600 cfm"):
        feet("smooth", 8, 600)


def test_rectangular_elbows_take_the_row_on_the_safe_side() -> None:
    assert flat_elbow(10, 3.25, 10).value == 0.27
    assert flat_elbow(3.25, 10, 3.25).value == 0.18
    assert mitred_elbow(10, 3.25).value == 1.3
    assert mitred_elbow(3.25, 10).value == 0.98
    with pytest.raises(LookupError, match=r"begins at 0\.5"):
        flat_elbow(10, 3.25, 4)
    with pytest.raises(LookupError, match=r"no row for height over width 0\.20"):
        mitred_elbow(10, 2)
    with pytest.raises(LookupError, match="begins at 75"):
        elbow_by_diameter("stamped 90", 2.5)
    with pytest.raises(LookupError, match="there are: stamped 90"):
        elbow_by_diameter("square", 8)
    assert elbow_by_radius("smooth 90", 4, 50).note == "larger than the table; its last value stands"


@pytest.mark.parametrize(
    ("airflow_cfm", "collar_in", "advised"),
    [(300, 6, 7), (500, 8, 8), (600, 8, 9), (1200, 10, 13), (100, 7, 7)],
)
def test_duct_for_collar_and_airflow(airflow_cfm: float, collar_in: float, advised: float) -> None:
    """At most 1500 fpm and never narrower than the collar: 600 cfm take 57.6 sq in, an 8.6 in round."""
    found = round_duct(airflow_cfm, round_section(collar_in).area_sq_in)
    assert found.diameter_in == advised
    assert velocity(airflow_cfm, round_section(advised).area_sq_in) <= 1500


def test_speed_bands_and_fitting_pressure() -> None:
    assert [speed_of(fpm) for fpm in (400, 1500, 1719, 2100)] == list(Speed)
    section = round_section(8)
    run = Run(
        section, 0.0, surface("stainless"), (Coefficient("c", 1.0, section.area_sq_in, free_exit(1).source),)
    )
    found = duct_loss(600, run, standard_air())
    # 600 cfm in 8 in: 1719 fpm, velocity pressure 0.184 in wg.
    assert (round(found.velocity_fpm), round(found.pressure_in_wg, 3)) == (1719, 0.184)
