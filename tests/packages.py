"""Packages of sample kitchens, made once for all tests of one process, and their PDF read back."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pdfplumber

from schedules.drawings.picture import Paper
from schedules.package.packing import Order, pack
from schedules.package.parts import Part
from schedules.package.readers import reader
from schedules.planned import plan_file

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pdfplumber.page import Page

    from schedules.plan import Plan

JOBS = Path(__file__).parents[1] / "samples" / "jobs"


@cache
def plan_of(job: str) -> Plan:
    return plan_file(JOBS / f"{job}.toml").plan


@cache
def package_of(
    job: str, paper: Paper = Paper.LETTER, name: str | None = None, parts: tuple[Part, ...] = tuple(Part)
) -> dict[str, bytes]:
    return pack(plan_of(job), Order(reader=reader(name), paper=paper, parts=parts))


def the_one(contents: dict[str, bytes], ending: str) -> bytes:
    """The only file at the top of a package with this ending; the large sheets are another one."""
    found = [
        data for name, data in contents.items()
        if "/" not in name and name.endswith(ending) and "-large-" not in name
    ]  # fmt: skip
    assert len(found) == 1
    return found[0]


_OF_A_CHARACTER = ("text", "fontname", "x0", "top", "x1", "bottom", "size", "matrix")


@dataclass(frozen=True, slots=True)
class Character:
    """One printed character, its typeface, its box [pt], its size [pt], its turn and place as the page has them."""

    text: str
    font: str
    x0: float
    top: float
    x1: float
    bottom: float
    size: float
    matrix: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Ruled:
    """One ruled table: its box [pt], its rows with each cell as one line, whether something round is drawn in it."""

    box: tuple[float, float, float, float]
    rows: list[list[str]]
    curved: bool


@dataclass(frozen=True, slots=True)
class PrintedPage:
    """What tests ask of a page; the library's own pages keep many times as much.

    text: all words, one space between any two. words: each with its left and top [pt]. ends: the two ends of every
    line [pt]. boxes: the outlines of everything drawn [pt]. curved: whether there are curves, which only drawings have.
    """

    number: int
    width: float
    height: float
    text: str
    chars: tuple[Character, ...]
    words: tuple[tuple[str, float, float], ...]
    tables: tuple[Ruled, ...]
    ends: tuple[tuple[tuple[float, float], tuple[float, float]], ...]
    boxes: tuple[tuple[float, float, float, float], ...]
    curved: bool


@cache
def pages_of(
    pdf: bytes, *, ruled: bool = True, only: frozenset[int] | None = None
) -> tuple[PrintedPage, ...]:
    """The pages, each read once. ruled: also read the tables. only: these pages, counted from 0."""
    wanted = None if only is None else [number + 1 for number in sorted(only)]
    with pdfplumber.open(io.BytesIO(pdf), pages=wanted) as printed:
        return tuple(_read(page, ruled=ruled) for page in printed.pages)


def _read(page: Page, *, ruled: bool) -> PrintedPage:
    paths = [*page.curves, *page.lines, *page.rects]
    read = PrintedPage(
        number=page.page_number,
        width=float(page.width),
        height=float(page.height),
        text=" ".join(page.extract_text().split()),
        chars=tuple(Character(*(char[key] for key in _OF_A_CHARACTER)) for char in page.chars),
        words=tuple((word["text"], word["x0"], word["top"]) for word in page.extract_words()),
        tables=tuple(_tables_on(page)) if ruled else (),
        ends=tuple((path["pts"][0], path["pts"][-1]) for path in (*page.curves, *page.lines)),
        boxes=tuple((path["x0"], path["top"], path["x1"], path["bottom"]) for path in paths),
        curved=bool(page.curves),
    )
    page.close()
    return read


def _tables_on(page: Page) -> Iterator[Ruled]:
    for table in page.find_tables():
        left, top, right, bottom = table.bbox
        rows = [[_line(cell) for cell in row if cell is not None] for row in table.extract()]
        curved = any(
            path["x0"] < right and path["x1"] > left and path["top"] < bottom and path["bottom"] > top
            for path in page.curves
        )
        yield Ruled((left, top, right, bottom), rows, curved)


def _line(text: str) -> str:
    return " ".join(text.replace("\u200b", "").split())
