"""How a drawing goes on a sheet of paper, and whether its smallest words can then be read."""

from __future__ import annotations

from dataclasses import dataclass

from schedules.drawings.picture import Paper
from schedules.drawings.style import SMALLEST_PT

# Width and height upright [pt]: ANSI/ASME Y14.1 A and B, ISO 216 A4 and A3.
_SHEETS = {
    Paper.LETTER: (612.0, 792.0),
    Paper.A4: (595.28, 841.89),
    Paper.TABLOID: (792.0, 1224.0),
    Paper.A3: (841.89, 1190.55),
}

# Kept free on every side [pt]: what common printers can't reach, and room to punch (common practice).
EDGE = 28.0

# The smallest type that can be read on paper on site (common practice).
READABLE_PT = 7.0


@dataclass(frozen=True, slots=True)
class Fit:
    """One drawing on one sheet. scale: never enlarged beyond 1. smallest_pt: its smallest words as printed [pt]."""

    paper: Paper
    landscape: bool
    scale: float
    smallest_pt: float

    @property
    def readable(self) -> bool:
        """Whether no words are smaller than 7 pt."""
        return self.smallest_pt >= READABLE_PT


def may_fit(width_pt: float, height_pt: float, paper: Paper) -> bool:
    """Whether a drawing of that size could be read on a sheet if it had another shape, by its area."""
    width, height = (side - 2 * EDGE for side in _SHEETS[paper])
    readable = (SMALLEST_PT / READABLE_PT) ** 2
    # The slack allows for the empty paper that another number of columns may save (own choice).
    return width_pt * height_pt <= 1.4 * readable * width * height


def fit(width_pt: float, height_pt: float, paper: Paper) -> Fit:
    """Put a drawing of that size [pt] on a sheet, upright or across, whichever shows it larger."""
    width, height = (side - 2 * EDGE for side in _SHEETS[paper])
    upright = min(width / width_pt, height / height_pt)
    across = min(height / width_pt, width / height_pt)
    scale = min(max(upright, across), 1.0)
    return Fit(paper, across > upright, scale, SMALLEST_PT * scale)


def sheet_size(paper: Paper) -> tuple[float, float]:
    """Width and height of a sheet upright [pt]."""
    return _SHEETS[paper]
