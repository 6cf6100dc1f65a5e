"""What a command is, and the arguments that several commands take."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

NARROWEST, WIDEST = 40, 1000
PAPERS = {"letter": "Letter", "a4": "A4"}
"""Papers by the words for them on the command line."""


@dataclass(frozen=True, slots=True)
class Command:
    """One command: what its help says, what it takes, what it does. With parts it is only their common name.

    examples: a command line and what it does. run: gives the exit status.
    """

    name: str
    summary: str
    description: str
    examples: tuple[tuple[str, str], ...]
    arguments: Callable[[argparse.ArgumentParser], None] = lambda _parser: None
    run: Callable[[argparse.Namespace], int] = lambda _arguments: 0
    parts: tuple[Command, ...] = ()


def add_job(parser: argparse.ArgumentParser) -> None:
    """Take the job's file."""
    parser.add_argument("job", metavar="JOB", type=Path, help="the job's file, .toml")


def add_width(parser: argparse._ActionsContainer) -> None:
    """Take the width of a listing."""
    parser.add_argument(
        "--width",
        metavar="N",
        type=_columns,
        help=f"columns to use, {NARROWEST} to {WIDEST}; else the terminal's width, 80 in a file or pipe",
    )


def add_paper(parser: argparse.ArgumentParser) -> None:
    """Take the paper of what is printed."""
    parser.add_argument("--paper", choices=tuple(PAPERS), default="letter", help="paper of what is written")


def add_file(parser: argparse.ArgumentParser, what: str) -> None:
    """Take where to write a document that is else printed."""
    parser.add_argument(
        "-o", "--output", metavar="FILE", type=Path, help=f"write {what} to a new file instead of printing it"
    )


def whole(text: str) -> int:
    """Read a whole number of at most nine digits. Raises ArgumentTypeError."""
    digits = text.removeprefix("-")
    if not (digits.isascii() and digits.isdigit() and len(digits) <= 9):
        raise argparse.ArgumentTypeError(
            f"found {text[:40]!a}; allowed: a whole number of at most nine digits"
        )
    return int(text)


def _columns(text: str) -> int:
    if not (text.isascii() and text.isdigit() and NARROWEST <= int(text[:5]) <= WIDEST):
        raise argparse.ArgumentTypeError(
            f"found {text!a}; allowed: a whole number from {NARROWEST} to {WIDEST}"
        )
    return int(text)
