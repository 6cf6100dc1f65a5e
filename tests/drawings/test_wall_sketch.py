"""A wall as characters: no wider than asked, in the characters that a terminal has, everything in its place."""

from __future__ import annotations

import pytest

from schedules.drawings.reach_sketch import reach_sketch
from schedules.drawings.wall_content import wall_content, walls_to_draw
from schedules.drawings.wall_sketch import LINES, PLAIN, Signs, signs_for, sketch_legend, wall_sketch
from tests.drawings.test_elevation import plan

ENDS = (
    ("galley-gas", "W5", "RB"),
    ("training-room", "W6", "CB"),
    ("loft-gas", "W9", "GR"),
    ("must-fail", "W4", "H"),
)


@pytest.mark.parametrize(("job", "cable", "subject"), ENDS)
@pytest.mark.parametrize("columns", [40, 80])
def test_a_sketch_fits_and_names_what_is_asked_about(
    job: str, cable: str, subject: str, columns: int
) -> None:
    for signs in (LINES, PLAIN):
        lines = reach_sketch(plan(job), cable, columns=columns, signs=signs)
        assert max(map(len, lines)) <= columns
        assert sum(f"[{subject}]" in line for line in lines) == 2
        assert ("".join(lines).isascii()) == (signs is PLAIN)


@pytest.mark.parametrize("signs", [LINES, PLAIN])
def test_boxes_and_region_stand_where_the_plan_has_them(signs: Signs) -> None:
    """Each character of the region lies in it, and each box within a character of its place."""
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0], "W5")
    lines = wall_sketch(content, columns=82, rows=24, signs=signs, subject="RB", cable="W5")[1:-1]
    inner = [line[1:-1] for line in lines]
    per_column, per_row = content.wall.length_in / 80, content.height_in / len(inner)
    region = content.shades[0].region
    hatched = [
        ((column + 0.5) * per_column, content.height_in - (row + 0.5) * per_row)
        for row, line in enumerate(inner)
        for column, character in enumerate(line)
        if character == signs.reach
    ]
    assert len(hatched) > 100
    assert all(region.holds(*spot) for spot in hatched)
    for device in content.devices:
        row = len(inner) - 1 - int(device.up_in / per_row)
        column = int(device.along_in / per_column)
        assert inner[row][column] == signs.entry, device.enclosure


def test_a_terminal_without_lines_gets_plain_characters() -> None:
    assert signs_for("utf-8") is LINES
    assert signs_for("ascii") is PLAIN
    assert signs_for("latin-1") is PLAIN
    assert signs_for("no such encoding") is PLAIN


def test_what_is_too_small_is_left_out() -> None:
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0])
    assert wall_sketch(content, columns=12, rows=24) == ()
    assert wall_sketch(content, columns=80, rows=3) == ()
    assert all(len(line) <= 30 for line in sketch_legend(content, columns=30))


def test_a_cable_without_an_end_on_a_wall_has_no_sketch() -> None:
    assert reach_sketch(plan("must-fail-air"), "W5", columns=80, signs=LINES) == ()
