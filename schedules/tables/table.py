"""A published table in memory: typed cells, units, editions and how well each value was confirmed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.tables.edition import Code

Cell = str | int | float | tuple[float, ...] | tuple[str, ...] | None

# From the best confirmed to the least.
_FALLING = (
    Confidence.TWO_TEXTS,
    Confidence.DERIVED,
    Confidence.SHEET,
    Confidence.JOB,
    Confidence.ONE_TEXT,
    Confidence.COMMON_PRACTICE,
    Confidence.MEMORY,
)


def weakest(*confidences: Confidence) -> Confidence:
    """The least confirmed of these; a number rests on its weakest value."""
    return max(confidences, key=_FALLING.index)


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name in file and code, type, unit, where its confidence stands, declared order.

    confidence: a confidence level for the whole column, or the column that holds one for each row.
    """

    name: str
    type: str
    unit: str
    confidence: str
    order: str


@dataclass(frozen=True, slots=True)
class Edition:
    """The table's number in one edition, and whether that edition's own text was read."""

    year: str
    number: str
    confidence: Confidence
    note: str


@dataclass(frozen=True, slots=True)
class Row:
    """One row. Its cells are read by column name and type; an empty cell is an error, not a zero."""

    cells: Mapping[str, Cell]
    line: int

    def has(self, column: str) -> bool:
        """Whether the published table prints a value here."""
        return self.cells[column] not in (None, ())

    def number(self, column: str) -> float:
        """The number in this column. Raises LookupError where the table prints none, or several."""
        cell = self.cells[column]
        if isinstance(cell, tuple) and len(cell) == 1 and isinstance(cell[0], float):
            return cell[0]
        if isinstance(cell, int | float):
            return float(cell)
        raise LookupError(f"line {self.line} has no single number in {column!r} but {cell!r}")

    def count(self, column: str) -> int:
        """The whole number in this column. Raises LookupError where the table prints none."""
        cell = self.cells[column]
        if not isinstance(cell, int):
            raise LookupError(f"line {self.line} has no count in {column!r} but {cell!r}")
        return cell

    def text(self, column: str) -> str:
        """The text in this column, empty where the table prints none."""
        cell = self.cells[column]
        return "" if cell is None else str(cell)

    def numbers(self, column: str) -> tuple[float, ...]:
        """The numbers listed in this column."""
        cell = self.cells[column]
        return tuple(float(part) for part in cell) if isinstance(cell, tuple) else ()

    def words(self, column: str) -> tuple[str, ...]:
        """The words listed in this column."""
        cell = self.cells[column]
        return tuple(str(part) for part in cell) if isinstance(cell, tuple) else ()


@dataclass(frozen=True)
class Table:
    """One published table with its citation."""

    name: str
    title: str
    standard: str
    second_check: str
    note: str
    key: tuple[str, ...]
    editions: Mapping[str, Edition]
    columns: Mapping[str, Column]
    rows: tuple[Row, ...]

    def row(self, *key: Cell) -> Row:
        """The row with these values in the key columns. Raises LookupError naming what there is."""
        found = self._by_key.get(key)
        if found is None:
            raise LookupError(self._no_row(key))
        return found

    def where(self, **wanted: Cell) -> tuple[Row, ...]:
        """All rows that hold these values, in the table's order; none is an empty answer."""
        key = tuple(wanted.items())
        found = self._found.get(key)
        if found is None:
            first, rest = key[:1], key[1:]
            rows = self._holding(*first[0]) if first else self.rows
            found = self._found[key] = tuple(
                row for row in rows if all(row.cells[name] == value for name, value in rest)
            )
        return found

    def citation(self, edition: Code | None = None) -> str:
        """Standard, edition and table number, e.g. `NEC 2023 Chapter 9 Table 4`.

        edition may be left out where the table serves one edition only.
        """
        served = self._edition(edition)
        return " ".join(part for part in (self.standard, served.year, served.number) if part)

    def source(self, row: Row, column: str = "", edition: Code | None = None) -> Source:
        """Citation and confidence of one row, or of one cell where a column is named.

        Raises LookupError for an edition that the table doesn't serve.
        """
        served = self._edition(edition)
        key = row.line, column, served.year
        found = self._sources.get(key)
        if found is None:
            columns = (self.columns[column],) if column else tuple(self.columns.values())
            levels = [level for each in columns if (level := self._confidence(row, each)) is not None]
            found = Source(self.citation(edition), weakest(served.confidence, *levels))
            self._sources[key] = found
        return found

    def edition_note(self, edition: Code | None = None) -> str:
        """What has to be said about using this table for this edition; empty where nothing has."""
        return self._edition(edition).note

    def _holding(self, column: str, value: Cell) -> tuple[Row, ...]:
        """The rows that hold a value in one column."""
        index = self._indexes.get(column)
        if index is None:
            index = self._indexes[column] = {}
            for row in self.rows:
                index[row.cells[column]] = (*index.get(row.cells[column], ()), row)
        return index.get(value, ())

    @cached_property
    def _indexes(self) -> dict[str, dict[Cell, tuple[Row, ...]]]:
        """For each column that rows were sought by, the rows by their value in it."""
        return {}

    @cached_property
    def _found(self) -> dict[tuple[tuple[str, Cell], ...], tuple[Row, ...]]:
        """Rows by what they were asked for: a plan asks the same of a table over and over."""
        return {}

    @cached_property
    def _sources(self) -> dict[tuple[int, str, str], Source]:
        """Sources by line, column and edition: as many as the table has cells."""
        return {}

    @cached_property
    def _by_key(self) -> dict[tuple[Cell, ...], Row]:
        return {tuple(row.cells[column] for column in self.key): row for row in self.rows}

    def _confidence(self, row: Row, column: Column) -> Confidence | None:
        if column.type == "confidence" or column.name in self.key or not column.confidence:
            return None
        if column.confidence not in self.columns:
            return Confidence(column.confidence)
        level = row.cells[column.confidence]
        return Confidence(str(level)) if level is not None and row.has(column.name) else None

    def _edition(self, edition: Code | None) -> Edition:
        if edition is None and len(self.editions) == 1:
            return next(iter(self.editions.values()))
        served = None if edition is None else self.editions.get(str(edition))
        if served is None:
            year = None if edition is None else str(edition)
            raise LookupError(
                f"{self.standard} {self.title}: no edition {year!r}; there are: {', '.join(self.editions)}"
            )
        return served

    def _no_row(self, key: tuple[Cell, ...]) -> str:
        if len(key) != len(self.key):
            return f"{self.title}: a row is named by {', '.join(self.key)}; found {key!r}"
        rows = self.rows
        for name, value in zip(self.key, key, strict=True):
            known = ", ".join(dict.fromkeys(row.text(name) for row in rows))
            rows = tuple(row for row in rows if row.cells[name] == value)
            if not rows:
                break
        return f"{self.title}: no row for {name} {value}; there are: {known}"
