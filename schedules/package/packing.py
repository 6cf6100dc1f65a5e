"""Make the files of a package: one for each way in which somebody on site works from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from schedules.drawings.picture import Paper
from schedules.package.assembly import assemble, wall_sheets
from schedules.package.booklet import booklet
from schedules.package.done import done_in
from schedules.package.figures import LARGE, Drawings, draw_all
from schedules.package.label_sheets import label_files
from schedules.package.parts import EVERY_PART, Part
from schedules.package.readers import EVERYBODY
from schedules.package.record import NAME, record_bytes
from schedules.package.revisions import Revision, compare_with, printed_findings, printed_table
from schedules.package.stamp import contents_code, make_stamp
from schedules.package.tables import table
from schedules.rows.every import SCHEDULES
from schedules.text import for_filename
from schedules.writers.csv_files import csv_bytes
from schedules.writers.data import plan_json
from schedules.writers.typesetting import typeset
from schedules.writers.web_page import web_page
from schedules.writers.workbook import workbook_bytes

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.package.readers import Reader
    from schedules.package.record import Record
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule


@dataclass(frozen=True, slots=True)
class Order:
    """What package is wanted: for whom, on which paper, which parts, against which one before."""

    reader: Reader = EVERYBODY
    paper: Paper = Paper.LETTER
    parts: tuple[Part, ...] = EVERY_PART
    since: Record | None = None


def contents_code_of(plan: Plan) -> str:
    """The code that paper of this plan carries."""
    return contents_code(plan_json(plan))


def pack(plan: Plan, order: Order, tell: Callable[[str], None] = lambda _words: None) -> dict[str, bytes]:
    """Every file of a package by its path inside the folder: a pure function of plan and order.

    tell: is told what is being made. Raises DrawingError where a drawing is not proved, TypesettingError,
    WorkbookError, EngineError.
    """
    tell("schedules")
    schedules: dict[str, Schedule[Any]] = {name: make(plan) for name, make in SCHEDULES.items()}
    data = plan_json(plan, schedules.values())
    stamp = make_stamp(plan, contents_code(data))
    tables = {name: printed_table(schedule) for name, schedule in schedules.items()}
    findings = printed_findings(plan.findings)
    revision = Revision() if order.since is None else compare_with(order.since, tables, findings)
    drawings = _drawings(plan, order, tell)
    reader = order.reader
    stem = for_filename(plan.derived.job.job.name)
    contents: dict[str, bytes] = {}
    paper = order.paper.value
    if Part.PDF in order.parts:
        tell("booklet")
        document = assemble(
            plan,
            schedules,
            drawings,
            reader=reader,
            stamp=stamp,
            revision=revision,
            names=reader.schedules,
            paper=True,
        )
        contents[f"{stem}-{reader.name}.pdf"] = typeset(
            "package.typ", booklet(document, paper), day=stamp.date
        )
        if drawings.wall:
            large = LARGE[order.paper].value
            contents[f"{stem}-wall-{large.lower()}.pdf"] = typeset(
                "package.typ",
                booklet(wall_sheets(document, drawings), large, cover=False),
                day=stamp.date,
            )
    named = tuple(name for name in schedules if reader is EVERYBODY or name in reader.schedules)
    document = assemble(
        plan,
        schedules,
        drawings,
        reader=reader,
        stamp=stamp,
        revision=revision,
        names=named,
        paper=False,
    )
    if Part.HTML in order.parts:
        tell("page for the screen")
        contents[f"{stem}-{reader.name}.html"] = web_page(document)
    done = done_in(plan)
    every = {name: table(schedules[name], revision.marks.get(name), done.get(name)) for name in named}
    if Part.XLSX in order.parts:
        tell("workbook")
        contents[f"{stem}-{reader.name}.xlsx"] = workbook_bytes(document, every.values(), paper)
    if Part.CSV in order.parts:
        tell("CSV files")
        contents |= {f"csv/{name}.csv": csv_bytes(item) for name, item in every.items()}
    if Part.LABELS in order.parts:
        tell("labels")
        contents |= label_files(schedules["labels"], stamp, paper)
    if Part.JSON in order.parts:
        contents["plan.json"] = data
    if Part.DRAWINGS in order.parts:
        tell("drawings, each on its own")
        for item in drawings.every:
            contents[f"drawings/{item.name}.svg"] = item.drawing.svg.encode()
            contents[f"drawings/{item.name}.dot"] = item.drawing.dot.encode()
    contents[NAME] = record_bytes(stamp, tables, findings, contents)
    return contents


def _drawings(plan: Plan, order: Order, tell: Callable[[str], None]) -> Drawings:
    wanted = {Part.PDF, Part.HTML, Part.DRAWINGS} & set(order.parts)
    if not wanted:
        return Drawings((), {}, ())
    tell("drawings")
    return draw_all(
        plan,
        order.paper,
        whole=order.reader.overview,
        enclosures=order.reader.enclosures,
        wall=order.reader.enclosures,
    )
