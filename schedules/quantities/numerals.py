"""How people write a number on a tape, a label or a data plate, read exactly; no unit is known here."""

from __future__ import annotations

import re
from fractions import Fraction

from schedules.text import printable, refuse_hostile


class UnitError(ValueError):
    """A typed quantity can't be read. found: what stood there, made printable. allowed: in words."""

    def __init__(self, found: str, allowed: str) -> None:
        super().__init__(f"found {found}; allowed: {allowed}")
        self.found = found
        self.allowed = allowed


# Longer than any quantity that a person writes; keeps every match below short.
_LONGEST = 40

# Patterns that name no group, to be built into larger ones.
DECIMAL = r"(?:[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12})"
_FRACTION = r"[0-9]{1,3}/[0-9]{1,3}"
AMOUNT = rf"(?:[0-9]{{1,7}}(?:-|\s+){_FRACTION}|{_FRACTION}|{DECIMAL})"

# What a tape shows. Thirds and tenths of an inch are on none, so they are slips.
_DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64})

_VULGAR_FRACTIONS = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_VULGAR = re.compile(f"(-?)([{''.join(_VULGAR_FRACTIONS)}])")

# Marks that a word processor or a phone sets in place of the typewriter's.
_PLAIN_MARKS = str.maketrans(
    {
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{FRACTION SLASH}": "/",
        "\N{MINUS SIGN}": "-",
    }
)

# Tried in this order when a text did not match, so that the message names the slip that was made.
_SLIPS = (
    (re.compile(r"[0-9]\s*,"), "a decimal point, and no comma between digits"),
    (re.compile(r"^[+-]?(?:nan|inf|infinity)\b", re.IGNORECASE), "a finite number"),
    (re.compile(r"[0-9]\s*e\s*[+-]?[0-9]", re.IGNORECASE), "plain digits without an exponent"),
    (re.compile(r"[*^²³]"), "one number and its unit, no powers or products"),
    (re.compile(r"[0-9]{13}"), "at most 12 digits before and after the decimal point"),
)


def typed(text: str, examples: str) -> str:
    """What was typed, marks made plain and outer space taken off.

    examples: how such a quantity is written, in words. Raises UnitError for an empty, overlong or
    hostile text.
    """
    hostile = refuse_hostile(text)
    if hostile:
        raise UnitError(printable(text), f"visible characters only, not {hostile}")
    if not text.strip():
        raise UnitError("nothing", examples)
    if len(text) > _LONGEST:
        raise UnitError(printable(text), f"at most {_LONGEST} characters, such as {examples}")
    plain = text.translate(_PLAIN_MARKS).replace("''", '"')
    # Set apart by spaces, so that digits beside the sign never run together with the fraction's own.
    return _VULGAR.sub(lambda match: f"{match[1] or ' '}{_VULGAR_FRACTIONS[match[2]]} ", plain).strip()


def refusal(text: str, examples: str) -> UnitError:
    """The error for a text that matched no grammar: the slip by name where it is a known one."""
    for pattern, allowed in _SLIPS:
        if pattern.search(text):
            return UnitError(printable(text), allowed)
    return UnitError(printable(text), examples)


def exact(amount: str) -> Fraction:
    """The value of a text that matches AMOUNT: `3`, `.75`, `3/4`, `3-1/2`, `3 1/2`.

    Raises UnitError where the fraction is no smaller than one or not on a tape.
    """
    if "/" not in amount:
        return Fraction(amount)
    *whole, fraction = re.split(r"-|\s+", amount)
    numerator, denominator = (int(part) for part in fraction.split("/"))
    if denominator not in _DENOMINATORS or not 0 < numerator < denominator:
        raise UnitError(amount, "a fraction smaller than 1, in halves, 4ths, 8ths, 16ths, 32nds or 64ths")
    return Fraction(int(whole[0]) if whole else 0) + Fraction(numerator, denominator)
