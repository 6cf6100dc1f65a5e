"""Put a plan's tables, findings and drawings into the order in which one person reads them."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING, Any

from schedules.cautions import CAUTION, CAUTIONS
from schedules.package.done import done_in
from schedules.package.tables import one_line, table
from schedules.tables import load
from schedules.writers.document import Document, Mark, Problem, Section
from schedules.writers.listing import verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.findings import Finding
    from schedules.package.figures import Drawings, Drawn
    from schedules.package.readers import Reader
    from schedules.package.revisions import Revision
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from schedules.writers.document import Stamp, Table

SIGNS = (
    "–: none. A → B: bought as A, re-marked as B. COM, NO, NC: contacts, named in shelf state (no power). "
    "Tick a box, initial a blank, when it is done."
)

_TERMINATIONS = "terminations"
_LED_TO = (_TERMINATIONS, "empty")
"""The schedules with a row for each terminal, to which the terminals of drawings lead."""


def assemble(
    plan: Plan,
    schedules: Mapping[str, Schedule[Any]],
    drawings: Drawings,
    *,
    reader: Reader,
    stamp: Stamp,
    revision: Revision,
    names: tuple[str, ...],
    paper: bool,
) -> Document:
    """One person's package. names: which schedules, in order. paper: leave out what is for the screen only."""
    done = done_in(plan)
    tables = {
        name: table(schedules[name], revision.marks.get(name), done.get(name), paper=paper)
        for name in names
        if name in schedules
    }
    sheet = plan.derived.sheet.sheet
    sections = []
    if drawings.overview:
        sections.append(
            Section("overview", "Overview", figures=tuple(item.figure for item in drawings.overview))
        )
    walls = drawings.walls_on_paper if paper else drawings.walls
    if walls:
        sections.append(
            Section("walls", "Kitchen and walls to scale", figures=tuple(item.figure for item in walls))
        )
    if drawings.ladders and not paper:
        sections.append(
            Section("ladder", "Ladder diagram", figures=tuple(item.figure for item in drawings.ladders))
        )
    sections += [_section(printed, drawings) for printed in tables.values() if printed.rows]
    return Document(
        stamp=stamp,
        reader=reader.title,
        verdict=verdict(plan),
        cautions=(*CAUTIONS, *(f"Maker: {one_line(text)}" for text in sheet.cautions)),
        caution=CAUTION,
        note=one_line(plan.derived.job.job.note or ""),
        problems=tuple(
            problem(finding, revision.finding_marks.get(place, Mark.SAME))
            for place, finding in enumerate(plan.findings)
        ),
        sections=tuple(sections),
        legend=(colours(plan), SIGNS),
        changes=revision.changes,
        missing=tuple(one_line(text) for text in drawings.missing),
        findings_last=reader.findings_last,
    )


def large_sheets(document: Document, drawings: Drawings, whole: tuple[Drawn, ...]) -> Document:
    """What goes on the sheet twice as large: the walls to scale, the whole point to point, the ladder.

    After them the rows to which their terminals lead, so that a reader can follow them in this file too.
    """
    sections = tuple(
        Section(name, title, figures=tuple(item.figure for item in drawn))
        for name, title, drawn in (
            ("walls", "Kitchen and walls to scale", drawings.walls),
            ("point-to-point", "Point to point", whole),
            ("ladder", "Ladder diagram", drawings.ladders),
        )
        if drawn
    )
    rows = tuple(_rows_alone(section) for section in document.sections if section.id in _LED_TO)
    return replace(document, sections=(*sections, *rows), problems=(), changes=None)


def _rows_alone(section: Section) -> Section:
    """A section without its drawings, its parts one after another in one table."""
    (whole,) = section.tables
    parted = (replace(row, group=part.title) for part in section.parts for row in part.tables[0].rows)
    return Section(section.id, section.title, tables=(replace(whole, rows=(*whole.rows, *parted)),))


def problem(finding: Finding, mark: Mark) -> Problem:
    """One finding's text."""
    return Problem(
        severity=str(finding.severity),
        meaning=finding.severity.meaning,
        subject=one_line(finding.subject),
        says=one_line(finding.says),
        numbers=one_line("; ".join(f"{item.name} {item.value}" for item in finding.numbers)),
        rule=one_line(f"{finding.rule} [{finding.source}; {finding.code}]"),
        remedies=tuple(
            one_line(f"{remedy.words}{' (planned again and cured)' if remedy.edits else ''}")
            for remedy in finding.remedies
        ),
        answer=one_line(str(finding.acknowledgement or "")),
        mark=mark,
    )


def colours(plan: Plan) -> str:
    """The colour codes that the job's conductors have, with the colours' names."""
    connections = plan.derived.connections
    used = {item.colour for item in connections.conductors.values()}
    used |= {item.colour for item in connections.spares}
    used |= {item.mark for item in connections.conductors.values() if item.mark}
    return ", ".join(
        f"{row.text('code')} {row.text('colour').partition(' (')[0]}"
        for row in load("iec_60757_colour_codes").rows
        if row.text("code") in used
    )


def _section(printed: Table, drawings: Drawings) -> Section:
    """One schedule. Terminations are parted by enclosure, each with its drawing: one page for one box."""
    if printed.id != _TERMINATIONS:
        return Section(printed.id, printed.title, tables=(printed,))
    parts = []
    for group, rows in groupby(printed.rows, lambda row: row.group):
        tag = group.split(" ", 1)[0]
        figures = tuple(item.figure for item in drawings.enclosures.get(tag, ()))
        ungrouped = tuple(replace(row, group="") for row in rows)
        parts.append(
            Section(
                f"{printed.id}-{tag.lower()}",
                group,
                (replace(printed, rows=ungrouped, title=group),),
                figures,
            )
        )
    return Section(
        printed.id, printed.title, tables=(replace(printed, note="", rows=()),), parts=tuple(parts)
    )
