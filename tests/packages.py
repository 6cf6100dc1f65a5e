"""Packages of sample kitchens, made once for all tests of one process, and their PDF read back."""

from __future__ import annotations

import io
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


@cache
def pages_of(pdf: bytes) -> tuple[Page, ...]:
    """The pages, each read once."""
    return tuple(pdfplumber.open(io.BytesIO(pdf)).pages)


def tables_on(page: Page) -> Iterator[list[list[str]]]:
    """Every ruled table of a page, each cell as one line."""
    for table in page.extract_tables():
        yield [[_line(cell) for cell in row if cell is not None] for row in table]


def _line(text: str) -> str:
    return " ".join(text.replace("\u200b", "").split())
