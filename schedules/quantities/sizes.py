"""Sizes that are names rather than measures: of conductors and of raceways, in their own order."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import total_ordering

from schedules.quantities.numerals import AMOUNT, UnitError, exact, refusal, typed
from schedules.text import printable

_WIRE_EXAMPLES = "a conductor size such as 14 AWG, 1/0 AWG or 250 kcmil"
_TRADE_EXAMPLES = "a raceway trade size such as 1/2, 1-1/4 or 2"

_THINNEST_GAUGE = 40
# 1/0 to 4/0 count on downwards from 1: 0, -1, -2, -3.
_THICKEST_GAUGE = -3

# Sizes of the NEC ampacity tables (310.16); smaller ones are named by gauge.
_KCMIL_SIZES = (250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000)

_GAUGE = r"[1-9][0-9]?|[1-4]/0"
_KCMIL = r"[0-9]{3,4}"
_WIRE = re.compile(
    rf"(?P<gauge>{_GAUGE})\s*AWG|AWG\s*(?P<gauge_after>{_GAUGE})|(?P<kcmil>{_KCMIL})\s*(?:kcmil|MCM)",
    re.IGNORECASE,
)
_TABLE_CELL = re.compile(rf"{_GAUGE}|{_KCMIL}")


@total_ordering
@dataclass(frozen=True, slots=True)
class WireSize:
    """A conductor size; the thicker is the greater.

    gauge: AWG number, 0 for 1/0 down to -3 for 4/0. kcmil: thousands of circular mils. One of the two is
    None. Prints as `14 AWG`, `1/0 AWG`, `250 kcmil`. Raises UnitError for a size that isn't made.
    """

    gauge: int | None = None
    kcmil: int | None = None

    def __post_init__(self) -> None:
        if (self.gauge is None) == (self.kcmil is None):
            raise UnitError(f"gauge {self.gauge} and kcmil {self.kcmil}", "one of the two")
        if self.gauge is not None and not _THICKEST_GAUGE <= self.gauge <= _THINNEST_GAUGE:
            raise UnitError(f"{self.gauge} AWG", f"{_THINNEST_GAUGE} AWG to 4/0 AWG")
        if self.kcmil is not None and self.kcmil not in _KCMIL_SIZES:
            raise UnitError(f"{self.kcmil} kcmil", ", ".join(f"{size} kcmil" for size in _KCMIL_SIZES))

    @classmethod
    def from_table(cls, cell: str) -> WireSize:
        """The size in a reference table's cell: `14`, `1/0`, `250`. Raises UnitError."""
        if _TABLE_CELL.fullmatch(cell) is None:
            raise UnitError(printable(cell) or "an empty cell", "a table's size: 14, 1/0 or 250")
        return _wire_size(cell)

    @property
    def _thickness(self) -> tuple[int, int]:
        # Every kcmil size is thicker than 4/0, which has 211.6 kcmil.
        return (self.kcmil or 0, -(self.gauge or 0))

    def __lt__(self, other: object) -> bool:
        return self._thickness < other._thickness if isinstance(other, WireSize) else NotImplemented

    def __str__(self) -> str:
        if self.gauge is None:
            return f"{self.kcmil} kcmil"
        return f"{self.gauge} AWG" if self.gauge > 0 else f"{1 - self.gauge}/0 AWG"


def parse_wire_size(text: str) -> WireSize:
    """The conductor size that a person typed: `14 AWG`, `AWG 14`, `1/0 AWG`, `250 kcmil`, `250 MCM`.

    A bare number is refused: it may be a gauge or square millimetres. Raises UnitError.
    """
    match = _WIRE.fullmatch(typed(text, _WIRE_EXAMPLES))
    if match is None:
        raise refusal(text, _WIRE_EXAMPLES)
    return _wire_size(match["gauge"] or match["gauge_after"] or match["kcmil"])


def _wire_size(designation: str) -> WireSize:
    aughts, slash, _ = designation.partition("/")
    if slash:
        return WireSize(gauge=1 - int(aughts))
    # No gauge has three digits, no kcmil size fewer.
    size = int(designation)
    return WireSize(gauge=size) if len(designation) < 3 else WireSize(kcmil=size)


# Trade sizes of the raceways of NEC Chapter 9 Table 4, in inches by name only.
_TRADE_SIZES = tuple(
    Fraction(size) for size in ("3/8", "1/2", "3/4", "1", "5/4", "3/2", "2", "5/2", "3", "7/2", "4", "5", "6")
)
_TRADE = re.compile(rf"(?P<amount>{AMOUNT})\s*(?:\"|in\.?|inch)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, order=True)
class TradeSize:
    """A raceway's or knockout's trade size: a name in inches, no diameter. Prints as `1/2`, `1-1/4`, `2`.

    Raises UnitError for a size that isn't made.
    """

    nominal: Fraction

    def __post_init__(self) -> None:
        if self.nominal not in _TRADE_SIZES:
            raise UnitError(f"trade size {_mixed(self.nominal)}", ", ".join(map(_mixed, _TRADE_SIZES)))

    @classmethod
    def every(cls) -> tuple[TradeSize, ...]:
        """All trade sizes, smallest first."""
        return tuple(cls(nominal) for nominal in _TRADE_SIZES)

    def __str__(self) -> str:
        return _mixed(self.nominal)


def parse_trade_size(text: str) -> TradeSize:
    """The trade size that a person typed: `1/2`, `1-1/4`, `1 1/4 in`, `2"`. Raises UnitError."""
    match = _TRADE.fullmatch(typed(text, _TRADE_EXAMPLES))
    if match is None:
        raise refusal(text, _TRADE_EXAMPLES)
    return TradeSize(exact(match["amount"]))


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole}-{rest}" if whole else str(rest)
