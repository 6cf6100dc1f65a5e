"""How a line looks, by its colour code and size. Colour is never the only carrier.

Both ends of a line say its number and colour code in letters; grounding conductors are dashed, light colours are
hollow, re-marked and two-coloured ones bear a dashed stripe, thicker conductors are thicker lines. What is left to
colour alone, telling apart plain lines on their way, the lanes and the words at both ends do without it. A line with a
pen is drawn by what it is at the moment, in black, by width, dashes and hollowness.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.picture import Pen

if TYPE_CHECKING:
    from schedules.drawings.picture import Line

PAPER = "#ffffff"
INK = "#1a1a1a"
SOFT_INK = "#555555"
HEADER = "#e4e6e8"

# Bright enough to be told apart on screen, dark enough to stand on white paper (own choice).
_HUES = {
    "BK": "#000000",
    "BN": "#8a4b08",
    "RD": "#d00000",
    "OG": "#e67700",
    "YE": "#ffd400",
    "GN": "#008a3e",
    "BU": "#0062b8",
    "VT": "#8e24aa",
    "GY": "#6b7280",
    "WH": "#ffffff",
    "PK": "#f78fb3",
    "GD": "#d9a520",
    "TQ": "#2ec4b6",
    "SR": "#c4c9ce",
    "bare": "#9c5a1c",
}

# Dashed as well as coloured: the grounding conductors, so that they stand out in black and white.
_DASHED = frozenset({"GN", "bare"})

# Too light for a bare line on white paper or on a photocopy in black and white: drawn between two dark edges.
_LIGHT = frozenset({"WH", "YE", "OG", "PK", "GD", "TQ", "SR"})

_CABLE_WIDTH = 2.0
_EDGE = 0.6
# Wide enough to part two lines that cross; narrow enough that between two uprights side by side a level line still
# shows, and can be followed to its corner.
_HALO = 0.8


@dataclass(frozen=True, slots=True)
class Coat:
    """One stroke along a line's path: colour, width [pt], dashed or not."""

    colour: str
    width: float
    dashed: bool = False


# What a line is at the moment, in black alone: thick is live, thin is not, hollow no longer is.
_PENS = {
    Pen.LIVE: (Coat(INK, 2.2),),
    Pen.NOW_LIVE: (Coat(INK, 2.6), Coat(PAPER, 1.0, dashed=True)),
    Pen.CARRIES: (Coat(INK, 0.9),),
    Pen.DEAD: (Coat(INK, 0.6, dashed=True),),
    Pen.NOW_DEAD: (Coat(INK, 2.4), Coat(PAPER, 1.2)),
    Pen.OPEN: (Coat(INK, 2.6, dashed=True),),
}

# A connector's outline.
OUTLINE = Coat(INK, 0.8)


def coats(line: Line) -> tuple[Coat, ...]:
    """The strokes that make one line, from the lowest: halo first, so that crossings read as bridges."""
    body = _body(line)
    return (Coat(PAPER, body[0].width + 2 * _HALO), *body)


def _body(line: Line) -> tuple[Coat, ...]:
    if line.pen is not None:
        return _PENS[line.pen]
    if not line.colour:
        return (Coat(INK, _CABLE_WIDTH),)
    width = conductor_width(line.size)
    base, tracer = split_code(line.colour)
    stripe = split_code(line.remarked)[0] if line.remarked else tracer
    if base in _LIGHT or stripe:
        core = _HUES.get(base, INK)
        edge = INK if base in _LIGHT else core
        body = (Coat(edge, width + 2 * _EDGE), Coat(core, width))
        return (*body, Coat(_HUES.get(stripe, INK), width, dashed=True)) if stripe else body
    return (Coat(_HUES.get(base, INK), width, dashed=base in _DASHED),)


def split_code(code: str) -> tuple[str, str]:
    """A colour code's base and tracer, e.g. GNYE: GN and YE; the tracer is empty for a plain colour."""
    return (code[:2], code[2:]) if code[:2] in _HUES and code[2:] in _HUES else (code, "")


def conductor_width(size: str) -> float:
    """Width of a conductor's line [pt] by its size; 18 AWG and thinner are thin, 10 AWG and thicker thick."""
    found = re.fullmatch(r"(\d+)(/0)? AWG", size.strip())
    if found is None:
        return 1.25
    gauge = 0 if found[2] else int(found[1])
    if gauge >= 18:
        return 0.9
    return 1.7 if gauge <= 10 else 1.25
