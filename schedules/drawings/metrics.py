"""How wide a text is in the drawings' typeface."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

# Design units per em of the typeface whose advances stand in arimo_advances.csv (Arimo 1.341, SIL Open Font
# License; read from its own horizontal metrics at weights 400 and 700).
_UNITS_PER_EM = 2048

# A character outside the table comes from any fallback font; one beyond the basic plane may, where there is none,
# become a box with its six-digit number in it. Measured on one system, rounded up.
_UNKNOWN_ADVANCE = 2700
_BOXED_ADVANCE = 7000

ASCENT = 0.76
DESCENT = 0.212


@cache
def _advances() -> dict[str, tuple[int, int]]:
    text = files("schedules.drawings").joinpath("arimo_advances.csv").read_text(encoding="utf-8")
    return {
        chr(int(row["codepoint"], 16)): (int(row["regular"]), int(row["bold"]))
        for row in csv.DictReader(text.splitlines())
    }


@cache
def width_pt(text: str, size_pt: float, *, bold: bool = False) -> float:
    """Width of one line of text [pt] at a type size [pt]."""
    advances = _advances()
    units = sum(
        advances[character][bold] if character in advances else _unknown(character) for character in text
    )
    return units * size_pt / _UNITS_PER_EM


def known(character: str) -> bool:
    """Whether the typeface has the character."""
    return character in _advances()


def _unknown(character: str) -> int:
    return _UNKNOWN_ADVANCE if character <= "\uffff" else _BOXED_ADVANCE


def wrap(
    text: str, size_pt: float, room_pt: float, *, bold: bool = False, first_pt: float | None = None
) -> tuple[str, ...]:
    """Break a text into lines no wider than room_pt [pt]; a word too long for a line is cut.

    first_pt: room on the first line, where it is another; the first line is empty if not even a word fits there.
    """
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        room = first_pt if first_pt is not None and not lines else room_pt
        longer = f"{line} {word}" if line else word
        if width_pt(longer, size_pt, bold=bold) <= room:
            line = longer
            continue
        if line or room < room_pt:
            lines.append(line)
        *full, line = _cut(word, size_pt, room_pt, bold=bold)
        lines.extend(full)
    lines.append(line)
    return tuple(lines)


def _cut(word: str, size_pt: float, room_pt: float, *, bold: bool) -> list[str]:
    pieces = [""]
    for character in word:
        if pieces[-1] and width_pt(pieces[-1] + character, size_pt, bold=bold) > room_pt:
            pieces.append("")
        pieces[-1] += character
    return pieces
