"""What is known of one answer before it is given: label, unit, range, why it is asked, how typed text is read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.quantities.lengths import format_length
from schedules.quantities.sizes import TradeSize
from schedules.questions.typed_answers import READERS

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.quantities.units import Dimension

Reads = Literal[
    "length",
    "quantity",
    "percent",
    "count",
    "number",
    "line",
    "paragraph",
    "initials",
    "option",
    "options",
    "trade size",
    "wire size",
    "points",
    "bends",
]
"""How typed text is understood. `option`, `options`: one or several of a list that the field or the sheet gives."""


@dataclass(frozen=True, slots=True)
class Option:
    """One possible answer. value: as the file writes it. barred: why it is not possible now, in words."""

    value: str | int
    words: str
    note: str = ""
    barred: tuple[str, ...] = ()


YES_NO = (Option(True, "yes"), Option(False, "no"))


@dataclass(frozen=True, slots=True)
class Field:
    """One answer of a job file.

    table, key: where the file keeps it. why: what it is needed for. example: how it may be written. lowest, highest:
    what is taken for a slip beyond them [in, for lengths; %, for shares; else the dimension's unit]. options: fixed
    answers; where the sheet gives them, they stand in `schedules.questions.offers`. required: no row goes without it.
    allowed: what may stand there, where that says it better than the bounds do.
    """

    table: str
    key: str
    label: str
    reads: Reads
    why: str
    example: str
    lowest: float = 0.0
    highest: float = 0.0
    dimension: Dimension | None = None
    options: tuple[Option, ...] = ()
    longest: int = 120
    required: bool = False
    allowed: str = ""

    @property
    def unit(self) -> str:
        """In what unit the answer is written, in words; empty where it has none."""
        if self.dimension is not None:
            return f"{self.dimension}, unit written"
        return {
            "length": "feet and inches, inches, or metric",
            "percent": "percent",
            "trade size": "trade size of a raceway, a name in inches",
            "wire size": "AWG or kcmil",
            "points": "along, out, up of each point; points parted by ;",
            "bends": "angle of each bend, its radius if known, pull box where one follows; bends parted by ;",
        }.get(self.reads, "")

    @property
    def range(self) -> str:
        """What is accepted, in words."""
        words: dict[Reads, Callable[[], str]] = {
            "length": lambda: f"{format_length(self.lowest)} to {format_length(self.highest)}",
            "points": lambda: f"{format_length(self.lowest)} to {format_length(self.highest)}",
            "quantity": lambda: f"{self.lowest:g} to {self.highest:g} {self._canonical}",
            "bends": lambda: f"{self.lowest:g} to {self.highest:g} deg each",
            "percent": lambda: f"{self.lowest:g} to {self.highest:g} %",
            "count": lambda: f"{self.lowest:g} to {self.highest:g}",
            "number": lambda: f"{self.lowest:g} to {self.highest:g}",
            "trade size": lambda: ", ".join(str(size) for size in TradeSize.every()),
            "wire size": lambda: "a size that is made, such as 14 AWG or 250 kcmil",
            "option": lambda: " or ".join(option.words for option in self.options) or "one of the list",
            "options": lambda: "none, one or several of the list",
        }
        return self.allowed or words.get(self.reads, lambda: f"1 to {self.longest} characters")()

    def read(self, text: str) -> object:
        """Take what a person typed; give what the file writes.

        Raises UnitError, which says what was found and what is allowed.
        """
        return READERS[self.reads](self, text)

    @property
    def _canonical(self) -> str:
        return "" if self.dimension is None else self.dimension.canonical_unit
