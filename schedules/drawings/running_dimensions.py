"""Running dimensions: every measure from one datum, in rows of ticks with their numbers beside them.

No number is added to another one on site, so that no error adds up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.ink import SOFT_INK
from schedules.drawings.scaled_sheet import Pen, Type, room_of, spread
from schedules.quantities.lengths import format_length

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.scaled_sheet import ScaledSheet
    from schedules.drawings.scales import Mapping

NUMBERS = Type(7.5)
_NAMES = Type(7.5, bold=True)
_LINE = Pen(0.6)
_LEADER = Pen(0.4, colour=SOFT_INK)
_TICK = 3.0
_JOG = 9.0
_GAP = 8.6


@dataclass(frozen=True, slots=True)
class Mark:
    """One measure from the datum [in], and what it leads to."""

    at_in: float
    what: str

    @property
    def words(self) -> str:
        """As it stands on the drawing: the thing, then the number."""
        return f"{self.what} {format_length(self.at_in)}".strip()


@dataclass(frozen=True, slots=True)
class Row:
    """One row of measures: its name, and its marks in rising order."""

    name: str
    marks: tuple[Mark, ...]

    @classmethod
    def of(cls, name: str, found: Iterable[tuple[float, str]]) -> Row:
        """A row of measures; what lies at one place shares a mark."""
        at: dict[float, list[str]] = {}
        for value, what in found:
            at.setdefault(round(value * 64) / 64, []).append(what)
        marks = (
            Mark(value, _together(dict.fromkeys(filter(None, what)))) for value, what in sorted(at.items())
        )
        return cls(name, tuple(marks))

    @property
    def room(self) -> float:
        """How far it reaches from its line [pt]."""
        longest = max((_width(mark.words) for mark in self.marks), default=0.0)
        return _JOG + longest + 7.0

    def fits(self, span: float) -> bool:
        """Whether its numbers can stand beside one another on so much of the sheet [pt]."""
        return (len(self.marks) - 1) * _GAP <= span


@dataclass(frozen=True, slots=True)
class Ruler:
    """Where rows are laid out: the sheet, and what of the building is on it, along and up or out [in]."""

    sheet: ScaledSheet
    mapping: Mapping
    first_in: float
    last_in: float
    low_in: float
    high_in: float

    def below(self, row: Row, number: int, top: float) -> None:
        """A row under the view: its line at a height of the sheet [pt], its numbers turned, reading upwards."""
        sheet, name = self.sheet, f"along-{number}"
        left, _ = self.mapping.at(self.first_in, 0.0)
        right, _ = self.mapping.at(self.last_in, 0.0)
        sheet.line(name, (left, top), (right, top), _LINE)
        if self.first_in <= 0.0 <= self.last_in:
            sheet.circle(f"{name}-datum", (self.mapping.at(0.0, 0.0)[0], top), 2.2, _LINE)
        sheet.write(f"{name}-name", (left - 7, top + 2.6), row.name, _NAMES, anchor="end")
        xs = [self.mapping.at(mark.at_in, 0.0)[0] for mark in row.marks]
        places = spread(xs, _GAP, left - 4, right + 24)
        for n, (mark, x, moved) in enumerate(zip(row.marks, xs, places, strict=True)):
            sheet.line(f"{name}-tick-{n}", (x, top - _TICK), (x, top + _TICK), _LINE)
            sheet.line(f"{name}-lead-{n}", (x, top + _TICK), (moved, top + _JOG), _LEADER)
            at = (moved + 2.6, top + _JOG + 1.5)
            sheet.write(f"{name}-dim-{n}", at, mark.words, NUMBERS, anchor="end", turn=-90)

    def beside(self, row: Row, number: int, line: float) -> None:
        """A row left of the view: its line at a width of the sheet [pt], its numbers to the left of it."""
        sheet, name = self.sheet, f"up-{number}"
        top, bottom = sorted(self.mapping.at(0.0, end)[1] for end in (self.low_in, self.high_in))
        sheet.line(name, (line, bottom), (line, top), _LINE)
        if self.low_in <= 0.0 <= self.high_in:
            sheet.circle(f"{name}-datum", (line, self.mapping.at(0.0, 0.0)[1]), 2.2, _LINE)
        sheet.write(f"{name}-name", (line, top - 12), row.name, _NAMES, anchor="end")
        ys = [self.mapping.at(0.0, mark.at_in)[1] for mark in row.marks]
        rising = 1 if self.mapping.down else -1
        places = spread(ys[::rising], _GAP, top + 2, bottom - 1)[::rising]
        for n, (mark, y, moved) in enumerate(zip(row.marks, ys, places, strict=True)):
            sheet.line(f"{name}-tick-{n}", (line - _TICK, y), (line + _TICK, y), _LINE)
            sheet.line(f"{name}-lead-{n}", (line - _TICK, y), (line - _JOG, moved), _LEADER)
            at = (line - _JOG - 1.5, moved + 2.6)
            sheet.write(f"{name}-dim-{n}", at, mark.words, NUMBERS, anchor="end")


def _together(names: Iterable[str]) -> str:
    """Names as one, those that are numbered on shortened: `K1–K4`, `B1 B3`."""
    runs: list[list[str]] = []
    for name in names:
        if runs and _follows(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return " ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else " ".join(run) for run in runs)


def _follows(one: str, other: str) -> bool:
    """Whether a name is the other one's with the next number."""
    return (
        one[:1] == other[:1]
        and one[1:].isdigit()
        and other[1:].isdigit()
        and int(other[1:]) == int(one[1:]) + 1
    )


def _width(words: str) -> float:
    room = room_of(words, (0.0, 0.0), NUMBERS)
    return room.right - room.left
