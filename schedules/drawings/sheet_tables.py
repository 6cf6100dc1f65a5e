"""Tables on a scaled drawing: each as wide as its words, a heading, a rule, rows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.drawings.ink import SOFT_INK
from schedules.drawings.metrics import width_pt, wrap
from schedules.drawings.scaled_sheet import Pen, Type

if TYPE_CHECKING:
    from schedules.drawings.scaled_sheet import ScaledSheet

_CELL = Type(7.5)
_HEAD = Type(7.5, bold=True)
_TITLE = Type(9.0, bold=True)
_ROW = 10.5
_BETWEEN = 7.0
_HEADS = 2 * _ROW + 6
_WIDEST = 92.0
_RULE = Pen(0.6)
_HAIR = Pen(0.25, colour=SOFT_INK)
_CONTINUED = ", continued"


@dataclass(frozen=True, slots=True)
class SheetTable:
    """One table: its name among the ids, its title, heads and rows of words; cells that are long are wrapped."""

    name: str
    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def _wrapped(self) -> list[list[tuple[str, ...]]]:
        return [[wrap(cell, _CELL.pt, _WIDEST) for cell in row] for row in self.rows]

    def widths(self) -> tuple[float, ...]:
        """Of each column [pt]."""
        wrapped = self._wrapped()
        return tuple(
            max(
                width_pt(head, _HEAD.pt, bold=True),
                *(width_pt(line, _CELL.pt) for row in wrapped for line in row[place]),
                0.0,
            )
            for place, head in enumerate(self.heads)
        )

    @property
    def width(self) -> float:
        """Of the whole table [pt]."""
        title = width_pt(self.title, _TITLE.pt, bold=True)
        return max(title, sum(self.widths()) + _BETWEEN * (len(self.heads) - 1))

    @property
    def height(self) -> float:
        """Of the whole table [pt]."""
        lines = sum(max((len(cell) for cell in row), default=1) for row in self._wrapped())
        return _HEADS + _ROW * lines

    def split(self, room: float) -> tuple[SheetTable | None, SheetTable | None]:
        """What of the table goes into so high a room [pt], and what is left over; None where that is nothing."""
        if self.height <= room:
            return self, None
        high, count = _HEADS, 0
        for row in self._wrapped():
            high += _ROW * max(len(cell) for cell in row)
            if high > room:
                break
            count += 1
        if not count:
            return None, self
        title = self.title if self.title.endswith(_CONTINUED) else f"{self.title}{_CONTINUED}"
        return replace(self, rows=self.rows[:count]), replace(self, title=title, rows=self.rows[count:])

    def draw(self, sheet: ScaledSheet, left: float, top: float) -> None:
        """Write it with its left upper corner at a point."""
        y = top + _ROW * 0.8
        sheet.write(f"{self.name}-title", (left, y), self.title, _TITLE)
        y += _ROW + 2
        lefts = [left]
        for width in self.widths()[:-1]:
            lefts.append(lefts[-1] + width + _BETWEEN)
        for place, head in enumerate(self.heads):
            sheet.write(f"{self.name}-head-{place}", (lefts[place], y), head, _HEAD)
        sheet.line(f"{self.name}-rule", (left, y + 3), (left + self.width, y + 3), _RULE)
        for number, row in enumerate(self._wrapped()):
            lines = max(len(cell) for cell in row)
            for place, cell in enumerate(row):
                for n, words in enumerate(cell):
                    if words:
                        at = (lefts[place], y + _ROW * (n + 1) + 1)
                        sheet.write(f"{self.name}-{number}-{place}-{n}", at, words, _CELL)
            y += _ROW * lines
            sheet.line(f"{self.name}-hair-{number}", (left, y + 3.4), (left + self.width, y + 3.4), _HAIR)
