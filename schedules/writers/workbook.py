"""All tables as one workbook (ISO/IEC 29500): every cell is text, nothing in it is a formula or a link."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

from schedules.text import for_terminal
from schedules.writers.document import Fill, Mark
from schedules.writers.typesetting import moment

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.writers.document import Document, Table

_LONGEST_CELL = 32_767
_LONGEST_SHEET_NAME = 31
_NOT_IN_A_NAME = "[]:*?/\\"
# A sign beyond it counts twice in a name's length.
_LAST_PLAIN = "\uffff"
_WIDEST, _NARROWEST = 48, 6
_FIRST_ROW = 4
_PAPERS = {"Letter": 1, "A4": 9}


class WorkbookError(Exception):
    """A cell could not be written."""


def workbook_bytes(document: Document, tables: Iterable[Table], paper: str) -> bytes:
    """One worksheet for the title page, one for the findings, one for each table; the same bytes for the same data."""
    # Deferred: only a package pays for the library.
    import xlsxwriter  # noqa: PLC0415

    stream = io.BytesIO()
    book = xlsxwriter.Workbook(
        stream,
        {
            "in_memory": True,
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
        },
    )
    stamp = document.stamp
    book.set_properties(
        {
            "title": _text(f"{stamp.job}, revision {stamp.revision}"),
            "comments": f"contents {stamp.code}",
            "created": moment(stamp.date).replace(tzinfo=None),
        }
    )
    write = _Writer(book, document, paper)
    write.cover()
    if not document.findings_last:
        write.findings()
    for table in tables:
        write.table(table)
    if document.findings_last:
        write.findings()
    book.close()
    return stream.getvalue()


class _Writer:
    def __init__(self, book: Any, document: Document, paper: str) -> None:
        self._book = book
        self._document = document
        self._paper = paper
        self._names: set[str] = set()
        wrapped = {"text_wrap": True, "valign": "top", "border": 1, "font_name": "Arial", "font_size": 10}
        self._cell = book.add_format(wrapped)
        self._marked = book.add_format({**wrapped, "bg_color": "#E4E4E4"})
        self._head = book.add_format({**wrapped, "bold": True, "bg_color": "#D0D0D0"})
        self._plain = book.add_format(
            {"font_name": "Arial", "font_size": 10, "text_wrap": True, "valign": "top"}
        )
        self._bold = book.add_format({"font_name": "Arial", "font_size": 12, "bold": True})

    def cover(self) -> None:
        """Title block, verdict, cautions, legend."""
        document, stamp = self._document, self._document.stamp
        sheet = self._sheet("Package")
        sheet.set_column(0, 0, 110)
        lines = [
            f"Job: {stamp.job}",
            f"Revision {stamp.revision}, {stamp.date}; contents {stamp.code}",
            f"Sheet: {stamp.sheet}; {stamp.code_edition}",
            document.verdict,
            *(f"Caution: {text}" for text in document.cautions),
            *document.legend,
        ]
        for place, line in enumerate(lines):
            self._put(sheet, place, 0, line, self._bold if place == 0 else self._plain)

    def findings(self) -> None:
        """One row for each finding."""
        heads = ["Severity", "Thing", "Finding", "Numbers", "Rule", "Remedies", "Answer", "Cleared by, date"]
        rows = [
            (
                [
                    f"{item.severity}: {item.meaning}",
                    item.subject,
                    item.says,
                    item.numbers,
                    item.rule,
                    "; ".join(item.remedies),
                    item.answer,
                    "",
                ],
                item.mark,
            )
            for item in self._document.problems
        ]
        self._rows("Findings", "Findings", heads, rows)

    def table(self, table: Table) -> None:
        """One schedule, with the group of each row in the first column and its blanks at the end."""
        grouped = any(row.group for row in table.rows)
        marked = any(row.mark is not Mark.SAME for row in table.rows)
        heads = [*(["Rev"] if marked else []), *(["Group"] if grouped else [])]
        heads += [
            head.text + (" (write in)" if head.fill is not Fill.PRINTED else "") for head in table.heads
        ]
        rows = [
            ([*([row.mark] if marked else []), *([row.group] if grouped else []), *row.cells], row.mark)
            for row in table.rows
        ]
        self._rows(table.title, table.title, heads, rows, table.note)

    def _rows(
        self, name: str, title: str, heads: list[str], rows: list[tuple[list[str], Mark]], note: str = ""
    ) -> None:
        sheet = self._sheet(name)
        stamp = self._document.stamp
        self._put(sheet, 0, 0, title, self._bold)
        about = f"{stamp.job}, revision {stamp.revision}, {stamp.date}, contents {stamp.code}"
        self._put(sheet, 1, 0, about, None)
        self._put(sheet, 2, 0, note, None)
        for column, head in enumerate(heads):
            self._put(sheet, _FIRST_ROW - 1, column, head, self._head)
            lengths = (len(cells[column]) for cells, _ in rows)
            width = max(min(max((*lengths, len(head))) + 1, _WIDEST), _NARROWEST)
            sheet.set_column(column, column, width)
        for place, (cells, mark) in enumerate(rows):
            for column, cell in enumerate(cells):
                style = self._cell if mark is Mark.SAME else self._marked
                self._put(sheet, _FIRST_ROW + place, column, cell, style)
        sheet.freeze_panes(_FIRST_ROW, 1)
        sheet.repeat_rows(0, _FIRST_ROW - 1)
        if rows:
            sheet.autofilter(_FIRST_ROW - 1, 0, _FIRST_ROW - 1 + len(rows), len(heads) - 1)

    def _sheet(self, name: str) -> Any:
        sheet = self._book.add_worksheet(self._free(name))
        sheet.set_landscape()
        sheet.set_paper(_PAPERS[self._paper])
        sheet.fit_to_pages(1, 0)
        stamp = self._document.stamp
        # `&` begins a code in a footer, and is written by doubling it.
        job = _text(stamp.job).replace("&", "&&")[:80]
        sheet.set_footer(
            f"&L{job}&Crevision {_text(stamp.revision).replace('&', '&&')[:40]}, {stamp.code}&Rpage &P of &N"
        )
        return sheet

    def _free(self, name: str) -> str:
        """A worksheet's name: without the signs that a spreadsheet refuses, short, not used yet."""
        # A straight one quotes names in formulas, and is refused at their ends.
        shown = _text(name).replace("'", "\N{RIGHT SINGLE QUOTATION MARK}")
        plain = "".join(" " if sign in _NOT_IN_A_NAME or sign > _LAST_PLAIN else sign for sign in shown)
        plain = plain[:_LONGEST_SHEET_NAME].strip()
        free, number = plain or "Sheet", 2
        while free.lower() in self._names:
            ending = f" {number}"
            free = plain[: _LONGEST_SHEET_NAME - len(ending)] + ending
            number += 1
        self._names.add(free.lower())
        return free

    def _put(self, sheet: Any, row: int, column: int, text: str, style: Any) -> None:
        """Write text as text. A cell that is too long is refused, never cut without a word."""
        shown = _text(text)
        if len(shown) > _LONGEST_CELL or sheet.write_string(row, column, shown, style) != 0:
            raise WorkbookError(f"a cell of {len(shown)} characters; allowed: at most {_LONGEST_CELL}")


def _text(text: str) -> str:
    return for_terminal(text)
