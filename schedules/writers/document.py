"""A package before it is written in any format: title block, tables, pictures, in the order in which they are read."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Mark(StrEnum):
    """How a row differs from the package before."""

    SAME = ""
    NEW = "new"
    CHANGED = "chg"


class Fill(StrEnum):
    """What a hand does in a column: nothing, tick a box, write."""

    PRINTED = ""
    TICK = "tick"
    WRITE = "write"


@dataclass(frozen=True, slots=True)
class Head:
    """One column of a table. key: its name in data. room_pt: what a hand needs at least to write there [pt]."""

    key: str
    text: str
    right: bool = False
    fill: Fill = Fill.PRINTED
    room_pt: float = 0.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row's text, column by column. anchor: its name inside the document, empty where nothing leads to it."""

    cells: tuple[str, ...]
    group: str = ""
    anchor: str = ""
    mark: Mark = Mark.SAME


@dataclass(frozen=True, slots=True)
class Table:
    """One schedule as it is printed. left_out: how many rows are only in the other files, in words.

    to_write: its rows are as high as a hand writes.
    """

    id: str
    title: str
    note: str
    heads: tuple[Head, ...]
    rows: tuple[Row, ...]
    left_out: str = ""
    to_write: bool = False


@dataclass(frozen=True, slots=True)
class Link:
    """A part of a drawing that leads to the row of this anchor: its place on the drawing at full size [pt]."""

    anchor: str
    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Figure:
    """One proved drawing. alt: what it shows, in words.

    width_pt, height_pt: its full size [pt]; smallest_full_pt: its smallest words at that size [pt]. to_scale: it is
    printed at that size or not at all.
    """

    id: str
    title: str
    alt: str
    svg: str
    width_pt: float
    height_pt: float
    smallest_full_pt: float
    to_scale: bool = False
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """One bookmark: a title, what stands under it, sections inside it. new_page: it begins one."""

    id: str
    title: str
    tables: tuple[Table, ...] = ()
    figures: tuple[Figure, ...] = ()
    parts: tuple[Section, ...] = ()
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding as it is printed. answer: who acknowledged it and why."""

    severity: str
    meaning: str
    subject: str
    says: str
    numbers: str
    rule: str
    remedies: tuple[str, ...]
    answer: str = ""
    mark: Mark = Mark.SAME


@dataclass(frozen=True, slots=True)
class Stamp:
    """What stands on every page, so that each stands alone. code: which contents this revision had. matrix: as SVG."""

    job: str
    sheet: str
    code_edition: str
    date: str
    revision: str
    prepared_by: str
    code: str
    matrix: str


@dataclass(frozen=True, slots=True)
class Changes:
    """What differs from the package before. against: which one that was. lines: one change each, by schedule."""

    against: str
    lines: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class Document:
    """One package for one person. legend: signs and colour codes used in it. missing: what could not be drawn.

    warning: what every page says first where it is nothing to build by. findings_last: changes and findings stand after
    the sections, for somebody who is to see another thing first.
    """

    stamp: Stamp
    reader: str
    verdict: str
    cautions: tuple[str, ...]
    caution: str
    note: str
    problems: tuple[Problem, ...]
    sections: tuple[Section, ...]
    legend: tuple[str, ...]
    changes: Changes | None = None
    missing: tuple[str, ...] = ()
    warning: str = ""
    findings_last: bool = False
