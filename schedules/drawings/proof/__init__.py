"""The independent proof: what a finished drawing shows is what the picture says, end by end, word by word.

Reads the SVG itself. Shares with the layout only the names of elements, the declared inks and the typeface.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.errors import DrawingError
from schedules.drawings.proof.elements import element_failures
from schedules.drawings.proof.lines import line_failures
from schedules.drawings.proof.marks import mark_failures
from schedules.drawings.proof.readback import read_back
from schedules.drawings.proof.words import word_failures

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture


def prove_or_raise(picture: Picture, svg: str, prefix: str = "") -> None:
    """Raise DrawingError with every failure unless the drawing shows exactly what the picture says."""
    failures = prove(picture, svg, prefix)
    if failures:
        raise DrawingError(failures)


def prove(picture: Picture, svg: str, prefix: str = "") -> tuple[str, ...]:
    """Every way in which the drawing differs from the picture or can't be read with certainty, in words.

    prefix: what stands before every id in the drawing.
    """
    try:
        seen = read_back(svg, prefix)
    except DrawingError as error:
        return error.failures
    # What is not there can't be measured: the checks of place follow only when everything is there.
    missing = tuple(element_failures(picture, seen))
    if missing:
        return missing
    return (
        *line_failures(picture, seen),
        *word_failures(picture, seen),
        *mark_failures(picture, seen),
    )
