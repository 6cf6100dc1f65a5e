"""How each kind of answer is read from what a person typed, and refused in words where it is a slip."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from schedules.quantities.lengths import parse_length
from schedules.quantities.numerals import UnitError
from schedules.quantities.sizes import parse_trade_size, parse_wire_size
from schedules.quantities.units import Dimension, parse_quantity
from schedules.text import printable, refuse_hostile

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from schedules.questions.field import Field

_WHOLE = re.compile(r"[0-9]{1,6}")
_DECIMAL = re.compile(r"-?[0-9]{1,9}(?:\.[0-9]{1,9})?")


def _length(field: Field, text: str) -> str:
    _within(field, parse_length(text), text)
    return text.strip()


def _quantity(field: Field, text: str) -> str:
    if field.dimension is None:
        raise ValueError(f"{field.table}.{field.key} has no dimension")
    _within(field, parse_quantity(text, field.dimension), text)
    return text.strip()


def _percent(field: Field, text: str) -> str:
    """A share; the sign may be left out, since no other unit is possible."""
    plain = text.strip()
    written = plain if not plain or plain.endswith("%") else f"{plain} %"
    _within(field, parse_quantity(written, Dimension.RATIO), text)
    return written


def _count(field: Field, text: str) -> int:
    if _WHOLE.fullmatch(text.strip()) is None:
        raise UnitError(printable(text) or "nothing", f"a whole number, {field.range}")
    _within(field, int(text), text)
    return int(text)


def _number(field: Field, text: str) -> float:
    if _DECIMAL.fullmatch(text.strip()) is None:
        raise UnitError(printable(text) or "nothing", f"a plain number such as {field.example}")
    _within(field, float(text), text)
    return float(text)


def _words(field: Field, text: str) -> str:
    hostile = refuse_hostile(text)
    if hostile is not None:
        raise UnitError(printable(text), f"visible characters only, not {hostile}")
    words = text.strip()
    if not 1 <= len(words) <= field.longest:
        raise UnitError(f"{len(words)} characters", field.range)
    return words


def _initials(field: Field, text: str) -> str:
    """A reading typed one field too early is no one's initials."""
    words = _words(field, text)
    if any(sign.isdecimal() for sign in words):
        raise UnitError(printable(words), f"letters, such as {field.example}")
    return words


def _option(field: Field, text: str) -> str | int:
    wanted = text.strip().casefold()
    for option in field.options:
        if wanted in (str(option.value).casefold(), option.words.casefold()):
            return option.value
    if field.options:
        raise UnitError(printable(text) or "nothing", field.range)
    # The sheet gives the list; whether the name is one of it, the plan says.
    return _words(field, text)


def _options(field: Field, text: str) -> list[str]:
    return [_words(field, word) for word in text.split(",") if word.strip()]


def _points(field: Field, text: str) -> list[dict[str, str]]:
    return [_point(field, point) for point in text.split(";") if point.strip()]


def _point(field: Field, text: str) -> dict[str, str]:
    parts = [part.strip() for part in text.split(",")]
    if len(parts) != 3:
        raise UnitError(printable(text), "three lengths for each point: along, out, up")
    for part in parts:
        _within(field, parse_length(part), part)
    return dict(zip(("along", "out", "up"), parts, strict=True))


PULL_BOX = "pull box"
"""What a bend ends with where a box to pull from stands right after it."""


def _bends(field: Field, text: str) -> list[dict[str, str]]:
    return [_bend(field, bend) for bend in text.split(";") if bend.strip()]


def _bend(field: Field, text: str) -> dict[str, str]:
    angle, *more = (part.strip() for part in text.split(","))
    _within(field, parse_quantity(angle, Dimension.ANGLE), angle)
    then = {"then": more.pop()} if more and more[-1] == PULL_BOX else {}
    if len(more) > 1:
        raise UnitError(printable(text), f"an angle, a radius, and {PULL_BOX} where one follows")
    if not more or not more[0]:
        return {"angle": angle, **then}
    if parse_length(more[0]) <= 0:
        raise UnitError(printable(more[0]), "a radius of more than nothing")
    return {"angle": angle, "radius": more[0], **then}


def _within(field: Field, value: float, text: str) -> None:
    if not field.lowest <= value <= field.highest:
        raise UnitError(printable(text), field.range)


READERS: Mapping[str, Callable[[Field, str], object]] = {
    "length": _length,
    "quantity": _quantity,
    "percent": _percent,
    "count": _count,
    "number": _number,
    "line": _words,
    "paragraph": _words,
    "initials": _initials,
    "option": _option,
    "options": _options,
    "trade size": lambda _field, text: str(parse_trade_size(text)),
    "wire size": lambda _field, text: str(parse_wire_size(text)),
    "points": _points,
    "bends": _bends,
}
"""The reader of each kind: gives what the file writes, raises UnitError."""
