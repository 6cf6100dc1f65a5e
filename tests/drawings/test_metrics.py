"""Widths of words. Source: the wheel engine's own measure of the same typeface, read from two words side by side."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.drawings.engine import WHEEL
from schedules.drawings.metrics import width_pt, wrap

PRINTABLE = "".join(map(chr, range(33, 127)))


@pytest.mark.parametrize(
    "text", ["Hag", "116", "to CB4.X1:2", "WMWM", "illi", "Quick fox 0123456789", PRINTABLE]
)
@pytest.mark.parametrize("bold", [False, True])
def test_words_are_as_wide_as_the_engine_says(text: str, bold: bool) -> None:
    escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\\", "\\\\")
    first, last = ("<B>%s</B>", "<I>x</I>") if bold else ("%s", "<B>x</B>")
    source = f"graph {{ n [fontname=Arial, fontsize=100, label=<{first % escaped}{last}>] }}"
    xs = [float(x) for x in re.findall(rb' x="(-?[\d.]+)"', WHEEL.render(source, "place", "svg"))]
    assert xs[1] - xs[0] == pytest.approx(width_pt(text, 100, bold=bold), abs=0.05)


@given(st.text(st.characters(exclude_categories=("C", "Z")), max_size=60), st.floats(30, 200))
def test_wrapping_loses_nothing_and_stays_in_its_room(text: str, room: float) -> None:
    lines = wrap(text, 8, room)
    assert "".join(lines) == text
    assert all(width_pt(line, 8) <= room for line in lines)


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=8), min_size=1, max_size=20))
def test_wrapping_breaks_between_words(words: list[str]) -> None:
    lines = wrap(" ".join(words), 8, 60, first_pt=40)
    assert " ".join(lines).split() == words
    assert width_pt(lines[0], 8) <= 40
    assert all(width_pt(line, 8) <= 60 for line in lines)
