"""A table as CSV that a spreadsheet opens and never computes."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from schedules.text import for_csv
from schedules.writers.document import Fill

if TYPE_CHECKING:
    from schedules.writers.document import Table

_BYTE_ORDER_MARK = "\ufeff"
"""Without it common spreadsheets take the file for another encoding."""


def csv_bytes(table: Table) -> bytes:
    """A table as UTF-8 CSV (RFC 4180): heads, then one line for each row; blanks for hands are left out."""
    printed = [
        place
        for place, head in enumerate(table.heads)
        if head.fill is Fill.PRINTED or any(row.cells[place] for row in table.rows)
    ]
    grouped = any(row.group for row in table.rows)
    lines = [[*(["Group"] if grouped else []), *(table.heads[place].text for place in printed)]]
    lines += [
        [*([row.group] if grouped else []), *(row.cells[place] for place in printed)] for row in table.rows
    ]
    return csv_lines(lines)


def csv_lines(lines: list[list[str]]) -> bytes:
    """Lines of cells as UTF-8 CSV; a cell that would be a formula is made text."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerows([for_csv(cell) for cell in line] for line in lines)
    return (_BYTE_ORDER_MARK + stream.getvalue()).encode()
