"""Text from a file stays text in every format of a package, whatever it looks like.

Sources of the dangerous spellings: the escapes of HTML, the formula signs of spreadsheets (OWASP on CSV injection, from
memory), the markup of the typesetter and of the template language.
"""

from __future__ import annotations

import csv
import io
import itertools
import re
from typing import TYPE_CHECKING, Any

import html5lib
import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel
from pypdf import PdfReader

from schedules.job.draft import read_draft
from schedules.package.legible import legible
from schedules.package.packing import Order, pack
from schedules.package.record import NAME, read_record
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from schedules.text import for_style, for_terminal
from schedules.writers.csv_files import csv_bytes
from schedules.writers.document import Document, Head, Mark, Problem, Row, Section, Stamp, Table
from schedules.writers.typesetting import typeset
from schedules.writers.web_page import web_page
from schedules.writers.workbook import WorkbookError, workbook_bytes
from tests.packages import JOBS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

HOSTILE = (
    "=1+1",
    '=HYPERLINK("http://x.example","y")',
    "+cmd|' /C calc'!A0",
    "-2+3",
    "@SUM(A1)",
    "http://x.example/",
    "mailto:a@x.example",
    "</td></table><script>alert(1)</script>",
    '" onload="alert(1)',
    "<img src=http://x.example/a.png>",
    "{{ 7*7 }}{% raw %}",
    "#strong[x] $x^2$ *b* _i_ `c` @ref <label>",
    '#read("/etc/passwd")',
    "]) #pagebreak() //",
    r"\N \u{1F600} \\",
    "&L&P&D&[File]",
    "&lt;b&gt;",
    "Überdruck ±5 % – “x” … →",
    "漢字かな 🔥 العربية",
    "\x1b[31mred\x07\x00",
    "a\tb\nc\rd",
    "\u202etfel\u200b\u00ad",
    "W" * 110,
    "a/b:c*d?e[f]g",
    "' leading",
)
FREE = {"name", "note", "function", "prepared_by", "revision", "date", "source", "title", "directory"}
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def hostile(record: BaseModel, words: Iterator[str]) -> Any:
    """A record with hostile words before every free text in it."""
    changed: dict[str, Any] = {}
    for key, value in record:
        if isinstance(value, BaseModel):
            changed[key] = hostile(value, words)
        elif isinstance(value, tuple) and value and all(isinstance(item, BaseModel) for item in value):
            changed[key] = tuple(hostile(item, words) for item in value)
        elif key in FREE and isinstance(value, str):
            changed[key] = f"{next(words)} {value}"
    return record.model_copy(update=changed)


@pytest.fixture(scope="module")
def contents() -> dict[str, bytes]:
    draft = read_draft(JOBS / "galley-gas.toml")
    words = itertools.cycle(HOSTILE)
    plan = plan_job(hostile(read_sheet_of(draft), words), hostile(draft.job, words))
    return pack(plan, Order())


def elements(page: bytes) -> Iterator[Any]:
    return iter(html5lib.parse(page, namespaceHTMLElements=False).iter())


def hold_page(page: bytes) -> None:
    """Nothing runs, nothing is fetched, every link leads into the page, every name is used once."""
    names = set()
    links = set()
    for element in elements(page):
        if not isinstance(element.tag, str):
            assert "script" not in str(element.text)
            continue
        tag = element.tag.rpartition("}")[2]
        assert tag not in {
            "script",
            "iframe",
            "object",
            "embed",
            "img",
            "image",
            "link",
            "base",
            "form",
            "use",
        }
        for key, value in element.attrib.items():
            attribute = str(key).rpartition("}")[2]
            assert not attribute.startswith("on")
            assert attribute not in {"src", "style", "action", "srcdoc"}
            if attribute == "href":
                assert value.startswith("#")
                links.add(value[1:])
            if attribute == "id":
                assert value not in names
                names.add(value)
    assert links <= names


def hold_list(data: bytes) -> list[list[str]]:
    """A spreadsheet computes none of its cells."""
    text = data.decode("utf-8-sig")
    assert data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert all(not cell.startswith(FORMULA_STARTS) for row in rows for cell in row)
    return rows


def hold_workbook(data: bytes) -> set[str]:
    """Every cell is text; the texts."""
    found = set()
    book = openpyxl.load_workbook(io.BytesIO(data))
    for sheet in book.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type in {"s", "n"}
                assert cell.value is None or isinstance(cell.value, str)
                assert cell.hyperlink is None
                found.add(str(cell.value))
    return found


def test_the_page_holds_hostile_words_as_words(contents: dict[str, bytes]) -> None:
    page = next(data for name, data in contents.items() if name.endswith(".html"))
    hold_page(page)
    said = "".join(html5lib.parse(page, namespaceHTMLElements=False).itertext())
    for text in HOSTILE:
        assert " ".join(for_terminal(text).split()) in " ".join(said.split()), text


