"""Where everything stands across the page: channels, columns, cells and lanes as places [pt]."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.style import CHANNEL_MARGIN, LANE, NARROWEST_CHANNEL
from schedules.drawings.widths import LEFT, RIGHT, Width

if TYPE_CHECKING:
    from schedules.drawings.lanes import Routes
    from schedules.drawings.stacking import Stack


@dataclass(frozen=True, slots=True)
class Across:
    """lefts, rights: of each column's blocks. cells: left and right face of each column's cells.

    channels: the first lane of each channel.
    """

    widths: tuple[Width, ...]
    lefts: tuple[float, ...]
    rights: tuple[float, ...]
    cells: tuple[tuple[float, float], ...]
    channels: tuple[float, ...]

    def lane(self, channel: int, lane: int) -> float:
        """Where a channel's lane runs."""
        return self.channels[channel] + LANE * lane

    def link(self, column: int, face: int, lane: int) -> float:
        """Where a lane for links inside a block runs: between the words and the frame."""
        out = self.widths[column].words(face) + LANE * (lane + 0.6)
        left, right = self.cells[column]
        return right + out if face == RIGHT else left - out


def across(standing: Stack, routes: Routes, widths: tuple[Width, ...]) -> Across:
    """Set columns and channels side by side, each as wide as it must be."""
    gutters = [[0.0, 0.0] for _ in widths]
    for (block, face), lanes in routes.link_lanes.items():
        gutter = gutters[standing.standings[block].column]
        gutter[face] = max(gutter[face], LANE * (lanes + 1))
    lefts, rights, cells, channels = [], [], [], []
    x = 0.0
    for channel, lanes in enumerate(routes.lanes):
        channels.append(x + CHANNEL_MARGIN)
        inner = 0 < channel < len(widths)
        if lanes or inner:
            x += max(2 * CHANNEL_MARGIN + (lanes - 1) * LANE, NARROWEST_CHANNEL)
        if channel < len(widths):
            width = widths[channel]
            lefts.append(x)
            x += gutters[channel][LEFT] + width.words(LEFT)
            cells.append((x, x + width.cell))
            x += width.cell + width.words(RIGHT) + gutters[channel][RIGHT]
            rights.append(x)
    return Across(widths, tuple(lefts), tuple(rights), tuple(cells), tuple(channels))
