"""How a schedule's columns share a line: the less important ones give way, then cells wrap."""

from __future__ import annotations

import itertools
import textwrap
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.rows.schedule import Column, Schedule

RowT = TypeVar("RowT")
GAP = "  "
LEAST_WIDTH = 40


@dataclass(frozen=True, slots=True)
class TableLayout:
    """One table laid out for a width. places: which columns are shown; widths, rights: of those, in characters.

    rows: every row's lines, in the schedule's order.
    """

    places: tuple[int, ...]
    widths: tuple[int, ...]
    rights: tuple[bool, ...]
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def rule(self) -> str:
        """The line between head and rows."""
        return GAP.join("-" * wide for wide in self.widths)


def lay_out(schedule: Schedule[RowT], width: int) -> TableLayout:
    """Lay a schedule's rows out in at most `width` columns, but never less than 40."""
    cells = [[for_terminal(cell) for cell in schedule.cells(row)] for row in schedule.rows]
    room = max(width, LEAST_WIDTH)
    places = _fitting(schedule.columns, cells, room)
    widths = _widths(schedule.columns, cells, places, room)
    rights = [schedule.columns[place].right for place in places]
    heads = [schedule.columns[place].head for place in places]
    return TableLayout(
        places=tuple(places),
        widths=tuple(widths),
        rights=tuple(rights),
        head=tuple(_lines(heads, widths, rights)),
        rows=tuple(tuple(_lines([row[place] for place in places], widths, rights)) for row in cells),
    )


def _fitting(columns: Sequence[Column[RowT]], cells: list[list[str]], width: int) -> list[int]:
    """Leave out the columns of the highest ranks until the rest fits; rank 1 stays whatever happens."""
    shown = list(range(len(columns)))
    while sum(_natural(columns, cells, place) for place in shown) + len(GAP) * (len(shown) - 1) > width:
        worst = max(columns[place].rank for place in shown)
        if worst == 1:
            break
        shown.remove(max(place for place in shown if columns[place].rank == worst))
    return shown


def _natural(columns: Sequence[Column[RowT]], cells: list[list[str]], place: int) -> int:
    return max(len(columns[place].head), *(len(row[place]) for row in cells), 1)


def _widths(
    columns: Sequence[Column[RowT]], cells: list[list[str]], shown: list[int], width: int
) -> list[int]:
    """Give each column its natural width; what is too much is taken from the widest ones, whose cells wrap."""
    widths = [_natural(columns, cells, place) for place in shown]
    least = [min(len(columns[place].head), 6) for place in shown]
    while sum(widths) + len(GAP) * (len(widths) - 1) > width:
        widest = max(range(len(widths)), key=lambda n: widths[n] - least[n])
        if widths[widest] <= least[widest]:
            break
        widths[widest] -= 1
    return widths


def _lines(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> list[str]:
    wrapped = [textwrap.wrap(cell, wide) or [""] for cell, wide in zip(cells, widths, strict=True)]
    return [
        GAP.join(
            part.rjust(wide) if is_right else part.ljust(wide)
            for part, wide, is_right in zip(parts, widths, right, strict=True)
        ).rstrip()
        for parts in itertools.zip_longest(*wrapped, fillvalue="")
    ]