def test_the_page_s_own_policy_forbids_everything_else(contents: dict[str, bytes]) -> None:
    page = next(data for name, data in contents.items() if name.endswith(".html"))
    policy = next(
        element for element in elements(page) if "Content-Security-Policy" in element.attrib.values()
    )
    assert policy.attrib["content"].startswith("default-src 'none';")
    assert "unsafe" not in policy.attrib["content"]


def test_no_list_has_a_formula(contents: dict[str, bytes]) -> None:
    lists = {name: hold_list(data) for name, data in contents.items() if name.endswith(".csv")}
    assert len(lists) > 20
    assert any("'=1+1" in cell for rows in lists.values() for row in rows for cell in row)


def test_the_workbook_computes_nothing(contents: dict[str, bytes]) -> None:
    texts = hold_workbook(next(data for name, data in contents.items() if name.endswith(".xlsx")))
    assert any(text.startswith("=1+1") for text in texts)


def test_the_booklet_prints_hostile_words_as_words(contents: dict[str, bytes]) -> None:
    pdf = next(data for name, data in contents.items() if name.endswith("everybody.pdf"))
    said = "".join("".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages)
    for text in HOSTILE:
        plain = legible(for_terminal(text))
        if plain.isascii():
            assert "".join(plain.split()) in said.replace("\u200b", ""), text


def test_no_file_leaves_the_folder(contents: dict[str, bytes]) -> None:
    for name in contents:
        assert all(part and part not in {".", ".."} for part in name.split("/"))
        assert name == name.lower()
        assert name.isascii()


def test_the_record_is_read_again(contents: dict[str, bytes], tmp_path: Path) -> None:
    (tmp_path / NAME).write_bytes(contents[NAME])
    record = read_record(tmp_path)
    assert set(record.files) == set(contents) - {NAME}


ANY_TEXT = st.text(alphabet=st.characters(exclude_categories=()), max_size=30) | st.sampled_from(HOSTILE)


def document_of(text: str) -> tuple[Document, Table]:
    heads = (Head("a", text), Head("b", text, right=True))
    rows = (Row((text, text), text, "anchor"), Row((text, ""), text, "", Mark.NEW))
    table = Table("one", text, text, heads, rows)
    stamp = Stamp(text, text, "NEC 2023", text, text, text, "0000-0000", "<svg/>")
    problem = Problem("stop", "must not proceed", text, text, text, text, (text,))
    return (
        Document(
            stamp=stamp,
            reader=text,
            verdict=text,
            cautions=(text,),
            caution=text,
            note=text,
            problems=(problem,),
            sections=(Section("one", text, (table,)),),
            legend=(text,),
        ),
        table,
    )


@given(ANY_TEXT)
@settings(max_examples=80)
def test_any_text_stays_text_on_the_page_in_lists_and_in_the_workbook(text: str) -> None:
    document, table = document_of(text)
    page = web_page(document)
    hold_page(page)
    shown = " ".join(for_terminal(text, multi_line=True).split())
    said = " ".join("".join(html5lib.parse(page, namespaceHTMLElements=False).itertext()).split())
    assert shown in said
    assert len(hold_list(csv_bytes(table))) == 3
    assert for_terminal(text) in hold_workbook(workbook_bytes(document, (table,), "Letter")) | {"", text}


def test_a_cell_that_a_workbook_can_not_hold_is_refused() -> None:
    document, table = document_of("x" * 32_768)
    with pytest.raises(WorkbookError, match="at most 32767"):
        workbook_bytes(document, (table,), "Letter")


@pytest.mark.parametrize("text", HOSTILE)
def test_a_label_prints_hostile_words_as_words(text: str) -> None:
    shown = legible(for_terminal(text))
    sheet = {
        "columns": 1,
        "rows": 1,
        "width": 150,
        "height": 60,
        "left": 5,
        "top": 5,
        "across": 150,
        "down": 60,
    }
    label = {"size": 6.0, "first": 1.0, "bold": False, "lines": [shown]}
    data = {"paper": "a4", "title": shown, "about": [shown], "sheet": sheet, "pages": [[label]]}
    pdf = typeset("labels.typ", data, day="2026-01-01")
    said = "".join("".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages)
    if shown.isascii():
        assert said.count("".join(shown.split())) >= 2


@given(st.text())
@settings(max_examples=100)
def test_no_text_ends_its_string_in_a_style_sheet(text: str) -> None:
    shown = for_style(text)
    assert re.fullmatch(r"([0-9A-Za-z]|\\[0-9a-f]{6})*", shown)
    told = re.sub(r"\\([0-9a-f]{6})", lambda match: chr(int(match[1], 16)), shown)
    assert told == for_terminal(text)
