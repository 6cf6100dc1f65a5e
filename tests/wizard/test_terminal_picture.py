"""A picture in the terminal: asked first, sent whole, in its proportions, and the terminal left as it was."""

from __future__ import annotations

import base64
import contextlib
import os
import pty
import re
import struct
import termios
import threading
from typing import TYPE_CHECKING

import pytest

from tests.stage import sample_job, staged
from wizard import terminal_picture
from wizard.screens.drawings import DrawingsScreen
from wizard.terminal_picture import fitted, show_picture, shows_pictures

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

ASKED = b"\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\\x1b[c"
"""The question as the published protocol has it, word for word ("Querying support")."""

YES = b"\x1b_Gi=31;OK\x1b\\\x1b[?62;c"
NO = b"\x1b[?62;c"
REFUSED = b"\x1b_Gi=31;ENOTSUPPORTED:no direct data\x1b\\\x1b[?62;c"
PICTURE = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + struct.pack(">II", 400, 100) + bytes(range(256)) * 30


class Terminal:
    """The other end of a line: answers what it is asked, once each, and keeps what came."""

    def __init__(self, answers: dict[bytes, bytes]) -> None:
        self.far, self.near = pty.openpty()
        self.got = b""
        self._answers = answers
        self._thread = threading.Thread(target=self._listen)
        self._thread.start()

    def _listen(self) -> None:
        left = dict(self._answers)
        # The line ends with an error once its near end is closed.
        with contextlib.suppress(OSError):
            while data := os.read(self.far, 65536):
                self.got += data
                for asked in [asked for asked in left if asked in self.got]:
                    os.write(self.far, left.pop(asked))

    def hang_up(self) -> None:
        os.close(self.near)
        self._thread.join()
        os.close(self.far)


@contextlib.contextmanager
def terminal(answers: dict[bytes, bytes]) -> Iterator[Terminal]:
    line = Terminal(answers)
    before = termios.tcgetattr(line.near)
    try:
        yield line
        assert termios.tcgetattr(line.near) == before
    finally:
        line.hang_up()


@pytest.mark.parametrize(("answer", "shows"), [(YES, True), (NO, False), (REFUSED, False)])
def test_only_a_terminal_that_says_so_shows_pictures(answer: bytes, shows: bool) -> None:
    with terminal({b"\x1b[c": answer}) as line:
        assert shows_pictures(line.near) is shows
    assert line.got == ASKED


def test_a_silent_terminal_shows_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal_picture, "LONGEST_ANSWER_S", 0.0)
    with terminal({}) as line:
        assert not shows_pictures(line.near)


def test_the_picture_arrives_whole_in_pieces_and_is_taken_away_again() -> None:
    with terminal({b"any key": b"\r"}) as line:
        show_picture(line.near, PICTURE, "any key")
    pieces = re.findall(rb"\x1b_G([^;\x1b]*);?([^\x1b]*)\x1b\\", line.got)
    *sent, last = pieces
    assert base64.b64decode(b"".join(data for _, data in sent), validate=True) == PICTURE
    assert all(len(data) <= 4096 and len(data) % 4 == 0 for _, data in sent)
    assert sent[0][0].startswith(b"a=T,f=100,q=2,C=1,c=")
    assert {head for head, _ in sent[1:]} == {b"m=1", b"m=0"}
    assert [head[-3:] for head, _ in sent] == [b"m=1"] * (len(sent) - 1) + [b"m=0"]
    assert last[0] == b"a=d,d=A,q=2"


def test_a_picture_keeps_its_proportions() -> None:
    assert fitted((400, 100), (80, 22), (10, 20)) == (80, 10)
    assert fitted((100, 400), (80, 22), (10, 20)) == (11, 22)
    assert fitted((10_000, 1), (80, 22), (10, 20)) == (80, 1)


async def test_a_terminal_without_pictures_is_told_of_the_viewer(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("d", "g", "p")
        await stage.shows("This terminal shows no pictures")
        assert isinstance(stage.screen, DrawingsScreen)


async def test_each_page_is_shown_proved(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lent: list[tuple[tuple[bytes, str], ...]] = []

    def take(_screen: DrawingsScreen, pages: tuple[tuple[bytes, str], ...]) -> bool:
        lent.append(pages)
        return True

    monkeypatch.setattr(DrawingsScreen, "_terminal_shows", take)
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("d", "g", "right_square_bracket", "p")
        await stage.until(lambda: len(lent) == 2, "the picture")
    asked, pages = lent
    assert asked == ()
    assert all(page.startswith(b"\x89PNG") for page, _ in pages)
    assert (
        pages[0][1]
        == f"PB  Load center: all that lands here, and where it goes   1 of {len(pages)}; any key goes on"
    )
