"""Standard output: data and listings, nothing else."""

from __future__ import annotations

import os
import shutil
import sys
from typing import TYPE_CHECKING

from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterable

PIPED_WIDTH = 80
"""Columns of a listing that goes into a file or another program."""


def width(asked: int | None) -> int:
    """Columns to lay a listing out in: as asked, else the terminal's, else 80."""
    if asked is not None:
        return asked
    if sys.stdout.isatty():
        return max(shutil.get_terminal_size().columns, 1)
    return PIPED_WIDTH


def in_browser() -> bool:
    """Whether the framework's own server shows the wizard in a browser: standard output is its line to there."""
    return "TEXTUAL_DRIVER" in os.environ


def encoding() -> str:
    """The encoding of standard output."""
    return sys.stdout.encoding or "ascii"


def print_lines(lines: Iterable[str]) -> None:
    """Print a listing, made harmless for a terminal whoever wrote it.

    All of it is made before the first line appears, so that a fault prints nothing.
    """
    sys.stdout.write("".join(f"{for_terminal(line)}\n" for line in lines))


def stream_lines(lines: Iterable[str]) -> None:
    """Print a long listing line by line as it is made, each made harmless for a terminal."""
    for line in lines:
        sys.stdout.write(f"{for_terminal(line)}\n")
        sys.stdout.flush()


def print_bytes(content: bytes) -> None:
    """Print a document as it is, with the same bytes on every system."""
    sys.stdout.flush()
    sys.stdout.buffer.write(content)
