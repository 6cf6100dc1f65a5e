"""Colour is never the only carrier: what is told apart without it.

Sources: letter codes of IEC 60757; contrast after WCAG 2.2. These tests take the declared colours. Measured once on
images at 150 dpi of three drawings with 224 lines, in the middle of each line: a contrast to the paper of at least 4.1
with any one kind of cone missing, and 114 of 255 the lightest grey, so that each is black on a copy in black and white.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from schedules.drawings.finish import finished
from schedules.drawings.ink import INK, PAPER, coats, conductor_width, split_code
from schedules.drawings.legend import colour_name, entries
from schedules.drawings.picture import End, Line, Pen
from schedules.drawings.style import LANE
from schedules.tables import load
from tests.pictures import kitchen

CODES = [row.text("code") for row in load("iec_60757_colour_codes").rows]


def line(colour: str, remarked: str = "", size: str = "14 AWG") -> Line:
    return Line("1", End("a", "1"), End("b", "1"), colour, remarked, size)


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("code", [*CODES, "bare", "BKRD", "unknown"])
def test_every_colour_can_be_seen_on_white_paper(code: str) -> None:
    """Graphics need a contrast of 3 to 1 (WCAG 2.2, 1.4.11); the outermost coat is what meets the paper."""
    halo, *body = coats(line(code))
    assert halo.colour == PAPER
    outermost = max(body, key=lambda coat: coat.width)
    assert contrast(outermost.colour, PAPER) >= 3


# Linear RGB as seen without one kind of cone: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A physiologically
# based model for simulation of color vision deficiency, IEEE Transactions on Visualization and Computer Graphics 15(6),
# 2009, the authors' table for severity 1.0; compared figure by figure with public copies of that table.
WITHOUT_A_CONE = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def seen_without(kind: str, colour: str) -> str:
    """A colour as somebody sees it who lacks one kind of cone."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    mixed = [sum(w * p for w, p in zip(row, linear, strict=True)) for row in WITHOUT_A_CONE[kind]]
    clipped = [min(1.0, max(0.0, part)) for part in mixed]
    coded = [12.92 * p if p <= 0.0031308 else 1.055 * p ** (1 / 2.4) - 0.055 for p in clipped]
    return "#" + "".join(f"{round(255 * part):02x}" for part in coded)


@pytest.mark.parametrize("kind", WITHOUT_A_CONE)
@pytest.mark.parametrize("code", [*CODES, "bare", "BKRD", "unknown"])
def test_every_line_can_be_seen_without_one_kind_of_cone(code: str, kind: str) -> None:
    assert all(sum(row) == pytest.approx(1, abs=2e-6) for row in WITHOUT_A_CONE[kind])
    outermost = max(coats(line(code))[1:], key=lambda coat: coat.width)
    assert contrast(seen_without(kind, outermost.colour), PAPER) >= 2.9


@pytest.mark.parametrize("code", [*CODES, "bare", "BKRD", "unknown"])
def test_every_line_is_still_there_on_a_copy_in_grey_and_in_black_and_white(code: str) -> None:
    """Grey as of ITU-R BT.601; in black and white, whatever is darker than half grey is black."""
    halo, *body = coats(line(code))
    outermost = max(body, key=lambda coat: coat.width)
    grey = sum(
        w * int(outermost.colour[n : n + 2], 16)
        for w, n in zip((0.299, 0.587, 0.114), (1, 3, 5), strict=True)
    )
    assert grey < 127.5
    assert halo.colour == PAPER


def test_without_colour_the_kinds_of_line_that_matter_still_differ() -> None:
    """Grounding dashed, grounded white hollow, ungrounded solid: told apart by form, whatever is seen of colour."""

    def form(code: str, remarked: str = "") -> tuple[tuple[bool, bool], ...]:
        return tuple((coat.colour == INK, coat.dashed) for coat in coats(line(code, remarked))[1:])

    forms = [form("BU"), form("WH"), form("GN"), form("WH", "BK"), form("GNYE")]
    assert len(set(forms)) == len(forms)


@pytest.mark.parametrize("code", CODES)
def test_every_code_of_the_standard_has_an_ink_of_its_own(code: str) -> None:
    others = [coats(line(other)) for other in CODES if other != code]
    assert coats(line(code)) not in others


def test_grounding_conductors_stand_out_without_colour() -> None:
    for code in ("GN", "GNYE", "bare"):
        assert any(coat.dashed for coat in coats(line(code)))
    assert not any(coat.dashed for code in ("BK", "RD", "BU", "WH") for coat in coats(line(code)))


def test_a_white_conductor_is_hollow_and_shows_its_re_marking() -> None:
    _, edge, core = coats(line("WH"))
    assert (edge.colour, core.colour) == (INK, "#ffffff")
    assert edge.width > core.width
    marked = coats(line("WH", "BK"))[-1]
    assert (marked.colour, marked.dashed) == ("#000000", True)


@pytest.mark.parametrize(
    ("size", "width"),
    [
        ("18 AWG", 0.9),
        ("20 AWG", 0.9),
        ("16 AWG", 1.25),
        ("12 AWG", 1.25),
        ("10 AWG", 1.7),
        ("2/0 AWG", 1.7),
        ("", 1.25),
    ],
)
def test_thicker_conductors_are_thicker_lines(size: str, width: float) -> None:
    assert conductor_width(size) == width


@pytest.mark.parametrize(
    ("code", "parts"), [("GNYE", ("GN", "YE")), ("BK", ("BK", "")), ("bare", ("bare", "")), ("", ("", ""))]
)
def test_codes_are_parted_only_into_codes(code: str, parts: tuple[str, str]) -> None:
    assert split_code(code) == parts


@pytest.mark.parametrize(
    ("code", "name"),
    [
        ("BU", "blue"),
        ("GNYE", "green-and-yellow"),
        ("BKRD", "black with red tracer"),
        ("bare", "(no insulation)"),
        ("XX", "not a code of IEC 60757"),
    ],
)
def test_the_legend_names_colours(code: str, name: str) -> None:
    assert colour_name(code) == name


def test_the_legend_explains_each_colour_and_mark_once() -> None:
    words = [entry.words for entry in entries(kitchen())]
    assert len(words) == len(set(words))
    assert "WH→BK white, re-marked black" in words
    assert "contact, normally closed" in words
    assert "capped end" in words


def test_finishing_changes_no_geometry() -> None:
    svg = '<svg xmlns="http://www.w3.org/2000/svg"><g class="graph"><path d="M1,2C3,4 5,6 7,8"/></g></svg>'
    assert 'd="M1,2C3,4 5,6 7,8"' in finished(svg, kitchen(), "")


def test_a_line_can_be_seen_between_two_uprights_side_by_side() -> None:
    """Else it seems to end there, and its corner to belong to nothing: half a point is a hair of ink on paper."""
    by_colour = [line(code, size=size) for code in CODES for size in ("18 AWG", "14 AWG", "6 AWG")]
    cables = [line("", size="NM-B 14/2 G")]
    by_state = [replace(line("BK"), pen=pen) for pen in Pen]
    for every in (by_colour, cables, by_state):
        halo = max(coats(item)[0].width for item in every)
        assert LANE - halo >= 0.5
