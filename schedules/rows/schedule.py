"""What every schedule is: rows of one type, and how each column shows a row."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

RowT = TypeVar("RowT")
DASH = "–"
"""Stands where a row has nothing in a column."""


@dataclass(frozen=True, slots=True)
class Column(Generic[RowT]):
    """One column. rank: 1 is always shown, higher ones where there is room. key: its name in data."""

    key: str
    head: str
    cell: Callable[[RowT], str]
    rank: int = 1
    right: bool = False


@dataclass(frozen=True, slots=True)
class Schedule(Generic[RowT]):
    """One table.

    group: the heading under which a row stands, empty where there are none. note: what to know first. enclosures:
    tags of the enclosures at which a row is worked on, None where the table is not about enclosures.
    """

    id: str
    title: str
    columns: tuple[Column[RowT], ...]
    rows: tuple[RowT, ...]
    group: Callable[[RowT], str] = lambda _row: ""
    note: str = ""
    enclosures: Callable[[RowT], tuple[str, ...]] | None = None

    def at(self, enclosure: str) -> Schedule[RowT]:
        """The same table with only the rows at one enclosure.

        Raises ValueError where the table is not about enclosures.
        """
        if self.enclosures is None:
            raise ValueError(f"{self.id} is not about enclosures")
        return replace(self, rows=tuple(row for row in self.rows if enclosure in self.enclosures(row)))

    def cells(self, row: RowT) -> tuple[str, ...]:
        """One row's text, column by column."""
        return tuple(column.cell(row) for column in self.columns)
