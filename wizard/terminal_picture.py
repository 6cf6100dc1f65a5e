"""A picture in the terminal itself, where it answers the kitty graphics protocol's question.

Source: kitty's published protocol ("Terminal graphics protocol"): query `a=q`, transmit and display `a=T`, PNG `f=100`,
payload in base64 by pieces of 4096 bytes, `C=1` so that the cursor stays and nothing scrolls, delete `a=d`. The
question is followed by the one that every terminal answers (primary device attributes, ECMA-48 DA), so that silence is
told from no.
"""

from __future__ import annotations

import base64
import contextlib
import fcntl
import os
import re
import select
import struct
import termios
import tty
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

LONGEST_ANSWER_S = 1.0
"""How long the terminal may take to answer; over ssh an answer takes a round trip."""

_PIECE = 4096
_QUESTION = b"\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\\x1b[c"
_YES = b"\x1b_Gi=31;OK\x1b\\"
_ATTRIBUTES = re.compile(rb"\x1b\[\?[0-9;]*c")
_CLEAR, _FORGET = b"\x1b[2J\x1b[H", b"\x1b_Ga=d,d=A,q=2\x1b\\"
_LIKELY_CELL = (1, 2)
"""Width to height of a cell where the terminal does not say how many pixels it has: from memory, most fonts."""


@contextlib.contextmanager
def own_terminal() -> Iterator[int]:
    """A file descriptor of the terminal that the program runs in. Raises OSError where there is none."""
    terminal = os.open("/dev/tty", os.O_RDWR | os.O_NOCTTY)
    try:
        yield terminal
    finally:
        os.close(terminal)


def shows_pictures(terminal: int) -> bool:
    """Whether the terminal behind a file descriptor answers that it shows pictures."""
    answer = b""
    with _raw(terminal):
        os.write(terminal, _QUESTION)
        while not _ATTRIBUTES.search(answer):
            if not select.select([terminal], [], [], LONGEST_ANSWER_S)[0]:
                break
            answer += os.read(terminal, _PIECE)
    return _YES in answer


def show_picture(terminal: int, png: bytes, words: str) -> None:
    """Show a PNG as large as the terminal is, with a line of words under it, until a key is pressed."""
    rows, columns, across_px, down_px = _size(terminal)
    cell = (across_px / columns, down_px / rows) if across_px and down_px else _LIKELY_CELL
    with _raw(terminal):
        _write(terminal, _CLEAR + b"".join(_pieces(png, *fitted(_pixels(png), (columns, rows - 2), cell))))
        _write(terminal, f"\x1b[{rows};1H{words}".encode())
        os.read(terminal, 1)
        termios.tcflush(terminal, termios.TCIFLUSH)
        _write(terminal, _FORGET + _CLEAR)


def fitted(picture: tuple[int, int], room: tuple[int, int], cell: tuple[float, float]) -> tuple[int, int]:
    """Columns and rows for a picture of so many pixels, in its own proportions, as large as the room (cells) takes."""
    scale = min(room[0] * cell[0] / picture[0], room[1] * cell[1] / picture[1])
    return max(int(picture[0] * scale / cell[0]), 1), max(int(picture[1] * scale / cell[1]), 1)


def _pieces(png: bytes, columns: int, rows: int) -> Iterator[bytes]:
    data = base64.standard_b64encode(png)
    head = f"a=T,f=100,q=2,C=1,c={columns},r={rows},".encode()
    for start in range(0, len(data), _PIECE):
        more = start + _PIECE < len(data)
        yield b"\x1b_G%sm=%d;%s\x1b\\" % (b"" if start else head, more, data[start : start + _PIECE])


def _pixels(png: bytes) -> tuple[int, int]:
    """Width and height, which stand in a PNG's first chunk (ISO/IEC 15948, IHDR)."""
    width, height = struct.unpack_from(">II", png, 16)
    return width, height


def _size(terminal: int) -> tuple[int, int, int, int]:
    """Rows, columns, pixels across and pixels down, zero where the terminal does not say."""
    answer = fcntl.ioctl(terminal, termios.TIOCGWINSZ, bytes(8))
    rows, columns, across, down = struct.unpack("HHHH", answer)
    return max(rows, 3), max(columns, 1), across, down


def _write(terminal: int, data: bytes) -> None:
    while data:
        data = data[os.write(terminal, data) :]


@contextlib.contextmanager
def _raw(terminal: int) -> Iterator[None]:
    """Keys come one by one and unprinted; afterwards the terminal is as it was."""
    before = termios.tcgetattr(terminal)
    tty.setraw(terminal)
    try:
        yield
    finally:
        termios.tcsetattr(terminal, termios.TCSADRAIN, before)
