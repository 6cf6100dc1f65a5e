"""What a meter shows, as a person writes it down: `118 V`, `4.7 kohm`, `OL`, or the bare number of the display."""

from __future__ import annotations

import math

from schedules.quantities.numerals import UnitError
from schedules.quantities.units import Dimension, parse_quantity
from schedules.text import printable

OPEN = math.inf
"""What a meter on ohms shows where nothing joins its leads."""

_OVER_LIMIT = ("ol", "open", "over limit", "inf")


def read_volts(text: str) -> float:
    """A voltage without its sign [V]. Raises UnitError."""
    return _number(text, Dimension.VOLTAGE, "V", "a voltage such as 118 V")


def read_ohms(text: str) -> float:
    """A resistance [ohm], OPEN where the meter shows over limit. Raises UnitError."""
    if text.strip().lower() in _OVER_LIMIT:
        return OPEN
    return _number(text, Dimension.RESISTANCE, "ohm", "a resistance such as 0.3 ohm or 4.7 kohm, or OL")


def _number(text: str, dimension: Dimension, unit: str, allowed: str) -> float:
    # What is measured has said the unit; a meter's display shows the number alone.
    bare = text.strip().replace(".", "", 1)
    written = f"{text} {unit}" if bare.isascii() and bare.isdigit() else text
    try:
        value = parse_quantity(written, dimension)
    except UnitError:
        raise UnitError(printable(text) or "nothing", allowed) from None
    return abs(value)
