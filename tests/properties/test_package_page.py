"""The page for the screen and the workbook as other libraries read them; the page in a browser where one is there."""

from __future__ import annotations

import base64
import io
import itertools
from collections import Counter
from pathlib import Path
from typing import Any

import html5lib
import openpyxl
import pytest
from icalendar import Calendar

import schedules.templates
from schedules.drawings.picture import Paper
from schedules.package.packing import Order, pack
from schedules.package.parts import Part
from schedules.planned import plan_file
from schedules.rows.every import SCHEDULES
from tests.browser import PROGRAM, browser
from tests.packages import package_of, pages_of, plan_of, the_one

JOB = "training-room"
TEMPLATE = Path(schedules.templates.__file__).with_name("job.toml")


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


def test_every_link_leads_somewhere(page: Any) -> None:
    names = {element.get("id") for element in page.iter()}
    links = {
        value for element in page.iter() for key, value in element.attrib.items() if key.endswith("href")
    }
    assert len(links) > 100
    assert {link.removeprefix("#") for link in links} <= names


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


def test_the_order_of_work_is_in_the_calendar() -> None:
    dated = Calendar.from_ical(the_one(package_of(JOB, Paper.LETTER), ".ics"))
    assert len(dated.events) == len(SCHEDULES["work"](plan_of(JOB)).rows)


@pytest.mark.skipif(PROGRAM is None, reason="no browser here; it is not installed with the test libraries")
def test_a_browser_asks_for_nothing_and_understands_the_page(tmp_path: Path) -> None:
    """Loaded, made narrow, read out, followed by a link, and printed, by a real browser."""
    plan = plan_file(TEMPLATE).plan
    file = tmp_path / "page.html"
    file.write_bytes(the_one(pack(plan, Order(parts=(Part.HTML,))), ".html"))
    with browser(tmp_path / "profile") as tab:
        tab.open_page(file.as_uri())
        for width in (1200, 400):
            size = {"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False}
            tab.ask("Emulation.setDeviceMetricsOverride", **size)
            assert tab.value_of("document.documentElement.scrollWidth") <= width
        read_out = [item for item in tab.ask("Accessibility.getFullAXTree")["nodes"] if not item["ignored"]]
        tab.value_of("document.querySelector('figure a').dispatchEvent(new MouseEvent('click'))")
        assert tab.value_of("document.querySelector('tr:target th').textContent")
        printed = base64.b64decode(tab.ask("Page.printToPDF", preferCSSPageSize=True)["data"])
        asked = [told["request"]["url"] for name, told in tab.told if name == "Network.requestWillBeSent"]
        said = [told for name, told in tab.told if name in ("Log.entryAdded", "Runtime.consoleAPICalled")]
    assert {address.partition("#")[0] for address in asked} == {file.as_uri()}
    assert said == []

    roles = Counter(item["role"]["value"] for item in read_out)
    tables = {item["name"]["value"] for item in read_out if item["role"]["value"] == "table"}
    full = [schedule for make in SCHEDULES.values() if (schedule := make(plan)).rows]
    assert {schedule.title for schedule in full if schedule.id != "terminations"} <= tables
    assert roles["columnheader"] >= sum(len(schedule.columns) for schedule in full)
    assert roles["rowheader"] > sum(len(schedule.rows) for schedule in full) / 2
    assert all(item["name"]["value"] for item in read_out if item["role"]["value"] == "table")

    pages = pages_of(printed)
    assert len(pages) > 5
    for number, page in enumerate(pages, 1):
        words = page.text
        assert f"page {number} of {len(pages)}" in words
        assert f"{plan.derived.job.job.name}, revision {plan.derived.job.job.revision}, " in words
        assert "The maker's manual" in words
        if "dead, conductor's ends lifted" in words or "Armed, nothing in use" in words:
            assert {"Passes", "Initials"} <= set(words.split()) or "At rest after" in words
