"""Distances and type sizes of a drawing [pt]."""

from __future__ import annotations

# Every line end has a row of its own; its line runs low in the row and its words stand on the line.
ROW = 13.0
LINE_IN_ROW = 10.0
WORDS_OVER_LINE = 3.4

LABEL_PT = 8.0
CELL_PT = 8.5
HEADER_PT = 10.5
TITLE_PT = 14.0
SMALL_PT = 8.0

HEADER_LINE = 13.0
HEADER_PAD = 4.0
BLOCK_FOOT = 6.0
BLOCK_GAP = 18.0
CELL_PAD = 4.0
MARK_WIDTH = 15.0
PIECE_GAP = 4.0

LANE = 5.0
CHANNEL_MARGIN = 9.0
CORNER = 3.0

# Two lines that run side by side are at least this far apart, centre to centre: the halo of the thickest does not
# reach the thickest beside it.
CLEAR = 4.5

# Two heights that differ by less are one.
LEVEL = 0.01

PAGE_MARGIN = 11.0

NARROWEST_CELL = 34.0
NARROWEST_BLOCK = 96.0
NARROWEST_CHANNEL = 30.0
BARE_SIDE = 9.0
DOT = 1.5

SUBTITLE_PT = 9.0
LEGEND_ROW = 11.5
SAMPLE_WIDTH = 22.0
HOUSING = 1.5

SMALLEST_PT = min(LABEL_PT, CELL_PT, HEADER_PT, TITLE_PT, SMALL_PT, SUBTITLE_PT)
