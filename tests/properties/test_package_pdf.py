"""The printed booklet read back by another library and held against the plan."""

from __future__ import annotations

import io
import re
from collections import Counter
from functools import cache
from itertools import groupby, islice
from typing import TYPE_CHECKING, Any

import pytest
from pypdf import PdfReader

from schedules.drawings.ladder.views import ladder
from schedules.drawings.picture import Paper
from schedules.drawings.split import by_cables
from schedules.drawings.views import one_enclosure, point_to_point
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.package import tables
from schedules.package.figures import used_enclosures
from schedules.package.packing import Order, pack
from schedules.package.parts import Part
from schedules.package.readers import ON_SCREEN_ONLY, reader
from schedules.package.record import NAME, read_record
from schedules.plan import plan_job
from schedules.planned import plan_file, read_sheet_of
from schedules.rows.every import SCHEDULES
from schedules.writers.document import Fill
from tests.packages import JOBS, package_of, pages_of, plan_of, the_one

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from schedules.plan import Plan
    from tests.packages import PrintedPage

CASES = [("training-room", Paper.LETTER), ("galley-gas", Paper.A4)]
SIZES = {
    Paper.LETTER: {(612, 792), (792, 612)},
    Paper.A4: {(595, 842), (842, 595)},
}


def bookmarks(booklet: PdfReader) -> dict[str, int]:
    """Title of every bookmark with its page, from 0."""
    found: dict[str, int] = {}

    def walk(items: list[Any]) -> None:
        for item in items:
            if isinstance(item, list):
                walk(item)
                continue
            page = booklet.get_destination_page_number(item)
            assert page is not None
            found[item.title] = page

    walk(list(booklet.outline))
    return found


@cache
def booklet_of(pdf: bytes) -> PdfReader:
    """The booklet's structure, read once."""
    return PdfReader(io.BytesIO(pdf))


def plain(text: str) -> str:
    return " ".join(text.split())


def read_rows(pdf: bytes) -> Counter[tuple[str, ...]]:
    """Every row of every ruled table."""
    return Counter(tuple(row) for page in pages_of(pdf) for table in page.tables for row in table.rows)


@pytest.fixture(scope="module", params=CASES, ids=lambda case: f"{case[0]}-{case[1]}")
def case(request: pytest.FixtureRequest) -> tuple[Plan, Paper, bytes]:
    job, paper = request.param
    return plan_of(job), paper, the_one(package_of(job, paper), ".pdf")


