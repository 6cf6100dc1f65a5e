"""Quantities at the edge: how people write them, the one unit each has inside, and the door to pint.

Inside, every quantity is a plain float in its dimension's canonical unit, which its name carries. pint
never sees typed text: it reads `3 1/2 in` as 1.5 inch and `2,53 m` as 253 m without complaint.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, cast

from schedules.quantities.lengths import Style, format_length, parse_length
from schedules.quantities.numerals import DECIMAL, UnitError, exact, refusal, typed
from schedules.text import printable

if TYPE_CHECKING:
    import pint

__all__ = [
    "Dimension",
    "Style",
    "UnitError",
    "as_pint",
    "format_length",
    "format_quantity",
    "parse_length",
    "parse_quantity",
]


@dataclass(frozen=True, slots=True)
class _Unit:
    """One unit that people write: pint's name for it in our definitions, and every accepted spelling.

    size: canonical units in one of it. zero: where its zero lies, in canonical units.
    """

    pint_name: str
    spellings: tuple[str, ...]
    size: Fraction = Fraction(1)
    zero: Fraction = Fraction(0)


class Dimension(StrEnum):
    """What a quantity measures. Each has one canonical unit, the one that names inside end in."""

    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    TORQUE = "torque"
    VOLTAGE = "voltage"
    CURRENT = "current"
    POWER = "power"
    APPARENT_POWER = "apparent power"
    RESISTANCE = "resistance"
    TEMPERATURE = "temperature"
    AIRFLOW = "airflow"
    PRESSURE = "pressure"
    FREQUENCY = "frequency"
    TIME = "time"
    ANGLE = "angle"
    HEAT_RATE = "energy rate"
    RATIO = "ratio"

    @property
    def canonical_unit(self) -> str:
        """The unit that values of this dimension have inside and are printed with."""
        return _UNITS[self][0].spellings[0]

    @property
    def spellings(self) -> tuple[str, ...]:
        """Every spelling that is accepted, those of the canonical unit first."""
        return tuple(spelling for unit in _UNITS[self] for spelling in unit.spellings)


# The international inch and pound, standard gravity and the International Table Btu are exact by definition; the
# inch of water is the conventional one (NIST SP 811, 2008, Table B.8, from memory).
_MM_PER_IN = Fraction("25.4")
_ML_PER_CU_IN = Fraction("16.387064")
_G_PER_LB = Fraction("453.59237")
_NEWTON_METERS_PER_LBF_IN = Fraction("0.45359237") * Fraction("9.80665") * Fraction("0.0254")
_L_PER_CU_FT = Fraction("28.316846592")
_PA_PER_IN_WATER = Fraction("249.0889")
_W_PER_BTU_PER_H = Fraction("1055.05585262") / 3600

# The first unit of each dimension is canonical, its first spelling is the one printed. Spellings are
# exact: a capital tells mega from milli.
_UNITS: dict[Dimension, tuple[_Unit, ...]] = {
    Dimension.LENGTH: (
        _Unit("inch", ("in",)),
        _Unit("foot", ("ft",), Fraction(12)),
        _Unit("millimeter", ("mm",), 1 / _MM_PER_IN),
        _Unit("centimeter", ("cm",), 10 / _MM_PER_IN),
        _Unit("meter", ("m",), 1000 / _MM_PER_IN),
    ),
    Dimension.AREA: (
        _Unit("square_inch", ("sq in", "in2", "in²", "sq. in.")),
        _Unit("square_millimeter", ("mm2", "mm²", "sq mm"), 1 / _MM_PER_IN**2),
    ),
    Dimension.VOLUME: (
        _Unit("cubic_inch", ("cu in", "in3", "in³", "cu. in.")),
        _Unit("milliliter", ("mL", "ml", "cm3", "cm³"), 1 / _ML_PER_CU_IN),
        _Unit("liter", ("L", "l"), 1000 / _ML_PER_CU_IN),
    ),
    Dimension.MASS: (
        _Unit("pound", ("lb", "lbs", "lbm", "LB")),
        _Unit("ounce", ("oz",), Fraction(1, 16)),
        _Unit("kilogram", ("kg",), 1000 / _G_PER_LB),
        _Unit("gram", ("g",), 1 / _G_PER_LB),
    ),
    Dimension.TORQUE: (
        _Unit(
            "pound_force_inch",
            ("lbf·in", "lbf.in", "lbf-in", "lbf in", "in-lb", "in-lbs", "in·lb", "in.-lb", "in lb", "lb-in"),
        ),
        _Unit(
            "pound_force_foot",
            ("lbf·ft", "lbf.ft", "lbf-ft", "lbf ft", "ft-lb", "ft-lbs", "ft·lb", "lb-ft"),
            Fraction(12),
        ),
        _Unit("newton_meter", ("N·m", "N.m", "N-m", "N m", "Nm"), 1 / _NEWTON_METERS_PER_LBF_IN),
    ),
    Dimension.VOLTAGE: (
        _Unit("volt", ("V", "volt", "volts")),
        _Unit("kilovolt", ("kV",), Fraction(1000)),
        _Unit("millivolt", ("mV",), Fraction(1, 1000)),
    ),
    Dimension.CURRENT: (
        _Unit("ampere", ("A", "amp", "amps")),
        _Unit("milliampere", ("mA",), Fraction(1, 1000)),
    ),
    Dimension.POWER: (
        _Unit("watt", ("W", "watt", "watts")),
        _Unit("kilowatt", ("kW",), Fraction(1000)),
    ),
    Dimension.APPARENT_POWER: (
        _Unit("volt_ampere", ("VA",)),
        _Unit("kilovolt_ampere", ("kVA",), Fraction(1000)),
    ),
    Dimension.RESISTANCE: (
        # Both code points of the sign: GREEK CAPITAL LETTER OMEGA and OHM SIGN.
        _Unit("ohm", ("ohm", "ohms", "\u03a9", "\u2126")),
        _Unit("milliohm", ("mohm", "m\u03a9", "m\u2126"), Fraction(1, 1000)),
        _Unit("kiloohm", ("kohm", "k\u03a9", "k\u2126"), Fraction(1000)),
        _Unit("megaohm", ("Mohm", "M\u03a9", "M\u2126"), Fraction(1_000_000)),
    ),
    Dimension.TEMPERATURE: (
        _Unit("degree_celsius", ("°C", "C", "degC", "deg C")),
        _Unit("degree_fahrenheit", ("°F", "F", "degF", "deg F"), Fraction(5, 9), Fraction(-160, 9)),
    ),
    Dimension.AIRFLOW: (
        _Unit("cubic_foot_per_minute", ("cfm", "CFM", "ft3/min", "ft³/min")),
        _Unit("liter_per_second", ("L/s", "l/s"), 60 / _L_PER_CU_FT),
        _Unit("cubic_meter_per_hour", ("m3/h", "m³/h"), 1000 / _L_PER_CU_FT / 60),
    ),
    Dimension.PRESSURE: (
        _Unit("inch_water", ("in wg", "in wc", "in w.g.", "in w.c.", "in. w.g.", "in. w.c.", "inH2O")),
        _Unit("pascal", ("Pa",), 1 / _PA_PER_IN_WATER),
    ),
    Dimension.FREQUENCY: (_Unit("hertz", ("Hz",)),),
    Dimension.TIME: (
        _Unit("second", ("s", "sec", "second", "seconds")),
        _Unit("millisecond", ("ms",), Fraction(1, 1000)),
        _Unit("minute", ("min", "minute", "minutes"), Fraction(60)),
        _Unit("hour", ("h", "hr", "hour", "hours"), Fraction(3600)),
        _Unit("day", ("d", "day", "days"), Fraction(86_400)),
    ),
    Dimension.ANGLE: (_Unit("degree", ("deg", "°", "degree", "degrees")),),
    Dimension.HEAT_RATE: (
        _Unit("btu_per_hour", ("Btu/h", "BTU/h", "Btu/hr", "BTU/hr", "btu/h", "BTUH", "Btuh")),
        _Unit("kilowatt", ("kW",), 1000 / _W_PER_BTU_PER_H),
        _Unit("watt", ("W",), 1 / _W_PER_BTU_PER_H),
    ),
    Dimension.RATIO: (_Unit("percent", ("%", "percent")),),
}

_QUANTITY = re.compile(rf"(?P<minus>-\s*)?(?P<number>{DECIMAL})\s*(?P<unit>\S.*)?")


def parse_quantity(text: str, dimension: Dimension) -> float:
    """The quantity that a person typed, `240 V`, `20 in-lb`, `-5 °C` [canonical unit of the dimension].

    A ratio is in percent. Raises UnitError, which names what was found and what is allowed.
    """
    if dimension is Dimension.LENGTH:
        return parse_length(text)
    examples = f"a number and its unit: {', '.join(_one_spelling_each(dimension))}"
    plain = typed(text, examples)
    match = _QUANTITY.fullmatch(plain)
    if match is None:
        raise refusal(text, examples)
    if match["unit"] is None:
        raise UnitError(f"{printable(text)} without a unit", examples)
    unit = _unit_spelled(" ".join(match["unit"].split()), dimension)
    if unit is None:
        raise refusal(text, examples)
    number = exact(match["number"])
    # Exact up to here, so that what a person typed is rounded once.
    return float((-number if match["minus"] else number) * unit.size + unit.zero)


def format_quantity(value: float, dimension: Dimension, digits: int = 2) -> str:
    """A quantity as printed, `120 V`, `12.5 lbf·in` [canonical unit of the dimension].

    digits: at most so many decimals, zeros at the end left out; a length prints as format_length gives
    it. Raises ValueError for a value that is not finite.
    """
    if not math.isfinite(value):
        raise ValueError(f"a quantity must be finite, not {value}")
    if dimension is Dimension.LENGTH:
        return format_length(value)
    # Adding 0.0 turns a negative zero into zero.
    number = f"{round(value, digits) + 0.0:.{digits}f}"
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    return f"{number} {dimension.canonical_unit}"


def as_pint(value: float, dimension: Dimension) -> pint.Quantity[float]:
    """A value as a pint quantity in our own registry [canonical unit of the dimension]."""
    return _registry().Quantity(value, _UNITS[dimension][0].pint_name)


def _one_spelling_each(dimension: Dimension) -> tuple[str, ...]:
    return tuple(unit.spellings[0] for unit in _UNITS[dimension])


def _unit_spelled(spelling: str, dimension: Dimension) -> _Unit | None:
    return next((unit for unit in _UNITS[dimension] if spelling in unit.spellings), None)


# The same definitions as above, in pint's words; a test holds them against each other.
_DEFINITIONS = """
meter = [length]
centimeter = 0.01 * meter
millimeter = 0.001 * meter
inch = 25.4 * millimeter
foot = 12 * inch
square_inch = inch ** 2
square_millimeter = millimeter ** 2
cubic_inch = inch ** 3
liter = 0.001 * meter ** 3
milliliter = 0.001 * liter
kilogram = [mass]
gram = 0.001 * kilogram
pound = 0.45359237 * kilogram
ounce = pound / 16
second = [time]
millisecond = 0.001 * second
minute = 60 * second
hour = 60 * minute
day = 24 * hour
hertz = 1 / second
newton_meter = kilogram * meter ** 2 / second ** 2
pound_force_inch = 9.80665 * pound * meter / second ** 2 * inch
pound_force_foot = 12 * pound_force_inch
ampere = [current]
milliampere = 0.001 * ampere
watt = newton_meter / second
kilowatt = 1000 * watt
volt_ampere = watt
kilovolt_ampere = 1000 * volt_ampere
btu_per_hour = 1055.05585262 * newton_meter / hour
volt = watt / ampere
kilovolt = 1000 * volt
millivolt = 0.001 * volt
ohm = volt / ampere
milliohm = 0.001 * ohm
kiloohm = 1000 * ohm
megaohm = 1000000 * ohm
kelvin = [temperature]
degree_celsius = kelvin; offset: 273.15
degree_fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9
cubic_foot_per_minute = foot ** 3 / minute
liter_per_second = liter / second
cubic_meter_per_hour = meter ** 3 / hour
pascal = newton_meter / meter ** 3
inch_water = 249.0889 * pascal
degree = [angle]
percent = 0.01
"""


@cache
def _registry() -> pint.UnitRegistry[float]:
    # Imported here, and with our own short definitions, since pint and its own ones take 0.2 s to load.
    import pint  # noqa: PLC0415

    return cast("pint.UnitRegistry[float]", pint.UnitRegistry(_DEFINITIONS.strip().splitlines()))
