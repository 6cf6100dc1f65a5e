"""What a picture may hold: plumbing, no outside source."""

from __future__ import annotations

import pytest

from schedules.drawings.errors import PictureError
from schedules.drawings.picture import Block, End, Line, Picture, Terminal

A = Block("a", "A", "First", (Terminal("1", "1"), Terminal("2", "2")))
B = Block("b", "B", "Second", (Terminal("1", "1"),))


def picture(*lines: Line, blocks: tuple[Block, ...] = (A, B)) -> Picture:
    return Picture("Test", blocks, lines)


def test_keys_are_used_once() -> None:
    line = Line("1", End("a", "1"), End("b", "1"))
    with pytest.raises(PictureError, match="line '1' is there 2 times"):
        picture(line, line)
    with pytest.raises(PictureError, match="block 'a' is there 2 times"):
        picture(blocks=(A, A))
    twice = Block("c", "C", "Third", (Terminal("1", "1"), Terminal("1", "2")))
    with pytest.raises(PictureError, match="block 'c': terminal '1' is there 2 times"):
        picture(blocks=(twice,))


def test_ends_are_on_something() -> None:
    with pytest.raises(PictureError, match="line '1' ends in block 'c', which is not there"):
        picture(Line("1", End("a", "1"), End("c", "1")))
    with pytest.raises(PictureError, match="line '1' ends on terminal '3', which block 'b' lacks"):
        picture(Line("1", End("a", "1"), End("b", "3")))
    with pytest.raises(PictureError, match="starts and ends on the same terminal '1'"):
        picture(Line("1", End("a", "1"), End("a", "1")))


def test_every_mistake_is_named_at_once() -> None:
    with pytest.raises(PictureError) as caught:
        picture(Line("1", End("x", "1"), End("y", "1")), Line("2", End("a", "9"), End("b", "9")))
    assert len(caught.value.failures) == 4


def test_both_ends_may_be_capped_in_one_block() -> None:
    assert picture(Line("1", End("a", None), End("a", None))).lines
