"""What each trade has seen before the board goes on, one line for each thing, with a photograph of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.rows.schedule import DASH, Column, Schedule
from schedules.sheet.hardware import POWER_LIMITED
from schedules.tables import load
from schedules.work.site_work import order_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.plan import Plan
    from schedules.sheet.wiring import Cable


Thing = tuple[str, str]
"""One thing to be seen, and the number that it is held against, in words."""


@dataclass(frozen=True, slots=True)
class SeenRow:
    """One thing to be seen. number: what it is held against, in words. photo: a picture of it is kept."""

    trade: str
    thing: str
    check: str
    number: str
    photo: bool
    source: str


def before_cover(plan: Plan) -> Schedule[SeenRow]:
    """The trades' own steps first, in the order of work, then each cable, raceway, box and member."""
    rows = (*_steps(plan), *_things(plan))
    trades = tuple(dict.fromkeys(row.trade for row in rows))
    return Schedule(
        id="before-cover",
        title="Before cover",
        columns=(
            Column("tick", "Seen", lambda _row: "[ ]"),
            Column("thing", "What", lambda row: row.thing),
            Column("check", "To be seen", lambda row: row.check),
            Column("number", "Number", lambda row: row.number or DASH),
            Column("photo", "Photo", lambda row: "[ ]" if row.photo else DASH),
            Column("source", "Source", lambda row: row.source, rank=2),
        ),
        rows=tuple(sorted(rows, key=lambda row: trades.index(row.trade))),
        group=lambda row: row.trade,
        note=(
            "Nothing is covered while a line is open. Each photograph shows a tape measure and the wall's end. What "
            "is to be seen is common practice and from memory: the adopted code decides."
        ),
    )


def _steps(plan: Plan) -> Iterator[SeenRow]:
    """Each trade's work before cover."""
    for slot in order_of(plan.derived.selection, plan.derived.job).slots:
        step = slot.step
        if step.before_cover:
            yield SeenRow(
                step.trade, step.work, step.hold or "done", "", photo=not step.hold, source="common practice"
            )


def _things(plan: Plan) -> Iterator[SeenRow]:
    table = load("seen_before_cover")
    for row in table.rows:
        source = str(table.source(row))
        for thing, number in _EACH[row.text("each")](plan):
            photo = row.text("photo") == "yes"
            yield SeenRow(row.text("trade"), thing, row.text("says"), number, photo, source)


def _findings(plan: Plan) -> Iterator[Thing]:
    for finding in plan.findings:
        if finding.severity.blocks:
            yield f"{finding.severity.upper()} {finding.subject}: {finding.says}", ""


def _raceways(plan: Plan) -> Iterator[Thing]:
    for raceway in plan.derived.raceways:
        size = "size not known" if raceway.size is None else f"trade size {raceway.size}"
        yield f"{raceway.raceway} {raceway.kind} for {', '.join(raceway.cables)}", size


def _boxes(plan: Plan) -> Iterator[Thing]:
    for box in plan.derived.boxes:
        yield f"{box.enclosure.tag} {box.enclosure.name}", f"{box.needed.volume_cu_in:.2f} cu in or more"


def _metal(plan: Plan) -> Iterator[Thing]:
    for enclosure in plan.derived.selection.enclosures:
        if enclosure.metal:
            yield f"{enclosure.tag} {enclosure.name}", ""


def _framing(plan: Plan) -> Iterator[Thing]:
    for member in plan.derived.framing:
        hole = "" if member.hole_in is None else f"hole {format_length(member.hole_in)}"
        yield f"{member.framing.tag} {member.framing.member} {member.framing.lumber}: {member.passes}", hole


def _whole(_plan: Plan) -> Iterator[Thing]:
    yield "the whole kitchen", ""


def _cables(plan: Plan, kind: str) -> Iterator[Thing]:
    lengths = {item.cable: item for item in plan.derived.lengths}
    for cable in plan.derived.selection.cables:
        if _kind(cable) != kind:
            continue
        length = lengths[cable.tag]
        if length.cut_in is not None:
            number = f"cut {format_length(length.cut_in, rounding='up')}"
        elif length.required_in is None:
            number = "not measured"
        else:
            number = f"{format_length(length.margin_in or 0.0, rounding='down')} to spare"
        yield f"{cable.tag} {cable.type}, {cable.origin.enclosure} to {cable.target.enclosure}", number


def _kind(cable: Cable) -> str:
    if cable.make == "factory":
        return "factory cable"
    return "limited cable" if cable.circuit_class in POWER_LIMITED else "power cable"


_EACH: dict[str, Callable[[Plan], Iterator[Thing]]] = {
    "finding": _findings,
    "power cable": partial(_cables, kind="power cable"),
    "limited cable": partial(_cables, kind="limited cable"),
    "factory cable": partial(_cables, kind="factory cable"),
    "raceway": _raceways,
    "box": _boxes,
    "metal enclosure": _metal,
    "framing": _framing,
    "job": _whole,
}
