"""What every schedule is: rows of one type, and how each column shows a row."""

from __future__ import annotations

from dataclasses import dataclass
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
    """One table. group: the heading under which a row stands, empty where there are none. note: what to know first."""

    id: str
    title: str
    columns: tuple[Column[RowT], ...]
    rows: tuple[RowT, ...]
    group: Callable[[RowT], str] = lambda _row: ""
    note: str = ""

    def cells(self, row: RowT) -> tuple[str, ...]:
        """One row's text, column by column."""
        return tuple(column.cell(row) for column in self.columns)
