"""Labels for printers and on office label sheets: a wire's text goes round it, a plate's stands flat."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.drawings.metrics import width_pt, wrap
from schedules.package.legible import legible
from schedules.package.paper import SHEETS
from schedules.tables import load
from schedules.writers.csv_files import csv_lines
from schedules.writers.typesetting import typeset

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.rows.labels import LabelRow, Use
    from schedules.rows.schedule import Schedule
    from schedules.tables import Row
    from schedules.writers.document import Stamp

ROUND_WIRE = 3
"""So many times at least a wire's text is printed, one under the other; more where the label is higher."""

_PT_PER_MM = 72 / 25.4
_PAD_PT = 4.0
_LARGEST_PT, _SMALLEST_PT, _STEP_PT = 9.0, 5.0, 0.5
_FIRST_LARGER = 1.4
_LINE_HEIGHT = 1.22
_TITLES: dict[Use, str] = {
    "wire": "Wire labels, text all round",
    "plate": "Labels for cables, boxes and breakers",
}


def label_files(labels: Schedule[LabelRow], stamp: Stamp, paper: str) -> dict[str, bytes]:
    """For each use a list for label printers, and label sheets on the paper."""
    contents: dict[str, bytes] = {}
    for stock in load("label_stock").rows:
        if stock.text("paper") != paper:
            continue
        use: Use = "wire" if stock.text("use") == "wire" else "plate"
        rows = [row for row in labels.rows if row.use == use]
        if rows:
            contents[f"labels/{use}s.csv"] = _list(rows)
            contents[f"labels/{use}s-{stock.text('stock')}.pdf"] = _sheets(rows, use, stock, stamp)
    return contents


def _list(rows: Iterable[LabelRow]) -> bytes:
    lines = [["At", "For", "Line 1", "Line 2", "Line 3"]]
    for row in rows:
        printed = _printed(row)
        lines.append([row.at, row.kind, *printed, *("" for _ in range(3 - len(printed)))])
    return csv_lines(lines)


def _printed(row: LabelRow, times: int = ROUND_WIRE) -> tuple[str, ...]:
    return row.lines * times if row.use == "wire" else row.lines


def _sheets(rows: list[LabelRow], use: Use, stock: Row, stamp: Stamp) -> bytes:
    width, height = stock.number("width_mm"), stock.number("height_mm")
    columns, down = stock.count("columns"), stock.count("rows")
    labels = [_label(row, width * _PT_PER_MM, height * _PT_PER_MM) for row in rows]
    data = {
        "paper": SHEETS[stock.text("paper")].name,
        "title": legible(f"{_TITLES[use]}: {stamp.job}, revision {stamp.revision}"),
        "about": [
            f"{len(rows)} labels, enclosure by enclosure. For sheets of {columns * down} labels, {columns} across and "
            f"{down} down, each {width:g} by {height:g} mm.",
            "Print at 100 %, not fitted to the page. The places are from memory: print this page on plain paper first "
            "and hold it against a label sheet in front of a light.",
            f"Contents {stamp.code}. Labels of another revision are taken off.",
        ],
        "sheet": {
            "columns": columns,
            "rows": down,
            "width": width,
            "height": height,
            "left": stock.number("left_mm"),
            "top": stock.number("top_mm"),
            "across": stock.number("across_mm"),
            "down": stock.number("down_mm"),
        },
        "pages": list(_pages(labels, columns * down)),
    }
    return typeset("labels.typ", data, day=stamp.date)


def _pages(labels: list[dict[str, Any]], on_page: int) -> Iterator[list[dict[str, Any]]]:
    for start in range(0, len(labels), on_page):
        yield labels[start : start + on_page]


def _label(row: LabelRow, width: float, height: float) -> dict[str, Any]:
    """One label in the largest type with which all of it fits; what doesn't fit in the smallest ends in a sign."""
    room, lines_room = width - 2 * _PAD_PT, height - 2 * _PAD_PT
    times = max(ROUND_WIRE, int(lines_room / (_LARGEST_PT * _LINE_HEIGHT)))
    texts = [legible(line) for line in _printed(row, times)]
    first = 1.0 if row.use == "wire" else _FIRST_LARGER
    size = _LARGEST_PT
    while size > _SMALLEST_PT and not _fits(texts, size, first, room, lines_room):
        size -= _STEP_PT
    if not _fits(texts, size, first, room, lines_room):
        first = 1.0
        texts = [
            _cut(text, size, room * max(int(lines_room / len(texts) / (size * _LINE_HEIGHT)), 1))
            for text in texts
        ]
    wrapped = [wrap(text, size * (first if n == 0 else 1.0), room, bold=True) for n, text in enumerate(texts)]
    return {
        "size": size,
        "first": first,
        "bold": row.use == "wire",
        "lines": [" ".join(parts) for parts in wrapped],
    }


def _fits(texts: list[str], size: float, first: float, room: float, height: float) -> bool:
    taken = 0.0
    for place, text in enumerate(texts):
        own = size * (first if place == 0 else 1.0)
        taken += len(wrap(text, own, room, bold=True)) * own * _LINE_HEIGHT
        if any(width_pt(word, own, bold=True) > room for word in text.split(" ")):
            return False
    return taken <= height


def _cut(text: str, size: float, room: float) -> str:
    while width_pt(f"{text}…", size, bold=True) > room * 0.9 and text:
        text = text[:-1]
    return f"{text}…"
