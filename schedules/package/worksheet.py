"""A worksheet and its answers on paper: ends to fill in, a drawing to label, slips and faults to find."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.behaviour.diagnose import LIVE_CAUTIONS
from schedules.behaviour.found import told_value
from schedules.drawings.views import one_enclosure
from schedules.package.class_paper import both_formats, class_document, figures
from schedules.package.tables import one_line
from schedules.rows.terminations import re_marked
from schedules.writers.document import Fill, Head, Row, Section, Table

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.drawings.picture import Paper
    from schedules.plan import Plan
    from schedules.rows.terminations import ConductorRow
    from schedules.teaching.exercises import Exercise, Sought

_BLANK = ""
_FOR_A_WORD_PT, _FOR_AN_END_PT, _FOR_A_SENTENCE_PT = 57.0, 142.0, 170.0
"""20 mm for a number or a colour, 50 mm for enclosure and terminal, 60 mm for a reason: for handwriting, own choice."""


def worksheet_files(plan: Plan, exercise: Exercise, paper: Paper) -> dict[str, bytes]:
    """The worksheet and, in files of its own, the answers; PDF and page of each, by file name.

    Raises DrawingError where a drawing is not proved, TypesettingError.
    """
    files: dict[str, bytes] = {}
    faults = [item.fault.id for item in exercise.sought]
    asked = repr((exercise.seed, exercise.ends, exercise.drawing_at, exercise.rows, faults)).encode()
    for name, reader, answers in (("worksheet", "Student", False), ("answers", "Trainer: answers", True)):
        sections = tuple(_sections(plan, exercise, paper, answers=answers))
        document = class_document(plan, f"{reader}, worksheet {exercise.seed}", asked, sections)
        files |= both_formats(f"{name}-{exercise.seed}", document, paper)
    return files


def _sections(plan: Plan, exercise: Exercise, paper: Paper, *, answers: bool) -> Iterator[Section]:
    names = {item.tag: f"{item.tag} {item.name}" for item in plan.derived.selection.enclosures}
    yield Section(
        "ends",
        _title("1  Where does each conductor land?", answers=answers),
        (_ends(exercise, names, answers=answers),),
    )
    yield Section(
        "drawing",
        _title(f"2  Label the drawing: {names[exercise.drawing_at]}", answers=answers),
        figures=tuple(figures(one_enclosure(plan, exercise.drawing_at, paper), "drawing", labels=answers)),
    )
    yield Section("slips", _title("3  Find the slips", answers=answers), (_list(exercise, answers=answers),))
    if exercise.sought:
        yield Section(
            "faults",
            _title("4  What is broken?", answers=answers),
            (_cases(plan, exercise, answers=answers),),
        )


def _title(words: str, *, answers: bool) -> str:
    return f"Answers: {words}" if answers else words


def _ends(exercise: Exercise, names: dict[str, str], *, answers: bool) -> Table:
    fill = Fill.PRINTED if answers else Fill.WRITE
    return Table(
        id="ends",
        title="Where does each conductor land?",
        note=f"{names[exercise.ends_at]}. Name ______________________  Date ____________. Fill in what lands on each "
        "terminal and where its other end is, from the maker's manual or the drawing on the wall.",
        heads=(
            Head("terminal", "Terminal"),
            Head("function", "Function"),
            Head("wire", "Wire", fill=fill, room_pt=_FOR_A_WORD_PT),
            Head("colour", "Colour", fill=fill, room_pt=_FOR_A_WORD_PT),
            Head("size", "Size", fill=fill, room_pt=_FOR_A_WORD_PT),
            Head("other", "Other end: enclosure and terminal", fill=fill, room_pt=_FOR_AN_END_PT),
        ),
        to_write=not answers,
        rows=tuple(
            Row(
                (
                    one_line(row.terminal),
                    one_line(row.function),
                    *(
                        (
                            row.number,
                            re_marked(row.colour, row.mark),
                            row.size,
                            f"{row.other_enclosure} {row.other_terminal}",
                        )
                        if answers
                        else (_BLANK,) * 4
                    ),
                )
            )
            for row in exercise.ends
        ),
    )


def _list(exercise: Exercise, *, answers: bool) -> Table:
    fill = Fill.PRINTED if answers else Fill.WRITE
    wrong = {slip.row.number: slip for slip in exercise.slips}

    def cells(row: ConductorRow) -> tuple[str, ...]:
        slip = wrong.get(row.number)
        return (
            row.number,
            f"{row.from_enclosure} {row.from_terminal}",
            f"{row.to_enclosure} {row.to_terminal}",
            re_marked(row.colour, row.mark),
            row.size,
            ("WRONG: " + slip.says if slip is not None else "right") if answers else _BLANK,
        )

    return Table(
        id="slips",
        title="Find the slips",
        note=f"{len(exercise.slips)} rows of this list are wrong: a far end or a colour. Write what is right.",
        heads=(
            Head("wire", "Wire"),
            Head("from", "From"),
            Head("to", "To"),
            Head("colour", "Colour"),
            Head("size", "Size"),
            Head("right", "Right, or what it should be", fill=fill, room_pt=_FOR_A_SENTENCE_PT),
        ),
        to_write=not answers,
        rows=tuple(Row(cells(row), group=row.cable) for row in exercise.rows),
    )


def _cases(plan: Plan, exercise: Exercise, *, answers: bool) -> Table:
    fill = Fill.PRINTED if answers else Fill.WRITE
    names = {effect.id: effect.name for effect in plan.derived.sheet.effect}
    return Table(
        id="faults",
        title="What is broken?",
        note="In each case one thing is wrong. Somebody looked and measured as written; say after each row what it "
        f"rules out, and in the last row what is broken. {' '.join(LIVE_CAUTIONS)}",
        heads=(
            Head("taken", "Looked at or measured"),
            Head("shows", "It showed"),
            Head("tells", "What that tells", fill=fill, room_pt=_FOR_A_SENTENCE_PT),
        ),
        to_write=not answers,
        rows=tuple(
            row
            for letter, sought in zip("ABCDEFGHIJ", exercise.sought, strict=False)
            for row in _case(letter, sought, names, answers=answers)
        ),
    )


def _case(letter: str, sought: Sought, names: Mapping[str, str], *, answers: bool) -> Iterator[Row]:
    group = f"Case {letter}"
    for reading in sought.readings:
        left = f"{reading.left} {'explanation' if reading.left == 1 else 'explanations'} left"
        shows = told_value(reading.probe, reading.value, names)
        cells = (one_line(reading.probe.says), one_line(shows), left if answers else _BLANK)
        yield Row(cells, group)
    says = "; or, with the same readings: ".join(sought.alike) if answers else _BLANK
    yield Row(("What is broken?", _BLANK, one_line(says)), group)