def test_every_termination_and_conductor_is_printed_exactly_once(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    rows = read_rows(pdf)
    for name, blanks in (("terminations", 3), ("conductors", 1)):
        schedule = SCHEDULES[name](plan)
        # A photograph of one row has to tell which enclosure it is about.
        said = {row: f"{row.enclosure} " if name == "terminations" else "" for row in schedule.rows}
        expected = Counter(
            (*map(plain, (said[row] + (cells := schedule.cells(row))[0], *cells[1:])), *[""] * blanks)
            for row in schedule.rows
        )
        assert expected
        assert {row: rows[row] for row in expected} == expected


def test_every_drawing_of_an_enclosure_names_each_of_its_ends_exactly_once(
    case: tuple[Plan, Paper, bytes],
) -> None:
    plan, paper, pdf = case
    booklet = booklet_of(pdf)
    starts = bookmarks(booklet)
    order = sorted(starts.values())
    for tag in used_enclosures(plan):
        picture = one_enclosure(plan, tag, paper)
        name = next(item.name for item in plan.derived.selection.enclosures if item.tag == tag)
        first = starts[f"{tag} {name}"]
        last = next(page for page in order if page > first)
        words = " ".join(plain(booklet.pages[number].extract_text()) for number in range(first, last))
        for line in picture.lines:
            for here, there in ((line.a, line.b), (line.b, line.a)):
                if here.terminal is None or there.terminal is None:
                    continue
                label = f"to {there.block}.{there.terminal}"
                beside = re.findall(
                    rf"(?<![\w:.]){re.escape(line.key)} [^.]{{0,12}}?{re.escape(label)}(?![\w:])", words
                )
                assert len(beside) == 1, (tag, line.key, label)


def links_on(booklet: PdfReader, number: int) -> Iterator[tuple[tuple[float, ...], int, tuple[float, float]]]:
    """Of each link of a page: its left, top, right and bottom [pt], the page it leads to, where on it [pt]."""
    numbers = {page.indirect_reference: place for place, page in enumerate(booklet.pages)}
    page = booklet.pages[number]
    height = float(page.mediabox.height)
    for item in page.get("/Annots", []):
        annotation = item.get_object()
        assert annotation["/Subtype"] == "/Link"
        assert annotation["/Contents"]
        left, bottom, right, top = map(float, annotation["/Rect"])
        target, kind, across, up, _ = annotation["/Dest"].get_object()
        assert kind == "/XYZ"
        goal = numbers[target]
        down = float(booklet.pages[goal].mediabox.height) - float(up)
        yield (left, height - top, right, height - bottom), goal, (float(across), down)


def written_in(page: PrintedPage, area: tuple[float, ...]) -> str:
    left, top, right, bottom = area
    return "".join(char.text for char in page.chars if left < char.x0 < right and top < char.top < bottom)


def row_begins(page: PrintedPage, place: tuple[float, float]) -> str:
    """The first two words of the first row that begins at or under a place [pt], level with its left."""
    across, down = place
    under = [(top, left, word) for word, left, top in page.words if abs(left - across) < 2 and top > down]
    first, begin, _ = min(under)
    level = sorted((left, word) for word, left, top in page.words if abs(top - first) < 2 and left >= begin)
    return " ".join(word for _, word in level[:2])


def test_every_terminal_drawn_in_an_enclosure_s_part_leads_to_its_row(
    case: tuple[Plan, Paper, bytes],
) -> None:
    plan, paper, pdf = case
    booklet = booklet_of(pdf)
    starts = bookmarks(booklet)
    order = sorted(starts.values())
    pages = pages_of(pdf)
    rows = {
        f"{row.enclosure} {row.terminal}"
        for name in ("terminations", "empty")
        for row in SCHEDULES[name](plan).rows
    }
    for tag in used_enclosures(plan):
        drawn = Counter(
            f"{block.tag} {terminal.key}"
            for picture in by_cables(one_enclosure(plan, tag, paper))
            for block in picture.blocks
            for terminal in block.terminals
        )
        assert drawn.keys() <= rows
        name = next(item.name for item in plan.derived.selection.enclosures if item.tag == tag)
        first = starts[f"{tag} {name}"]
        last = next(page for page in order if page > first)
        led: Counter[str] = Counter()
        for number in range(first, last):
            for area, goal, place in links_on(booklet, number):
                row = row_begins(pages[goal], place)
                led[row] += 1
                assert written_in(pages[number], area) == row.partition(":")[2]
        assert led == drawn


def test_every_terminal_of_the_large_drawings_leads_to_its_row_behind_them() -> None:
    plan = plan_of("galley-gas")
    contents = package_of("galley-gas", Paper.A4)
    large = next(data for name, data in contents.items() if "-large-" in name and name.endswith(".pdf"))
    booklet, pages = booklet_of(large), pages_of(large, ruled=False)
    led: Counter[str] = Counter()
    for number in range(len(pages)):
        for area, goal, place in links_on(booklet, number):
            row = row_begins(pages[goal], place)
            led[row] += 1
            box, point = row.split()
            assert written_in(pages[number], area) in (point.partition(":")[2], f"{point}{box}")
    drawn = Counter(
        f"{block.tag} {terminal.key}"
        for picture in by_cables(point_to_point(plan, Paper.A3))
        for block in picture.blocks
        for terminal in block.terminals
    )
    drawn.update(
        f"{node.enclosure} {node.key}"
        for section in ladder(plan, Paper.A3).sections
        for node in section.nodes
        if node.href
    )
    assert led == drawn


def test_every_page_stands_alone(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    pages = pages_of(pdf)
    title = plan.derived.job.job
    code = re.search(r"contents ([0-9A-Z]{4}-[0-9A-Z]{4})", pages[0].text)
    assert code is not None
    assert plan.sound
    for page in pages:
        assert title.name in page.text
        assert f"evision {title.revision}" in page.text
        assert title.date in page.text
        assert f"NEC {title.code}" in page.text
        assert plan.derived.sheet.sheet.name in page.text
        assert "Checked" in page.text
        assert code[1] in page.text
        assert f"page {page.number} of {len(pages)}" in page.text
        assert "The maker's manual, the local code and its authority" in page.text
        assert "NOT SOUND" not in page.text


def test_a_page_tells_what_it_goes_on_with(case: tuple[Plan, Paper, bytes]) -> None:
    """A loose page of a table says which one it is of, one of an enclosure's terminations which enclosure."""
    plan, _, pdf = case
    starts = set(bookmarks(booklet_of(pdf)).values())
    pages = [page.text for page in pages_of(pdf)]
    going_on = [words for number, words in enumerate(pages) if number > 0 and number not in starts]
    assert len(going_on) > 5
    # A sheet to scale has its own title, which says what it is a part of.
    assert all(", continued" in words for words in going_on if "measure runs from one datum" not in words)
    tag, name = next((item.tag, item.name) for item in plan.derived.selection.enclosures if item.tag == "H")
    assert any(f"Terminations by enclosure: {tag} {name}, continued" in words for words in pages)


def test_no_page_is_empty(case: tuple[Plan, Paper, bytes]) -> None:
    _, _, pdf = case
    for page in pages_of(pdf):
        between = [char for char in page.chars if 60 < char.top < page.height - 64]
        assert len(between) > 60, page.number


def test_every_page_of_an_unsound_plan_says_so() -> None:
    pdf = the_one(package_of("must-fail", Paper.LETTER, "inspector", (Part.PDF,)), ".pdf")
    assert not plan_of("must-fail").sound
    assert all("NOT SOUND" in page.extract_text() for page in booklet_of(pdf).pages)


def test_what_was_landed_and_pulled_is_printed_in() -> None:
    draft = read_draft(JOBS / "galley-gas.toml")
    edits = (
        Edit("as_built", "W1", "length", "38 ft 6 in"),
        Edit("as_built", "W1", "landed", ["Q1:L"]),
        Edit("as_built", "W1", "initials", "AB"),
        Edit("as_built", "W1", "date", "2026-03-20"),
    )
    plan = plan_job(read_sheet_of(draft), draft.edited(edits).job)
    contents = pack(plan, Order(reader=reader("electrician"), parts=(Part.PDF,)))
    pdf = the_one(contents, ".pdf")
    panel = next(item.name for item in plan.derived.selection.enclosures if item.tag == "PB")
    starts = bookmarks(booklet_of(pdf))
    asked: set[int] = set()
    for title in (f"PB {panel}", SCHEDULES["as-built"](plan).title):
        first = starts[title]
        later = [page for page in starts.values() if page > first]
        asked |= set(range(first, min(later, default=len(booklet_of(pdf).pages))))
    rows = [
        row for page in pages_of(pdf, only=frozenset(asked)) for table in page.tables for row in table.rows
    ]
    landed = [row for row in rows if row[:2] == ["PB Q1:L", "101"]]
    assert [row[-3:] for row in landed] == [["yes", "", "AB"]]
    assert [row[-3:] for row in rows if row[:2] == ["PB Q1:N", "102"]] == [["", "", ""]]
    built = next(row for row in rows if row[0] == "W1" and "2026-03-20" in row)
    assert {"38' 6\"", "AB", "1 of 6"} <= set(built)


def test_every_page_has_the_paper_s_size(case: tuple[Plan, Paper, bytes]) -> None:
    _, paper, pdf = case
    sizes = {
        (round(float(page.mediabox.width)), round(float(page.mediabox.height)))
        for page in booklet_of(pdf).pages
    }
    assert sizes == SIZES[paper]


def test_every_schedule_with_rows_has_a_bookmark(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    marks = bookmarks(booklet_of(pdf))
    for name, make in SCHEDULES.items():
        schedule = make(plan)
        if schedule.rows and name not in ("causes", "labels"):
            assert schedule.title in marks
    assert "Findings" in marks


def test_the_owner_s_card_comes_before_what_experts_decide() -> None:
    contents = package_of("galley-gas", Paper.A4, "owner", (Part.PDF, Part.HTML))
    pdf = the_one(contents, ".pdf")
    marks = bookmarks(booklet_of(pdf))
    assert marks["Owner's card"] == 1
    assert marks["Findings"] == max(marks.values())
    # The heads of a short table, which is kept together, are in the typeface of the job's name; the cells are not.
    directory = pages_of(pdf)[marks["Panel directory"]]
    head = next(top for word, _, top in directory.words if word == "Spaces")
    row = [char for char in directory.chars if abs(char.top - head) < 1 and char.text.strip()]
    assert len(row) > 20
    assert {char.font for char in row} == {directory.chars[0].font} < {char.font for char in directory.chars}
    page = the_one(contents, ".html").decode()
    assert page.index('id="s-owner"') < page.index('id="findings"')


def test_what_changed_is_listed_at_the_front_and_marked_on_paper(tmp_path: Path) -> None:
    before = package_of("galley-gas", Paper.A4)
    (tmp_path / NAME).write_bytes(before[NAME])
    draft = read_draft(JOBS / "galley-gas.toml")
    pulled = {"length": "38 ft 6 in", "initials": "AB", "date": "2026-03-20"}
    edited = draft.edited(tuple(Edit("as_built", "W1", key, value) for key, value in pulled.items()))
    order = Order(reader=reader("owner"), parts=(Part.PDF,), since=read_record(tmp_path))
    pdf = the_one(pack(plan_job(read_sheet_of(edited), edited.job), order), ".pdf")
    assert "Changes since the last package" in bookmarks(booklet_of(pdf))
    words = " ".join(plain(page.extract_text()) for page in booklet_of(pdf).pages)
    assert "W1: planned 38' 6\" (was 39' 3\")" in words
    assert any(row[:2] == ("chg", "W1") for row in read_rows(pdf))


def test_the_panel_s_spaces_are_left_to_write_in_where_the_job_does_not_say_them() -> None:
    directory = SCHEDULES["directory"](plan_of("galley-gas"))
    said = [row.spaces for row in directory.rows]
    assert {"", "11"} <= set(said)
    printed = tables.table(directory, paper=True)
    place = [head.key for head in printed.heads].index("spaces")
    assert [row.cells[place] for row in printed.rows] == said
    assert printed.heads[place].fill is Fill.WRITE


def test_it_is_tagged_has_a_title_and_a_language(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    booklet = booklet_of(pdf)
    catalogue: Any = booklet.trailer["/Root"].get_object()
    assert catalogue["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in catalogue
    assert str(catalogue["/Lang"]).startswith("en")
    assert booklet.metadata is not None
    assert plan.derived.job.job.name in str(booklet.metadata.title)


def test_tables_repeat_their_heads_and_no_row_is_split(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    heads = [column.head for column in SCHEDULES["readings"](plan).columns]
    pages = [table.rows for page in pages_of(pdf) for table in page.tables if table.rows[0] == heads]
    assert len(pages) > 2
    rows = [row for table in pages for row in table[1:] if len(row) == len(heads)]
    assert len(rows) == len(SCHEDULES["readings"](plan).rows)


def test_a_table_begins_with_several_rows_on_its_title_s_page(case: tuple[Plan, Paper, bytes]) -> None:
    plan, _, pdf = case
    booklet = booklet_of(pdf)
    marks = bookmarks(booklet)
    compared = 0
    for name, make in SCHEDULES.items():
        printed = tables.table(make(plan), paper=True)
        # Terminations have a title for each enclosure.
        if not printed.rows or name in ("terminations", *ON_SCREEN_ONLY):
            continue
        words = booklet.pages[marks[printed.title]].extract_text()
        said = re.sub(r"[\s\u200b]", "", words)
        _, group = next(groupby(printed.rows, lambda row: row.group))
        for row in islice(group, 3):
            assert re.sub(r"\s", "", row.cells[0]) in said, printed.title
            compared += 1
    assert compared > 40


def test_nothing_is_smaller_than_can_be_read(case: tuple[Plan, Paper, bytes]) -> None:
    """Tables are set in 10 pt, wide ones in 9, the bands round them in 8 pt or more, drawings in 7 pt or more."""
    _, _, pdf = case
    sizes: Counter[float] = Counter()
    for page in pages_of(pdf):
        for character in page.chars:
            lies = abs(character.matrix[0]) > abs(character.matrix[1])
            size = character.size if lies else character.x1 - character.x0
            assert size >= 6.99, (page.number, character.text)
        for table in page.tables:
            left, top, right, bottom = table.box
            # What is ruled in a drawing is no table: only drawings have curves, and those to scale a datum.
            if table.curved or "measure runs from one datum" in page.text:
                continue
            if right - left > 300 and len(table.rows) > 8:
                usual = Counter(
                    round(char.size, 1)
                    for char in page.chars
                    if char.x0 < right and char.x1 > left and char.top < bottom and char.bottom > top
                ).most_common(1)
                assert usual[0][0] >= 9.0
                sizes[usual[0][0]] += 1
    assert sizes.most_common(1)[0][0] == 10.0


def test_nothing_is_printed_outside_the_page_or_where_printers_do_not_reach(
    case: tuple[Plan, Paper, bytes],
) -> None:
    _, _, pdf = case
    for page in pages_of(pdf):
        for character in page.chars:
            assert character.x0 >= 16
            assert character.x1 <= page.width - 16
            assert character.top >= 10
            assert character.bottom <= page.height - 5


def test_the_same_plan_gives_the_same_bytes_again() -> None:
    again = pack(plan_file(JOBS / "galley-gas.toml").plan, Order(paper=Paper.A4))
    assert again == package_of("galley-gas", Paper.A4)
