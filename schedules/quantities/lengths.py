"""Lengths as a tape and a drawing give them: read by our own grammar, written so that it reads them back."""

from __future__ import annotations

import math
import re
from enum import StrEnum
from fractions import Fraction
from typing import Literal

from schedules.quantities.numerals import AMOUNT, DECIMAL, UnitError, exact, refusal, typed
from schedules.text import printable

LENGTH_EXAMPLES = "a length with its unit, such as 8' 3-1/2\", 99.5 in or 2.53 m"

LengthUnit = Literal["in", "ft", "m", "mm", "cm"]
Rounding = Literal["nearest", "up", "down"]


class Style(StrEnum):
    """How lengths are printed."""

    US = "feet and inches"
    METRIC = "metric"


_MM_PER_INCH = Fraction(254, 10)

# Inches per unit, exact by the international inch of 1959.
_INCHES: dict[str, Fraction] = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "mm": 1 / _MM_PER_INCH,
    "cm": 10 / _MM_PER_INCH,
    "m": 1000 / _MM_PER_INCH,
}

_LARGEST_FT = 10_000
_LARGEST_IN = _LARGEST_FT * 12

_FEET = r"(?:'|feet|foot|ft\.?)"
_INCH = r'(?:"|inches|inch|in\.?)'
# `8'-3"` is how drawings write it; after the word ft a hyphen would read as a minus.
_BETWEEN = r"(?:(?<=')-|\s*)"

_LENGTH = re.compile(
    rf"""
    (?P<minus>-\s*)?
    (?:
        (?P<feet>{AMOUNT})\s*{_FEET} (?:{_BETWEEN}(?P<inches_after_feet>{AMOUNT})\s*{_INCH})?
      | (?P<inches>{AMOUNT})\s*{_INCH}
      | (?P<metric>{DECIMAL})\s*(?P<metric_unit>mm|cm|m)
      | (?P<bare>{AMOUNT})
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)
_FEET_THEN_BARE = re.compile(rf"-?\s*{AMOUNT}\s*{_FEET}\s*{AMOUNT}", re.IGNORECASE)


def parse_length(text: str, *, default_unit: LengthUnit | None = None) -> float:
    """The length that a person typed, `8' 3-1/2"`, `99.5 in`, `-2.53 m` [in].

    default_unit: what a bare number is in; None refuses it. Raises UnitError, which names what was found
    and what is allowed.
    """
    plain = typed(text, LENGTH_EXAMPLES)
    match = _LENGTH.fullmatch(plain)
    if match is None:
        raise _refusal(text, plain)
    magnitude_in = _magnitude_in(match, printable(text), default_unit)
    if magnitude_in > _LARGEST_IN:
        raise UnitError(printable(text), f"at most {_LARGEST_FT:,} ft")
    # A negative zero would print as -0 further on.
    return -float(magnitude_in) if match["minus"] and magnitude_in else float(magnitude_in)


def _refusal(text: str, plain: str) -> UnitError:
    if _FEET_THEN_BARE.fullmatch(plain):
        return UnitError(f"{printable(text)} without a unit at the end", LENGTH_EXAMPLES)
    return refusal(text, LENGTH_EXAMPLES)


def _magnitude_in(match: re.Match[str], found: str, default_unit: LengthUnit | None) -> Fraction:
    if match["feet"] is not None:
        return _feet_and_inches_in(match, found)
    if match["inches"] is not None:
        return exact(match["inches"])
    if match["metric"] is not None:
        return exact(match["metric"]) * _INCHES[match["metric_unit"].lower()]
    return _bare_in(match["bare"], found, default_unit)


def _feet_and_inches_in(match: re.Match[str], found: str) -> Fraction:
    feet = exact(match["feet"])
    if match["inches_after_feet"] is None:
        return feet * 12
    inches = exact(match["inches_after_feet"])
    if not match["feet"].isdigit():
        raise UnitError(found, "whole feet where inches follow")
    if inches >= 12:
        raise UnitError(found, "less than 12 in after feet")
    return feet * 12 + inches


def _bare_in(bare: str, found: str, default_unit: LengthUnit | None) -> Fraction:
    if default_unit is None:
        raise UnitError(f"{found} without a unit", LENGTH_EXAMPLES)
    if "/" in bare and default_unit not in {"in", "ft"}:
        raise UnitError(found, f"a decimal number of {default_unit}")
    return exact(bare) * _INCHES[default_unit]


def format_length(
    length_in: float,
    style: Style = Style.US,
    resolution_denominator: int = 16,
    *,
    rounding: Rounding = "nearest",
) -> str:
    """A length as printed: `8' 3-1/2"`, `-2-1/4"`, or `2.53 m`, `89 mm` [in].

    resolution_denominator: of an inch, a power of 2 up to 64; metric is to the millimetre. rounding: `up`
    is towards the greater number (cut lengths), `down` towards the lesser (allowances). Raises ValueError
    for a length that is not finite.
    """
    if not math.isfinite(length_in):
        raise ValueError(f"a length must be finite, not {length_in}")
    if style is Style.METRIC:
        return _metric(_whole_steps(length_in * float(_MM_PER_INCH), rounding))
    if resolution_denominator not in {1, 2, 4, 8, 16, 32, 64}:
        raise ValueError(f"a resolution of 1/{resolution_denominator} in is on no tape")
    steps = _whole_steps(length_in * resolution_denominator, rounding)
    return _feet_and_inches(steps, resolution_denominator)


# Binary arithmetic leaves such crumbs; rounding one up would add a whole step to an exact length.
_CRUMB_STEPS = 1e-6


def _whole_steps(steps: float, rounding: Rounding) -> int:
    nearest = math.floor(abs(steps) + 0.5)
    nearest = -nearest if steps < 0 else nearest
    if rounding == "nearest" or abs(steps - nearest) <= _CRUMB_STEPS:
        return nearest
    return math.ceil(steps) if rounding == "up" else math.floor(steps)


def _feet_and_inches(steps: int, denominator: int) -> str:
    sign = "-" if steps < 0 else ""
    feet, rest = divmod(abs(steps), 12 * denominator)
    whole, part = divmod(rest, denominator)
    fraction = str(Fraction(part, denominator)) if part else ""
    if not fraction:
        inches = f'{whole}"'
    elif whole or feet:
        inches = f'{whole}-{fraction}"'
    else:
        inches = f'{fraction}"'
    return f"{sign}{feet}' {inches}" if feet else f"{sign}{inches}"


def _metric(length_mm: int) -> str:
    if abs(length_mm) < 1000:
        return f"{length_mm} mm"
    sign = "-" if length_mm < 0 else ""
    metres, millimetres = divmod(abs(length_mm), 1000)
    decimals = f"{millimetres:03d}"
    return f"{sign}{metres}.{decimals[:2]}{decimals[2].rstrip('0')} m"
