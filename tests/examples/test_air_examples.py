"""Make-up air and house pressure: the rule by edition, and figures worked by hand."""

from __future__ import annotations

import math

import pytest

from schedules.exhaust.air import standard_air
from schedules.exhaust.duct_fittings import given_coefficient
from schedules.exhaust.ducts import Run, duct_pressure, round_section, surface
from schedules.make_up.house_pressure import airflow_within, depressurisation, through_opening
from schedules.make_up.make_up_air import (
    Book,
    Spring,
    heat_for_air,
    interlock,
    make_up_air,
    opening_airflow,
    passive_opening,
)
from schedules.tables import Adopted, Amendment
from schedules.working import Confidence

PA_PER_IN_WG = 249.0889


@pytest.mark.parametrize(
    ("book", "edition", "airflow", "appliances", "wanted"),
    [
        # IRC up to 2015: the airflow alone decides (ICC's summary of significant changes).
        ("IRC", "2009", 401, 0, True),
        ("IRC", "2012", 400, 3, False),
        ("IRC", "2015", 600, 0, True),
        # IRC 2018 and 2021, as New York's 2025 code repeats them: a fuel appliance as well.
        ("IRC", "2018", 600, 0, False),
        ("IRC", "2018", 600, 1, True),
        ("IRC", "2021", 600, 0, False),
        ("IRC", "2021", 600, 2, True),
        ("IRC", "2021", 400, 2, False),
        ("IRC", "2024", 1200, 0, False),
        # The IMC has no such condition.
        ("IMC", "2018", 600, 0, True),
        ("IMC", "2021", 401, 0, True),
        ("IMC", "2021", 400, 1, False),
    ],
)
def test_make_up_air_by_book_and_edition(
    book: Book, edition: str, airflow: float, appliances: int, wanted: bool
) -> None:
    found = make_up_air(airflow, appliances, book=book, edition=edition)
    assert found.required.holds is wanted
    assert found.airflow_cfm == (airflow if wanted else 0)


def test_the_edition_of_2024_is_marked_as_not_read() -> None:
    found = make_up_air(600, 1, book="IRC", edition="2024")
    assert found.required.working.source.confidence is Confidence.MEMORY
    assert "standing in for 2024" in found.required.working.source.citation


def test_a_local_amendment_moves_the_line_and_is_told() -> None:
    """One Texas city lets houses without such appliances go to 600 cfm."""
    city = Adopted("2015", (Amendment("makeup_air_above", 600, "cfm", "city ordinance, invented number"),))
    found = make_up_air(550, 0, book="IRC", edition=city)
    assert not found.required.holds
    assert "600 cfm instead of 400 cfm" in str(found.required.working.source)
    assert make_up_air(650, 0, book="IRC", edition=city).required.holds


def test_passive_opening_of_600_cfm_at_5_pa() -> None:
    """254 sq in; in SI, 0.2832 m³/s / (0.6 · √(2 · 5 / 1.2014)) is 253.6 sq in. A round hole of 18 in."""
    found = passive_opening(600, 5)
    assert round(found.area_sq_in) == 254
    metric = 600 * 0.3048**3 / 60 / (0.6 * math.sqrt(2 * 5 / 1.2014)) / 0.0254**2
    assert found.area_sq_in == pytest.approx(metric, rel=0.002)
    assert round(found.diameter_in) == 18


def test_a_passive_ten_inch_pipe_does_not_bring_600_cfm_at_5_pa() -> None:
    """10 ft of 10 in pipe with inlet and outlet losses of 1.5 wants about 33 Pa."""
    section = round_section(10)
    pipe = Run(section, 120.0, surface("galvanized"), (given_coefficient("ends", 1.5, section.area_sq_in),))
    assert duct_pressure(600, pipe, standard_air()) * PA_PER_IN_WG == pytest.approx(33, abs=0.5)


def test_heat_for_600_cfm_warmed_by_70_f() -> None:
    assert round(heat_for_air(600, 70 / 1.8).rate_btu_h) == 45360


@pytest.mark.parametrize(
    ("airflow", "leakage", "pascals"), [(600, 1500, 12.2), (400, 1500, 6.5), (600, 3000, 4.2)]
)
def test_house_pressure_worked_by_hand(airflow: float, leakage: float, pascals: float) -> None:
    assert round(depressurisation(airflow, leakage).pressure_pa, 1) == pascals


def test_house_pressure_range_and_measured_exponent() -> None:
    found = depressurisation(600, 1500)
    assert found.lowest_pa == pytest.approx(50 * 0.4 ** (1 / 0.55))
    assert found.highest_pa == pytest.approx(50 * 0.4 ** (1 / 0.75))
    assert depressurisation(600, 1500, exponent=0.6).highest_pa == pytest.approx(50 * 0.4 ** (1 / 0.6))
    assert depressurisation(2000, 1500).beyond_test
    assert depressurisation(airflow_within(5, 1500), 1500).pressure_pa == pytest.approx(5)
    with pytest.raises(ValueError, match=r"between 0\.5 and 1"):
        depressurisation(600, 1500, exponent=0.4)
    with pytest.raises(ValueError, match="leakage above 0"):
        depressurisation(600, 0)


@pytest.mark.parametrize(
    ("spring", "contact"), [("closed", "closes with the exhaust"), ("open", "opens with the exhaust")]
)
def test_the_spring_decides_which_way_the_contact_works(spring: Spring, contact: str) -> None:
    found = interlock(spring=spring, fire_exhaust="on", fire_make_up="on")
    assert found.contact == contact
    assert found.fire_contact is None
    assert found.one_contact_serves
    assert found.without_power == spring


@pytest.mark.parametrize(
    ("spring", "fire_contact"),
    [("closed", "opens in a fire, in series"), ("open", "closes in a fire, across")],
)
def test_exhaust_on_and_make_up_off_in_a_fire_take_a_second_contact(
    spring: Spring, fire_contact: str
) -> None:
    found = interlock(spring=spring, fire_exhaust="on", fire_make_up="off")
    assert not found.one_contact_serves
    assert found.fire_contact == fire_contact
    assert interlock(spring=spring, fire_exhaust="off", fire_make_up="off").one_contact_serves


def test_a_passive_opening_and_leaks_share_the_exhaust() -> None:
    """By hand at 1 Pa, n = 0.5: leaks 1000 · (1/50)^0.5 = 141.4 cfm, 100 sq in 105.7 cfm; together 247.1 cfm."""
    opening = opening_airflow(100.0, 1.0)
    assert opening == pytest.approx(105.7, abs=0.1)
    shared = through_opening(141.42 + opening, 1000.0, 100.0, exponent=0.5)
    assert shared.pressure_pa == pytest.approx(1.0, rel=1e-3)
    # In a house that is all but tight, the opening alone sets the pressure it was sized for.
    sized = passive_opening(600.0, 5.0)
    assert through_opening(600.0, 0.001, sized.area_sq_in, exponent=0.65).pressure_pa == pytest.approx(
        5.0, rel=1e-3
    )
    # And it never makes things worse than leaks alone.
    assert through_opening(600.0, 1500.0, 1.0).highest_pa < depressurisation(600.0, 1500.0).highest_pa
    with pytest.raises(ValueError, match="an opening is above 0, not 0 sq in"):
        through_opening(600.0, 1500.0, 0.0)
    with pytest.raises(ValueError, match="area and pressure are above 0"):
        opening_airflow(0.0, 1.0)
