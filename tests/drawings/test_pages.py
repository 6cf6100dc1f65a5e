"""Fitting drawings on paper. Source of sheet sizes: ANSI/ASME Y14.1 (A, B), ISO 216 (A4, A3); 7 pt: common practice."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from schedules.drawings.drawing import draw
from schedules.drawings.paper import EDGE, READABLE_PT, fit
from schedules.drawings.picture import Block, End, Line, Paper, Picture, Terminal
from schedules.drawings.split import by_blocks, by_cables, draw_pages
from tests.pictures import cabled, kitchen

MM = 72 / 25.4


@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [
        (Paper.LETTER, 8.5 * 72, 11 * 72),
        (Paper.TABLOID, 11 * 72, 17 * 72),
        (Paper.A4, 210 * MM, 297 * MM),
        (Paper.A3, 297 * MM, 420 * MM),
    ],
)
def test_a_drawing_of_the_papers_size_fits_at_full_size(paper: Paper, width: float, height: float) -> None:
    free_width, free_height = width - 2 * EDGE, height - 2 * EDGE
    upright, across = fit(free_width, free_height, paper), fit(free_height, free_width, paper)
    assert (round(upright.scale, 3), upright.landscape) == (1, False)
    assert (round(across.scale, 3), across.landscape) == (1, True)
    assert fit(2 * free_width, free_height, paper).scale == pytest.approx(
        max(0.5, min(free_height / (2 * free_width), free_width / free_height)), abs=1e-3
    )


def test_a_small_drawing_is_not_blown_up() -> None:
    assert fit(100, 100, Paper.A3).scale == 1


def test_type_that_gets_too_small_is_said() -> None:
    drawing = draw(cabled(9, 60, 70))
    assert drawing.on(Paper.LETTER).smallest_pt < READABLE_PT
    assert not drawing.on(Paper.LETTER).readable


@pytest.mark.parametrize("paper", [Paper.LETTER, Paper.A4])
@pytest.mark.parametrize("seed", range(3))
def test_pages_of_cables_can_be_read_and_hold_every_conductor_once(paper: Paper, seed: int) -> None:
    picture = replace(cabled(9, 60, 70, seed), paper=paper)
    pages = draw_pages(picture)
    assert len(pages) > 1
    assert all(page.on(paper).readable for page in pages)
    assert Counter(line.key for page in pages for line in page.picture.lines) == Counter(
        line.key for line in picture.lines
    )
    landed = {(end.block, end.terminal) for line in picture.lines for end in (line.a, line.b)}
    points = [(b.key, t.key) for page in pages for b in page.picture.blocks for t in b.terminals]
    assert set(points) == {(block.key, t.key) for block in picture.blocks for t in block.terminals}
    assert max(Counter(point for point in points if point not in landed).values()) == 1


def test_terminals_for_which_one_page_has_no_room_are_told_on_it() -> None:
    spare = tuple(Terminal(f"R{n}", f"R{n}") for n in range(90))
    boxes = tuple(
        replace(block, terminals=block.terminals + spare) if block.key == "control" else block
        for block in kitchen().blocks
    )
    (page,) = draw_pages(replace(kitchen(), blocks=boxes, paper=Paper.TABLOID))
    assert page.on(Paper.TABLOID).readable
    assert "Not drawn, as nothing lands there: " in page.picture.footer[-1]
    assert "C.R0, C.R1, " in page.picture.footer[-1]


@pytest.mark.parametrize("paper", [Paper.LETTER, Paper.A4])
def test_pages_of_blocks_hold_all_that_lands_there(paper: Paper) -> None:
    picture = replace(cabled(9, 60, 70), paper=paper)
    pages = by_blocks(picture)
    assert all(draw(page).on(paper).readable for page in pages)
    for block in picture.blocks:
        own = [page for page in pages if f": {block.tag} " in page.title]
        landing = {line.key for line in picture.lines if block.key in (line.a.block, line.b.block)}
        assert {line.key for page in own for line in page.lines} == landing
        if landing:
            shown = {t.key for page in own for b in page.blocks if b.key == block.key for t in b.terminals}
            assert shown == {terminal.key for terminal in block.terminals}


def test_a_block_that_is_shown_in_part_says_so() -> None:
    for page in by_blocks(replace(kitchen(), paper=Paper.LETTER)):
        for block in page.blocks:
            whole = next(found for found in kitchen().blocks if found.key == block.key)
            keys = {line.key for line in page.lines}
            missing = [
                line
                for line in kitchen().lines
                if block.key in (line.a.block, line.b.block) and line.key not in keys
            ]
            assert block.partial == (bool(missing) or len(block.terminals) < len(whole.terminals))


def test_what_fits_stays_whole() -> None:
    picture = replace(kitchen(), paper=Paper.TABLOID)
    assert by_cables(picture) == (picture,)


def test_cables_stay_together_where_they_can() -> None:
    pages = by_cables(replace(cabled(9, 60, 70), paper=Paper.LETTER))
    cables = [cable for page in pages for cable in {line.cable for line in page.lines}]
    assert len(cables) == len(set(cables))


def test_one_conductor_that_no_page_holds_is_drawn_all_the_same() -> None:
    blocks = tuple(Block(key, key, key, (Terminal("1", key * 200),)) for key in "AB")
    picture = Picture("Long", blocks, (Line("1", End("A", "1"), End("B", "1"), "BK"),), paper=Paper.LETTER)
    (page,) = draw_pages(picture)
    assert not page.on(Paper.LETTER).readable
