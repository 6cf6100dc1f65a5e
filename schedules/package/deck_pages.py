"""A deck on paper: for each demonstration what to say, its drawing, and every conductor."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.drawings.views import overview
from schedules.package.class_paper import both_formats, class_document, figures
from schedules.package.revisions import printed_table, row_marks
from schedules.package.tables import one_line, table
from schedules.rows.terminations import conductors
from schedules.teaching.points import talks
from schedules.writers.deck_listing import deck_json
from schedules.writers.document import Fill, Head, Row, Section, Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Paper
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck
    from schedules.teaching.points import Talk


def deck_files(sheet: Sheet, deck: Deck, paper: Paper) -> dict[str, bytes]:
    """The deck as PDF, page and JSON, by file name. Raises DrawingError, TypesettingError."""
    data = deck_json(sheet, deck)
    sections = tuple(
        section
        for number, talk in enumerate(talks(sheet, deck), start=1)
        for section in _sections(deck, number, talk, paper)
    )
    document = class_document(deck.demonstrations[0].plan, "Trainer: demonstrations", data, sections)
    return both_formats("deck", document, paper) | {"deck.json": data}


def _sections(deck: Deck, number: int, talk: Talk, paper: Paper) -> Iterator[Section]:
    item = deck.demonstrations[number - 1]
    before = deck.demonstrations[number - 2].plan if number > 1 else None
    name = f"demonstration-{number}"
    yield Section(
        name,
        f"Demonstration {number} of {len(deck.demonstrations)}",
        (_points(name, talk),),
        tuple(figures(overview(item.plan, paper), name)),
        new_page=True,
    )
    yield _wires(name, number, item.plan, before)


def _points(name: str, talk: Talk) -> Table:
    said = [("Put in", title) for title in talk.put_in] + [("Take out", title) for title in talk.taken_out]
    said += [(point.what.capitalize(), says) for point in talk.points for says in point.says]
    return Table(
        id=name,
        title="What to say",
        note="What differs from the demonstration before.",
        heads=(Head("says", "Point at"), Head("shown", "Shown", fill=Fill.TICK)),
        rows=tuple(Row((one_line(says), ""), group=one_line(what)) for what, says in said),
    )


def _wires(name: str, number: int, plan: Plan, before: Plan | None) -> Section:
    """Every conductor with both ends; what is new or otherwise than before is marked."""
    schedule = conductors(plan)
    marks = {}
    if before is not None:
        marks = row_marks(printed_table(conductors(before)), printed_table(schedule))
    narrow = replace(schedule, columns=tuple(column for column in schedule.columns if column.rank == 1))
    wired = replace(table(narrow, marks, paper=True), id=f"{name}-wires")
    return Section(f"{name}-wires", f"Demonstration {number}: conductors", (wired,))
