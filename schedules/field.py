"""What is known of one answer before it is given: label, unit, range, why it is asked, how typed text is read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from schedules.lengths import format_length, parse_length
from schedules.numerals import UnitError
from schedules.sizes import TradeSize, parse_trade_size
from schedules.text import printable, refuse_hostile
from schedules.units import Dimension, parse_quantity

Reads = Literal[
    "length", "percent", "line", "paragraph", "initials", "option", "options", "trade size", "points"
]
"""How typed text is understood. `option`, `options`: one or several of a list that the field or the sheet gives."""


@dataclass(frozen=True, slots=True)
class Option:
    """One possible answer. value: as the file writes it. barred: why it is not possible now, in words."""

    value: str | int
    words: str
    note: str = ""
    barred: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Field:
    """One answer of a job file.

    table, key: where the file keeps it. why: what it is needed for. example: how it may be written. lowest, highest:
    what is taken for a slip beyond them [in, for lengths; %, for shares]. options: fixed answers; where the sheet
    gives them, they stand in `schedules.offers`.
    """

    table: str
    key: str
    label: str
    reads: Reads
    why: str
    example: str
    lowest: float = 0.0
    highest: float = 0.0
    options: tuple[Option, ...] = ()
    longest: int = 120
    required: bool = False

    @property
    def unit(self) -> str:
        """In what unit the answer is written, in words; empty where it has none."""
        return {
            "length": "feet and inches, inches or metric, unit written",
            "percent": "percent",
            "trade size": "trade size of a raceway, a name in inches",
            "points": "along, out, up; points parted by ;",
        }.get(self.reads, "")

    @property
    def range(self) -> str:
        """What is accepted, in words."""
        match self.reads:
            case "length" | "points":
                return f"{format_length(self.lowest)} to {format_length(self.highest)}"
            case "percent":
                return f"{self.lowest:g} to {self.highest:g} %"
            case "trade size":
                return ", ".join(str(size) for size in TradeSize.every())
            case "option":
                return " or ".join(option.words for option in self.options)
            case "options":
                return "none, one or several"
            case "paragraph" | "line" | "initials":
                return f"1 to {self.longest} characters"

    def read(self, text: str) -> object:
        """Take what a person typed; give what the file writes.

        Raises UnitError, which says what was found and what is allowed.
        """
        if self.reads in ("line", "paragraph", "initials"):
            return self._words(text)
        match self.reads:
            case "length":
                self._within(parse_length(text), text)
                return text.strip()
            case "percent":
                return self._share(text.strip())
            case "trade size":
                return str(parse_trade_size(text))
            case "option":
                return self._option(text)
            case _:
                return self._several(text)

    def _share(self, text: str) -> str:
        """Read a percentage; the sign may be left out, since no other unit is possible."""
        written = text if not text or text.endswith("%") else f"{text} %"
        self._within(parse_quantity(written, Dimension.RATIO), text)
        return written

    def _several(self, text: str) -> list[object]:
        if self.reads == "points":
            return [self._point(point) for point in text.split(";") if point.strip()]
        return [word.strip() for word in text.split(",") if word.strip()]

    def _within(self, value: float, text: str) -> None:
        if not self.lowest <= value <= self.highest:
            raise UnitError(printable(text), self.range)

    def _point(self, text: str) -> dict[str, str]:
        parts = [part.strip() for part in text.split(",")]
        if len(parts) != 3:
            raise UnitError(printable(text), "three lengths for each point: along, out, up")
        for part in parts:
            self._within(parse_length(part), part)
        return dict(zip(("along", "out", "up"), parts, strict=True))

    def _option(self, text: str) -> str | int:
        wanted = text.strip().casefold()
        for option in self.options:
            if wanted in (str(option.value).casefold(), option.words.casefold()):
                return option.value
        raise UnitError(printable(text) or "nothing", self.range)

    def _words(self, text: str) -> str:
        hostile = refuse_hostile(text)
        if hostile is not None:
            raise UnitError(printable(text), f"visible characters only, not {hostile}")
        words = text.strip()
        if not 1 <= len(words) <= self.longest:
            raise UnitError(f"{len(words)} characters", self.range)
        return words
