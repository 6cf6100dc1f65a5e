"""Worksheets: set by a seed, each slip and fault a real one, no answer given away on the student's pages."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader

from schedules.drawings.drawing import draw
from schedules.drawings.errors import DrawingError
from schedules.drawings.picture import Paper
from schedules.drawings.unlabelled import without_labels
from schedules.drawings.views import one_enclosure
from schedules.package import worksheet
from schedules.package.paper import SHEETS, lay_out
from schedules.package.worksheet import worksheet_files
from schedules.planned import plan_file
from schedules.rows.terminations import conductors, terminations
from schedules.teaching.exercises import SLIPS, Exercise, set_exercise
from schedules.writers.document import Fill

if TYPE_CHECKING:
    from schedules.plan import Plan

TEMPLATES = Path(__file__).parents[2] / "schedules" / "templates"


@cache
def plan() -> Plan:
    """The example that the program itself gives: small, with a circuit, a relay box and a valve."""
    return plan_file(TEMPLATES / "job.toml", remedies=False).plan


@cache
def exercise(seed: int) -> Exercise:
    return set_exercise(plan(), seed)


@cache
def files() -> dict[str, bytes]:
    return worksheet_files(plan(), exercise(7), Paper.LETTER)


def words(name: str) -> str:
    pages = PdfReader(io.BytesIO(files()[name])).pages
    return " ".join(" ".join(page.extract_text() for page in pages).replace("\u200b", "").split())


def test_the_same_seed_sets_the_same_and_another_one_another() -> None:
    one, again, other = (set_exercise(plan(), seed, faults=0) for seed in (7, 7, 8))
    assert one == again
    assert (one.ends, one.rows, one.slips) == (exercise(7).ends, exercise(7).rows, exercise(7).slips)
    assert other.slips != one.slips


@pytest.mark.parametrize("seed", [7, 8])
def test_only_the_slips_differ_from_the_plan(seed: int) -> None:
    right = conductors(plan()).rows
    set_ = set_exercise(plan(), seed, faults=0)
    wrong = {row.number: row for row, shown in zip(right, set_.rows, strict=True) if row != shown}
    assert len(wrong) == SLIPS
    assert wrong == {slip.row.number: slip.row for slip in set_.slips}


def test_each_fault_can_be_found_from_its_readings() -> None:
    """Each reading leaves no more explanations than the one before; the last leaves those that are told as alike."""
    sought = exercise(7).sought
    assert len({item.fault.kind for item in sought}) == len(sought) == 3
    for item in sought:
        left = [reading.left for reading in item.readings]
        assert left == sorted(left, reverse=True)
        assert left[-1] == len(item.alike)
        assert item.fault.says in item.alike
        assert "nothing is wrong" not in item.alike


def test_the_ends_are_all_of_one_enclosure() -> None:
    tag = exercise(7).ends_at
    assert exercise(7).ends == tuple(row for row in terminations(plan()).rows if row.enclosure == tag)


def test_the_answers_have_what_the_worksheet_leaves_open() -> None:
    asked, answered = words("worksheet-7.pdf"), words("answers-7.pdf")
    for row in exercise(7).ends:
        assert row.terminal in asked
        assert row.other_terminal in answered
    for slip in exercise(7).slips:
        assert f"WRONG: {slip.says}" in answered
        assert "WRONG" not in asked
    for item in exercise(7).sought:
        assert item.fault.says in answered
        assert item.fault.says not in asked
    # Who reads the sheet has no ids: effects and breakers are told as they are called.
    names = {effect.id: effect.name for effect in plan().derived.sheet.effect}
    seen = {reading.value for item in exercise(7).sought for reading in item.readings}
    parts = {part for value in seen if isinstance(value, str) for part in value.split(", ")}
    told = {(names[part.rpartition(" ")[0]], part.split()[-1]) for part in parts if part.split()[0] in names}
    assert told
    assert not [name for name, level in told if f"{name}: {level}" not in asked]
    assert "Student" in asked
    assert "TEACHING ONLY" in asked


def test_the_page_for_the_screen_gives_nothing_away_either() -> None:
    page = files()["worksheet-7.html"].decode()
    assert "WRONG" not in page
    drawing = page[page.index("<svg") : page.rindex("</svg>")]
    numbers = plan().derived.connections.conductors
    assert not [number for number in numbers if re.search(rf"\b{number}\b", re.sub(r"<[^>]*>", " ", drawing))]


@pytest.mark.parametrize("paper", [Paper.LETTER, Paper.A4])
def test_whatever_is_to_be_filled_in_has_room_for_a_hand(paper: Paper) -> None:
    """20 mm for a number or a colour; 50 mm where an enclosure and a terminal or a reason is to be written."""
    mm = 72 / 25.4
    sections = worksheet._sections(plan(), exercise(7), paper, answers=False)
    tables = [table for section in sections for table in section.tables]
    assert {table.id for table in tables} == {"ends", "slips", "faults"}
    for table in tables:
        layout = lay_out(table, SHEETS[paper.value])
        widths = {
            table.heads[place].key: width / mm
            for part in layout.parts
            for place, width in zip(part.places, part.widths_pt, strict=True)
            if table.heads[place].fill is Fill.WRITE
        }
        assert min(widths.values()) >= 20
        assert max(widths.values()) >= 50
        assert table.to_write


def test_an_unlabelled_drawing_keeps_every_line_and_no_label() -> None:
    drawing = draw(one_enclosure(plan(), "H"))
    bare = without_labels(drawing)
    for number in (line.key for line in drawing.picture.lines):
        assert re.search(rf">{number}<", drawing.svg)
        assert not re.search(rf"\b{number}\b", re.sub(r"<[^>]*>", " ", bare))
    assert bare.count("<path") == drawing.svg.count("<path")
    assert "<title" not in bare
    assert "<desc" not in bare


def test_a_drawing_from_which_more_went_than_labels_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    drawing = draw(one_enclosure(plan(), "H"))
    monkeypatch.setattr(
        "schedules.drawings.unlabelled.names.PIECES", ("number", "code", "far", "cable", "note", "no such")
    )
    without_labels(drawing)
    monkeypatch.setattr("schedules.drawings.unlabelled._label_names", lambda _picture: {"l0_0", "b0"})
    with pytest.raises(DrawingError, match="a line or box went with the labels"):
        without_labels(drawing)
