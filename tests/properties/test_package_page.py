"""The page for the screen and the workbook as other libraries read them; the page in a browser where one is there."""

from __future__ import annotations

import io
import itertools
import shutil
from typing import TYPE_CHECKING, Any

import html5lib
import openpyxl
import pytest

from schedules.drawings.picture import Paper
from schedules.rows.every import SCHEDULES
from tests.packages import package_of, plan_of, the_one

if TYPE_CHECKING:
    from pathlib import Path

JOB = "training-room"


@pytest.fixture(scope="module")
def page() -> Any:
    return html5lib.parse(the_one(package_of(JOB, Paper.LETTER), ".html"), namespaceHTMLElements=False)


def test_each_table_tells_its_heads_and_its_rows_apart(page: Any) -> None:
    tables = list(page.iter("table"))
    assert len(tables) > 15
    for table in tables:
        assert table.find("caption") is not None
        assert [cell.get("scope") for cell in table.find("thead").iter("th")] == ["col"] * len(
            list(table.find("thead").iter("th"))
        )
        width = len(list(table.find("thead").iter("th")))
        for body in table.iter("tbody"):
            for row in body.iter("tr"):
                cells = [cell for cell in row if cell.tag in ("td", "th")]
                assert sum(int(cell.get("colspan", "1")) for cell in cells) == width
                assert all(cell.get("scope") in ("row", "rowgroup") for cell in row.iter("th"))


def test_every_schedule_has_all_its_rows(page: Any) -> None:
    words = {" ".join("".join(row.itertext()).split()) for row in page.iter("tr")}
    for name in ("terminations", "readings", "faults"):
        schedule = SCHEDULES[name](plan_of(JOB))
        for row in schedule.rows:
            assert " ".join("".join(schedule.cells(row)).split()) in words


def test_every_drawing_is_there_with_its_words_for_who_can_not_see_it(page: Any) -> None:
    drawings = [element for element in page.iter() if str(element.tag).endswith("svg")]
    assert len(drawings) > 15
    for drawing in drawings:
        named = str(drawing.get("aria-labelledby")).split()
        ids = {element.get("id"): element for element in drawing.iter()}
        assert all("".join(ids[name].itertext()).strip() for name in named)


def test_headings_step_down_one_at_a_time(page: Any) -> None:
    levels = [int(element.tag[1]) for element in page.iter() if element.tag in ("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))


def test_the_workbook_has_a_sheet_for_each_schedule_with_all_its_rows() -> None:
    book = openpyxl.load_workbook(io.BytesIO(the_one(package_of(JOB, Paper.LETTER), ".xlsx")))
    assert book.sheetnames[:2] == ["Package", "Findings"]
    assert len(book.sheetnames) == len(SCHEDULES) + 2
    for name, sheet in zip(SCHEDULES, book.worksheets[2:], strict=True):
        schedule = SCHEDULES[name](plan_of(JOB))
        assert sheet["A1"].value == schedule.title
        assert sheet.max_row - 4 == len(schedule.rows) or not schedule.rows
        assert sheet.freeze_panes == "B5"
        assert sheet.print_title_rows == "$1:$4"


@pytest.mark.skipif(
    shutil.which("chromium") is None, reason="no browser here; it is not installed with the test libraries"
)
def test_a_browser_asks_for_nothing_runs_nothing_and_scrolls_one_way(tmp_path: Path) -> None:
    library = pytest.importorskip("playwright.sync_api", reason="the browser's library is not installed")
    file = tmp_path / "page.html"
    file.write_bytes(the_one(package_of(JOB, Paper.LETTER), ".html"))
    with library.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        tab = browser.new_page()
        asked: list[str] = []
        said: list[str] = []
        tab.on("request", lambda request: asked.append(request.url))
        tab.on("console", lambda message: said.append(message.text))
        tab.goto(file.as_uri())
        for width in (1200, 400):
            tab.set_viewport_size({"width": width, "height": 800})
            assert tab.evaluate("document.documentElement.scrollWidth") <= width
        assert asked == [file.as_uri()]
        assert said == []
        tab.click("#s-terminations-h ~ figure a >> nth=0")
        target = tab.evaluate("document.querySelector('tr:target th').textContent")
        assert target.startswith(("X", "Q"))
        printed = tab.pdf(prefer_css_page_size=True)
        assert printed.startswith(b"%PDF")
        browser.close()
