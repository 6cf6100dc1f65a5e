"""Read one published table, check it against its own header, and keep it for the next question."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from schedules.errors import InputError, Mistake
from schedules.tables.table import Cell, Column, Edition, Row, Table
from schedules.working import Confidence

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_FOLDER = Path(__file__).parent
_ORDERS = ("rises", "falls", "never falls", "never rises")
_CELL_TYPES: dict[str, Callable[[str], Cell]] = {
    "text": str,
    "count": int,
    "number": float,
    "numbers": lambda text: tuple(float(part) for part in text.split(";")),
    "words": lambda text: tuple(text.split(";")),
    "confidence": Confidence,
}


@cache
def names() -> tuple[str, ...]:
    """Names of all tables that `load` knows, sorted."""
    return tuple(sorted(path.stem for path in _FOLDER.glob("*.csv")))


@cache
def load(name: str) -> Table:
    """The published table of this name, read and checked once.

    Raises LookupError for an unknown name, InputError when the file breaks its own header.
    """
    if name not in names():
        raise LookupError(f"no table {name!r}; there are: {', '.join(names())}")
    return read(_FOLDER / f"{name}.csv")


def read(path: Path) -> Table:
    """The table in this CSV, with the TOML header of the same stem beside it.

    Raises InputError with every breach of shape, type, key or declared order.
    """
    # Deferred: a program that asks no table pays for neither parser.
    import csv  # noqa: PLC0415
    import tomllib  # noqa: PLC0415

    header = tomllib.loads(path.with_suffix(".toml").read_text(encoding="utf-8"))
    with path.open(encoding="utf-8", newline="") as file:
        lines = list(csv.reader(file))
    columns = _columns(header)
    rows, mistakes = _rows(path.name, columns, lines)
    if mistakes:
        raise InputError(tuple(mistakes))
    table = Table(
        name=path.stem,
        title=header["title"],
        standard=header["standard"],
        second_check=header["second_check"],
        note=header.get("note", ""),
        key=tuple(header["key"]),
        editions=MappingProxyType(_editions(header)),
        columns=MappingProxyType(columns),
        rows=rows,
    )
    mistakes = [*_key_mistakes(path.name, table), *_order_mistakes(path.name, table, header)]
    if mistakes:
        raise InputError(tuple(mistakes))
    return table


def _columns(header: dict[str, Any]) -> dict[str, Column]:
    return {
        name: Column(
            name=name,
            type=column["type"],
            unit=column.get("unit", ""),
            confidence=column.get("confidence", header.get("confidence", "")),
            order=column.get("order", ""),
        )
        for name, column in header["columns"].items()
    }


def _editions(header: dict[str, Any]) -> dict[str, Edition]:
    return {
        year: Edition(
            year=year,
            number=edition["number"],
            confidence=Confidence(edition.get("confidence", Confidence.TWO_TEXTS)),
            note=edition.get("note", ""),
        )
        for year, edition in header["editions"].items()
    }


def _rows(
    file: str, columns: dict[str, Column], lines: list[list[str]]
) -> tuple[tuple[Row, ...], list[Mistake]]:
    """Every row with its cells typed, and every breach of shape or type."""
    for column in columns.values():
        if column.type not in _CELL_TYPES:
            return (), [Mistake(file, None, column.name, repr(column.type), ", ".join(_CELL_TYPES))]
    if not lines or lines[0] != list(columns):
        found = ", ".join(lines[0]) if lines else "nothing"
        return (), [Mistake(file, 1, "", found, ", ".join(columns))]
    rows: list[Row] = []
    mistakes: list[Mistake] = []
    for number, line in enumerate(lines[1:], start=2):
        if len(line) != len(columns):
            mistakes.append(Mistake(file, number, "", f"{len(line)} cells", f"{len(columns)} cells"))
            continue
        cells: dict[str, Cell] = {}
        for column, text in zip(columns.values(), line, strict=True):
            try:
                cells[column.name] = _cell(column, text)
            except ValueError:
                mistakes.append(Mistake(file, number, column.name, repr(text), f"a {column.type}"))
        rows.append(Row(MappingProxyType(cells), number))
    return tuple(rows), mistakes


def _cell(column: Column, text: str) -> Cell:
    if text == "":
        return () if column.type in {"numbers", "words"} else None
    return _CELL_TYPES[column.type](text)


def _key_mistakes(file: str, table: Table) -> Iterator[Mistake]:
    seen: dict[tuple[Cell, ...], int] = {}
    for row in table.rows:
        key = tuple(row.cells[column] for column in table.key)
        if key in seen:
            yield Mistake(
                file, row.line, ".".join(table.key), str(key), f"a key other than line {seen[key]}'s"
            )
        seen[key] = row.line


def _order_mistakes(file: str, table: Table, header: dict[str, Any]) -> Iterator[Mistake]:
    within = header.get("order_within", [])
    for column in table.columns.values():
        if not column.order:
            continue
        if column.order not in _ORDERS:
            yield Mistake(file, None, column.name, repr(column.order), " or ".join(_ORDERS))
            continue
        last: dict[tuple[Cell, ...], float] = {}
        for row in table.rows:
            if not row.has(column.name):
                continue
            group = tuple(row.cells[name] for name in within)
            value = row.number(column.name)
            if group in last and not _in_order(column.order, last[group], value):
                yield Mistake(file, row.line, column.name, str(value), f"{column.order} from {last[group]}")
            last[group] = value


def _in_order(order: str, before: float, after: float) -> bool:
    match order:
        case "rises":
            return after > before
        case "falls":
            return after < before
        case "never falls":
            return after >= before
        case _:
            return after <= before
