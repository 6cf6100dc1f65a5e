"""Quantities: accepted units with conversion factors from outside, refusals in words, print that reads back.

Factors: NIST SP 811 (2008), Appendix B, at its printed precision.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.quantities.units import (
    Dimension,
    UnitError,
    as_pint,
    format_quantity,
    parse_length,
    parse_quantity,
)

D = Dimension

ACCEPTED = [
    ("165 lb", D.MASS, 165.0),
    ("75 kg", D.MASS, 75 / 0.4535924),
    ("8 oz", D.MASS, 0.5),
    ("500 g", D.MASS, 500 / 453.5924),
    ("20 lbf.in", D.TORQUE, 20.0),
    ("20 lbf·in", D.TORQUE, 20.0),
    ("20 in-lb", D.TORQUE, 20.0),
    ("2.26 N·m", D.TORQUE, 2.26 / 0.1129848),
    ("2.26 Nm", D.TORQUE, 2.26 / 0.1129848),
    ("3 lbf·ft", D.TORQUE, 36.0),
    ("120 V", D.VOLTAGE, 120.0),
    ("120V", D.VOLTAGE, 120.0),
    ("0.6 kV", D.VOLTAGE, 600.0),
    ("250 mV", D.VOLTAGE, 0.25),
    ("15 A", D.CURRENT, 15.0),
    ("30 mA", D.CURRENT, 0.03),
    ("350 W", D.POWER, 350.0),
    ("12 kW", D.POWER, 12_000.0),
    ("40 VA", D.APPARENT_POWER, 40.0),
    ("8.8 kVA", D.APPARENT_POWER, 8_800.0),
    ("4.7 kohm", D.RESISTANCE, 4_700.0),
    ("4.7 kΩ", D.RESISTANCE, 4_700.0),
    ("10 Ω", D.RESISTANCE, 10.0),
    ("10 \N{OHM SIGN}", D.RESISTANCE, 10.0),
    ("1 Mohm", D.RESISTANCE, 1_000_000.0),
    ("3 mohm", D.RESISTANCE, 0.003),
    ("12.5 cu in", D.VOLUME, 12.5),
    ("12.5 cu  in", D.VOLUME, 12.5),
    ("18 in3", D.VOLUME, 18.0),
    ("500 mL", D.VOLUME, 500 / 16.38706),
    ("1.5 L", D.VOLUME, 1500 / 16.38706),
    ("0.213 sq in", D.AREA, 0.213),
    ("100 mm2", D.AREA, 100 / 645.16),
    ("75 °C", D.TEMPERATURE, 75.0),
    ("75 C", D.TEMPERATURE, 75.0),
    ("-5 °C", D.TEMPERATURE, -5.0),
    ("212 °F", D.TEMPERATURE, 100.0),
    ("-40 F", D.TEMPERATURE, -40.0),
    ("400 cfm", D.AIRFLOW, 400.0),
    ("100 L/s", D.AIRFLOW, 100 / 0.4719474),
    ("680 m3/h", D.AIRFLOW, 680 / 3600 / 4.719474e-4),
    ("0.25 in wg", D.PRESSURE, 0.25),
    ("0.25 in. w.c.", D.PRESSURE, 0.25),
    ("125 Pa", D.PRESSURE, 125 / 249.0889),
    ("60 Hz", D.FREQUENCY, 60.0),
    ("30 s", D.TIME, 30.0),
    ("5 min", D.TIME, 300.0),
    ("2 h", D.TIME, 7_200.0),
    ("1 day", D.TIME, 86_400.0),
    ("90 deg", D.ANGLE, 90.0),
    ("90°", D.ANGLE, 90.0),
    ("60000 Btu/h", D.HEAT_RATE, 60_000.0),
    ("1 kW", D.HEAT_RATE, 1000 / 0.2930711),
    ("3 %", D.RATIO, 3.0),
    ("2.5 percent", D.RATIO, 2.5),
    ("8' 3\"", D.LENGTH, 99.0),
    ("\N{MINUS SIGN}5 °C", D.TEMPERATURE, -5.0),
    (".5 A", D.CURRENT, 0.5),
]

UNIT = "a number and its unit"
REFUSED = [
    ("120", D.VOLTAGE, "without a unit; allowed: a number and its unit: V, kV, mV"),
    ("0.8", D.RATIO, "without a unit; allowed: a number and its unit: %"),
    ("", D.MASS, "found nothing"),
    ("  ", D.MASS, "found nothing"),
    ("nan V", D.VOLTAGE, "a finite number"),
    ("inf A", D.CURRENT, "a finite number"),
    ("2,5 N·m", D.TORQUE, "a decimal point, and no comma"),
    ("1,200 cfm", D.AIRFLOW, "a decimal point, and no comma"),
    ("1e3 W", D.POWER, "without an exponent"),
    ("3**9 W", D.POWER, "no powers or products"),
    ("120 A", D.VOLTAGE, "V, kV, mV"),
    ("120 VAC", D.VOLTAGE, "V, kV, mV"),
    ("1 MV", D.VOLTAGE, "V, kV, mV"),
    ("10 MA", D.CURRENT, "A, mA"),
    ("12 kw", D.POWER, "W, kW"),
    ("120 V 60 Hz", D.VOLTAGE, UNIT),
    ("120-240 V", D.VOLTAGE, UNIT),
    ("V", D.VOLTAGE, UNIT),
    ("1/2 A", D.CURRENT, UNIT),
    ("+5 V", D.VOLTAGE, UNIT),
    ("9" * 13 + " V", D.VOLTAGE, "at most 12 digits"),
    ("9" * 50 + " V", D.VOLTAGE, "at most 40 characters"),
    ("5 V\x1b", D.VOLTAGE, "not U\\+001B ESCAPE"),
    ("٣ V", D.VOLTAGE, UNIT),
]


@pytest.mark.parametrize(("text", "dimension", "value"), ACCEPTED)
def test_a_quantity_is_read(text: str, dimension: Dimension, value: float) -> None:
    # The factors are printed with seven figures, so they may be off by half of the last.
    assert parse_quantity(text, dimension) == pytest.approx(value, rel=5e-7)


@pytest.mark.parametrize(("text", "dimension", "allowed"), REFUSED)
def test_anything_else_is_refused_in_words(text: str, dimension: Dimension, allowed: str) -> None:
    with pytest.raises(UnitError, match=allowed):
        parse_quantity(text, dimension)


@pytest.mark.parametrize("dimension", Dimension)
def test_every_spelling_is_read_and_the_canonical_one_changes_nothing(dimension: Dimension) -> None:
    for spelling in dimension.spellings:
        assert math.isfinite(parse_quantity(f"2.5 {spelling}", dimension))
    assert dimension.spellings[0] == dimension.canonical_unit
    assert parse_quantity(f"2.5 {dimension.canonical_unit}", dimension) == 2.5


@pytest.mark.parametrize("dimension", Dimension)
def test_no_spelling_means_two_units(dimension: Dimension) -> None:
    assert len(set(dimension.spellings)) == len(dimension.spellings)


@given(
    st.floats(min_value=-1e9, max_value=1e9),
    st.sampled_from([dimension for dimension in Dimension if dimension is not Dimension.LENGTH]),
    st.integers(min_value=0, max_value=6),
)
def test_print_reads_back_to_half_a_digit(value: float, dimension: Dimension, digits: int) -> None:
    printed = format_quantity(value, dimension, digits)
    assert abs(parse_quantity(printed, dimension) - value) <= 0.5 * 10**-digits * (1 + 1e-6) + 1e-6


@pytest.mark.parametrize(
    ("value", "dimension", "printed"),
    [
        (120.0, D.VOLTAGE, "120 V"),
        (12.5, D.TORQUE, "12.5 lbf·in"),
        (1200.0, D.AIRFLOW, "1200 cfm"),
        (-0.001, D.TEMPERATURE, "0 °C"),
        (99.5, D.LENGTH, "8' 3-1/2\""),
    ],
)
def test_known_quantities_print(value: float, dimension: Dimension, printed: str) -> None:
    assert format_quantity(value, dimension) == printed


def test_no_quantity_that_is_not_finite_prints() -> None:
    with pytest.raises(ValueError, match="must be finite"):
        format_quantity(math.nan, D.VOLTAGE)


PINT_NAMES = {
    "ft": "foot",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "mm2": "square_millimeter",
    "mL": "milliliter",
    "L": "liter",
    "oz": "ounce",
    "kg": "kilogram",
    "g": "gram",
    "lbf·ft": "pound_force_foot",
    "N·m": "newton_meter",
    "kV": "kilovolt",
    "mV": "millivolt",
    "mA": "milliampere",
    "kW": "kilowatt",
    "W": "watt",
    "kVA": "kilovolt_ampere",
    "mohm": "milliohm",
    "kohm": "kiloohm",
    "Mohm": "megaohm",
    "°F": "degree_fahrenheit",
    "L/s": "liter_per_second",
    "m3/h": "cubic_meter_per_hour",
    "Pa": "pascal",
    "ms": "millisecond",
    "min": "minute",
    "h": "hour",
    "d": "day",
}


@pytest.mark.parametrize(
    ("spelling", "dimension"),
    [
        (spelling, dimension)
        for dimension in Dimension
        for spelling in dimension.spellings
        if spelling in PINT_NAMES and spelling != dimension.canonical_unit
    ],
)
def test_pint_converts_every_unit_alike(spelling: str, dimension: Dimension) -> None:
    ours = as_pint(parse_quantity(f"7 {spelling}", dimension), dimension)
    assert ours.to(PINT_NAMES[spelling]).magnitude == pytest.approx(7.0, rel=1e-12)


def test_a_typed_quantity_is_rounded_once() -> None:
    assert parse_quantity("0.3 kV", D.VOLTAGE) == 300.0
    assert parse_quantity("35 mm", D.LENGTH) == 35 / 25.4


@pytest.mark.parametrize("dimension", Dimension)
def test_the_pint_door_gives_the_value_in_the_canonical_unit(dimension: Dimension) -> None:
    quantity = as_pint(2.5, dimension)
    assert quantity.magnitude == 2.5
    assert quantity + as_pint(0.0, dimension) == quantity if dimension is not D.TEMPERATURE else True


def test_pint_quantities_compute_across_dimensions() -> None:
    heat = as_pint(15.0, D.CURRENT) * as_pint(15.0, D.CURRENT) * as_pint(2.0, D.RESISTANCE)
    assert heat.to("watt").magnitude == pytest.approx(450.0)
    assert as_pint(12.0, D.LENGTH).to("foot").magnitude == pytest.approx(1.0)


@pytest.mark.parametrize("unit", ["in", "ft", "mm", "cm", "m"])
def test_pint_and_the_length_grammar_know_the_same_units(unit: str) -> None:
    pint_name = {"in": "inch", "ft": "foot", "mm": "millimeter", "cm": "centimeter", "m": "meter"}[unit]
    assert as_pint(parse_length(f"7 {unit}"), D.LENGTH).to(pint_name).magnitude == pytest.approx(7.0)
