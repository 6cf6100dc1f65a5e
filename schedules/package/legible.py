"""Text as the printed pages' typeface can show it."""

from __future__ import annotations

from schedules.drawings.metrics import known, width_pt
from schedules.package.widths import BODY_PT, LONGEST_WORD_PT, counts_whole
from schedules.text import for_terminal

# A word may be broken here; the reader sees nothing.
BREAK = "\u200b"


def legible(text: str) -> str:
    """Text in the signs that the typeface has: another sign is told by its number."""
    shown = for_terminal(text)
    if shown.isascii():
        return shown
    return "".join(sign if known(sign) else f"[U+{ord(sign):04X}]" for sign in shown)


def breakable(text: str) -> str:
    """Legible text whose very long words may be broken, so that they stay in their cells, and no count may."""
    shown = counts_whole(legible(text))
    if len(shown) * BODY_PT <= LONGEST_WORD_PT:
        return shown
    return " ".join(_parted(word) for word in shown.split(" "))


def _parted(word: str) -> str:
    if width_pt(word, BODY_PT, bold=True) <= LONGEST_WORD_PT:
        return word
    pieces = [""]
    for sign in word:
        if width_pt(pieces[-1] + sign, BODY_PT, bold=True) > LONGEST_WORD_PT / 4:
            pieces.append("")
        pieces[-1] += sign
    return BREAK.join(pieces)
