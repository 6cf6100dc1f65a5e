"""Make the files of a package: one for each way in which somebody on site works from it."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any

from schedules.drawings.picture import Paper
from schedules.package.assembly import assemble, large_sheets
from schedules.package.beside import beside
from schedules.package.booklet import booklet
from schedules.package.done import done_in
from schedules.package.figures import LARGE, Drawings, Wanted, draw_boxes, draw_sheets, draw_whole
from schedules.package.label_sheets import label_files
from schedules.package.parts import EVERY_PART, Part
from schedules.package.readers import EVERYBODY
from schedules.package.record import NAME, record_bytes
from schedules.package.revisions import Revision, compare_with, printed_findings, printed_table
from schedules.package.stamp import contents_code, make_stamp
from schedules.package.tables import table
from schedules.rows.every import SCHEDULES
from schedules.text import for_filename
from schedules.writers.calendar_file import work_calendar
from schedules.writers.csv_files import csv_bytes
from schedules.writers.data import plan_json
from schedules.writers.typesetting import images_of, typeset
from schedules.writers.web_page import web_page
from schedules.writers.workbook import workbook_bytes

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from schedules.package.figures import Drawn
    from schedules.package.readers import Reader
    from schedules.package.record import Record
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from schedules.writers.document import Document, Stamp, Table

Whole = Callable[[], "tuple[Drawn, ...]"]
"""How to wait for the whole point to point."""

# White conductors vanish in much coarser images.
_PNG_DPI = 120


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


@dataclass(frozen=True, slots=True)
class _Making:
    """What every part of one package is made of. data: the plan as JSON."""

    plan: Plan
    order: Order
    schedules: Mapping[str, Schedule[Any]]
    data: bytes
    stamp: Stamp
    revision: Revision

    @property
    def stem(self) -> str:
        """What the names of its files begin with."""
        return f"{for_filename(self.plan.derived.job.job.name)}-{self.order.reader.name}"

    @property
    def named(self) -> tuple[str, ...]:
        """The schedules that are in files for the screen: all of them, or what one person needs, as it is used."""
        reader = self.order.reader
        return tuple(self.schedules) if reader is EVERYBODY else reader.schedules

    @property
    def tables(self) -> dict[str, Table]:
        """Those schedules, as tables with every row."""
        done = done_in(self.plan)
        return {
            name: table(self.schedules[name], self.revision.marks.get(name), done.get(name))
            for name in self.named
        }

    def document(self, drawings: Drawings, *, paper: bool) -> Document:
        """The whole package: for paper, or for the screen."""
        return assemble(
            self.plan,
            self.schedules,
            drawings,
            reader=self.order.reader,
            stamp=self.stamp,
            revision=self.revision,
            names=self.order.reader.schedules if paper else self.named,
            paper=paper,
        )


def pack(plan: Plan, order: Order, tell: Callable[[str], None] = lambda _words: None) -> dict[str, bytes]:
    """Every file of a package by its path inside the folder: a pure function of plan and order.

    tell: is told what is being made. Raises DrawingError where a drawing is not proved, TypesettingError,
    WorkbookError, EngineError.
    """
    tell("drawings and schedules")
    reader, drawing = order.reader, any(part.has_drawings for part in order.parts)
    wanted = Wanted(
        overview=drawing and reader.overview,
        enclosures=drawing and reader.enclosures,
        walls=drawing and reader.walls,
    )
    asked = (plan, order.paper, wanted)
    made: dict[Part, dict[str, bytes]] = {}
    with beside(partial(draw_boxes, *asked), partial(draw_whole, *asked)) as (boxes, whole):
        schedules: dict[str, Schedule[Any]] = {name: make(plan) for name, make in SCHEDULES.items()}
        data = plan_json(plan, schedules.values())
        printed = {name: printed_table(schedule) for name, schedule in schedules.items()}
        stamp = make_stamp(plan, contents_code(data))
        findings = printed_findings(plan.findings)
        revision = Revision() if order.since is None else compare_with(order.since, printed, findings)
        making = _Making(plan, order, schedules, data, stamp, revision)
        for part in (part for part in _OF_TABLES if part in order.parts):
            tell(part.meaning)
            made[part] = _OF_TABLES[part](making)
        sheets = draw_sheets(*asked)
        drawn = boxes()
        drawings = replace(sheets, overview=drawn.overview, enclosures=drawn.enclosures)
        makers = [(part, make) for part, make in _OF_DRAWINGS if part in order.parts]
        # The typesetter works beside the interpreter: the booklet is set while the others are written.
        with ThreadPoolExecutor(max_workers=2) as pool:
            begun = [(part, pool.submit(make, making, drawings, whole)) for part, make in makers]
            for part, files in begun:
                if part not in made:
                    tell(part.meaning)
                made[part] = made.get(part, {}) | files.result()
    contents = {path: content for part in Part if part in made for path, content in made[part].items()}
    contents[NAME] = record_bytes(stamp, printed, findings, contents)
    return contents


def _booklet(making: _Making, drawings: Drawings, _whole: Whole) -> dict[str, bytes]:
    pages = booklet(making.document(drawings, paper=True), making.order.paper.value)
    return {f"{making.stem}.pdf": typeset("package.typ", pages, day=making.stamp.date)}


def _large(making: _Making, drawings: Drawings, whole: Whole) -> dict[str, bytes]:
    if not (whole() or drawings.walls):
        return {}
    paper = LARGE[making.order.paper].value
    document = large_sheets(making.document(drawings, paper=True), drawings, whole())
    sheets = booklet(document, paper, cover=False)
    name = f"{making.stem}-large-{paper.lower()}.pdf"
    return {name: typeset("package.typ", sheets, day=making.stamp.date)}


def _page(making: _Making, drawings: Drawings, _whole: Whole) -> dict[str, bytes]:
    return {f"{making.stem}.html": web_page(making.document(drawings, paper=False))}


def _drawings(_making: _Making, drawings: Drawings, whole: Whole) -> dict[str, bytes]:
    return _files(drawings.every) | _files(whole())


def _files(drawn: Sequence[Drawn]) -> dict[str, bytes]:
    """Each drawing in its formats."""
    images = images_of(
        ((item.figure.svg, item.figure.width_pt, item.figure.height_pt) for item in drawn), dpi=_PNG_DPI
    )
    contents = {f"drawings/{name}": data for item in drawn for name, data in item.files.items()}
    return contents | {
        f"drawings/{item.figure.id}.png": image for item, image in zip(drawn, images, strict=True)
    }


def _workbook(making: _Making) -> dict[str, bytes]:
    document = making.document(Drawings(), paper=False)
    paper = making.order.paper.value
    return {f"{making.stem}.xlsx": workbook_bytes(document, making.tables.values(), paper)}


def _lists(making: _Making) -> dict[str, bytes]:
    return {f"csv/{name}.csv": csv_bytes(item) for name, item in making.tables.items()}


def _calendar(making: _Making) -> dict[str, bytes]:
    dated = work_calendar(making.plan) if "work" in making.named else None
    return {} if dated is None else {f"{making.stem}-work.ics": dated}


def _labels(making: _Making) -> dict[str, bytes]:
    return label_files(making.schedules["labels"], making.stamp, making.order.paper.value)


def _plan(making: _Making) -> dict[str, bytes]:
    return {"plan.json": making.data}


_OF_TABLES: Mapping[Part, Callable[[_Making], dict[str, bytes]]] = {
    Part.XLSX: _workbook,
    Part.CSV: _lists,
    Part.ICS: _calendar,
    Part.LABELS: _labels,
    Part.JSON: _plan,
}
"""Parts that no drawing is in: made while the drawings are."""

_OF_DRAWINGS: Sequence[tuple[Part, Callable[[_Making, Drawings, Whole], dict[str, bytes]]]] = (
    (Part.PDF, _booklet),
    (Part.DRAWINGS, _drawings),
    (Part.HTML, _page),
    (Part.PDF, _large),
)
"""Parts with drawings: what takes longest first, what waits for the whole point to point last."""
