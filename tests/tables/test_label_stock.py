"""Label sheets: every row carried, against values retyped by hand, and on their paper."""

from __future__ import annotations

import pytest

from schedules.tables import load
from schedules.working import Confidence

# Columns, rows, width, height, left, top, across, down. US sheets in inches: 2-5/8 by 1 in, 1-3/4 by 1/2 in labels.
# From memory: they can't be checked here, so the page that is printed first says so.
INCHES = {
    "letter-30": (3, 10, 2.625, 1, 0.1875, 0.5, 2.75, 1),
    "letter-80": (4, 20, 1.75, 0.5, 0.28125, 0.5, 2.0625, 0.5),
}
MILLIMETRES = {
    "a4-21": (3, 7, 63.5, 38.1, 7.25, 15.15, 66, 38.1),
    "a4-65": (5, 13, 38.1, 21.2, 4.65, 10.7, 40.65, 21.2),
}
PAPER_MM = {"Letter": (215.9, 279.4), "A4": (210, 297)}
SIZES = ("width_mm", "height_mm", "left_mm", "top_mm", "across_mm", "down_mm")


def test_every_sheet_is_as_retyped() -> None:
    rows = {row.text("stock"): row for row in load("label_stock").rows}
    assert set(rows) == set(INCHES) | set(MILLIMETRES)
    for name, (columns, down, *sizes) in (INCHES | MILLIMETRES).items():
        scale = 25.4 if name in INCHES else 1
        assert (rows[name].count("columns"), rows[name].count("rows")) == (columns, down)
        assert [rows[name].number(key) for key in SIZES] == pytest.approx(
            [size * scale for size in sizes], abs=1e-4
        )
        assert load("label_stock").source(rows[name]).confidence is Confidence.MEMORY


def test_the_labels_are_on_their_paper_and_do_not_overlap() -> None:
    for row in load("label_stock").rows:
        width, height, left, top, across, down = (row.number(key) for key in SIZES)
        paper_width, paper_height = PAPER_MM[row.text("paper")]
        assert across >= width
        assert down >= height
        right = left + (row.count("columns") - 1) * across + width
        bottom = top + (row.count("rows") - 1) * down + height
        # The labels stand in the middle of their sheet.
        assert right == pytest.approx(paper_width - left, abs=0.05)
        assert bottom == pytest.approx(paper_height - top, abs=0.05)


def test_each_paper_has_a_sheet_for_each_use() -> None:
    assert {(row.text("paper"), row.text("use")) for row in load("label_stock").rows} == {
        (paper, use) for paper in PAPER_MM for use in ("wire", "plate")
    }
