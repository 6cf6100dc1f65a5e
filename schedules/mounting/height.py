"""At what height does the hood hang, does it fit there, and what does it sweep in service?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches, rule_input
from schedules.practice import practice
from schedules.quantities.lengths import format_length
from schedules.tables import rule
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.tables import Code

_IRC = "irc_mechanical_rules"
_SHEET = Source("sheet's mounting window", Confidence.SHEET)
_SITE = Source("measured on site", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class HeightWindow:
    """Between which heights above the cooking surface the hood's underside hangs [in], and who says so."""

    lowest_in: float
    highest_in: float
    lowest_from: str
    highest_from: str
    working: Working

    def holds(self, clearance_in: float) -> bool:
        """Whether this clearance [in] lies in the window."""
        return reaches(clearance_in, self.lowest_in) and reaches(self.highest_in, clearance_in)


@dataclass(frozen=True, slots=True)
class Height:
    """A height [in] with its working."""

    height_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class Fit:
    """What is left above or beside the hood [in]: negative where it doesn't fit."""

    spare_in: float
    working: Working

    @property
    def fits(self) -> bool:
        """Whether the hood fits."""
        return reaches(self.spare_in, 0.0)


@dataclass(frozen=True, slots=True)
class KeepClear:
    """What the hood sweeps when it is lowered or drawn out for service: along, out and up [in], lowest, highest."""

    along_in: tuple[float, float]
    out_in: tuple[float, float]
    up_in: tuple[float, float]
    above_surface_in: float
    working: Working


def height_window(
    *, sheet_lowest_in: float | None, sheet_highest_in: float | None, range_lowest_in: float | None
) -> HeightWindow:
    """Between which heights above the cooking surface the hood may hang [in].

    sheet_lowest_in, sheet_highest_in: the hood maker's; where the sheet is silent, common practice stands in.
    range_lowest_in: what the range's own instructions ask. The stricter lowest one wins. Raises ValueError where
    the two makers leave nothing between them.
    """
    low_practice, high_practice = practice("hood_height_low"), practice("hood_height_high")
    lowest = low_practice.number if sheet_lowest_in is None else sheet_lowest_in
    lowest_from = "common practice" if sheet_lowest_in is None else "hood's maker"
    lowest_source = low_practice.source if sheet_lowest_in is None else _SHEET
    if range_lowest_in is not None and range_lowest_in > lowest:
        lowest, lowest_from, lowest_source = range_lowest_in, "range's maker", _SITE
    highest = high_practice.number if sheet_highest_in is None else sheet_highest_in
    highest_from = "common practice" if sheet_highest_in is None else "hood's maker"
    if lowest > highest:
        raise ValueError(
            f"{lowest_from} wants at least {format_length(lowest)}, {highest_from} at most {format_length(highest)}"
        )
    return HeightWindow(
        lowest,
        highest,
        lowest_from,
        highest_from,
        Working(
            name="height of the hood above the cooking surface",
            formula="not lower than hood and range allow, not higher than the hood allows",
            inputs=(
                Input("lowest", format_length(lowest), lowest_from),
                Input("highest", format_length(highest), highest_from),
            ),
            result=f"{format_length(lowest)} to {format_length(highest)}",
            source=lowest_source,
        ),
    )


def combustible_clearance(*, protected: bool, edition: Code) -> Height:
    """Least height [in] of combustible material above the cooking surface, IRC M1901.1.

    protected: by a metal hood at least as wide as the range. Raises LookupError for an unknown edition.
    """
    name = "combustible_above_range_protected" if protected else "combustible_above_range"
    found = rule(name, edition, _IRC)
    return Height(
        found.number,
        Working(
            name="combustible material above the cooking surface",
            formula=found.words,
            inputs=(rule_input(found),),
            result=format_length(found.number),
            source=found.source,
            note=found.note,
        ),
    )


def bracket_height(
    *, cooking_surface_in: float, clearance_in: float, hole_above_underside_in: float, floor_finish_in: float
) -> Height:
    """Height of a bracket hole above the floor as it is now [in].

    cooking_surface_in: above the finished floor. clearance_in: from it to the hood's underside.
    hole_above_underside_in: from there up to the hole. floor_finish_in: still to be laid, 0 where it lies.
    """
    height = cooking_surface_in + clearance_in + hole_above_underside_in + floor_finish_in
    return Height(
        height,
        Working(
            name="height of the bracket's hole above the floor as it is now",
            formula="cooking surface + clearance + hole above the hood's underside + floor finish still to come",
            inputs=(
                Input("cooking surface", format_length(cooking_surface_in), "job"),
                Input("clearance", format_length(clearance_in), "job"),
                Input("hole above the underside", format_length(hole_above_underside_in), "sheet"),
                Input("floor finish still to come", format_length(floor_finish_in), "job"),
            ),
            result=format_length(height),
            source=_SITE,
        ),
    )


def room_above(*, top_in: float, limit_in: float, limit_name: str) -> Fit:
    """What is left between the hood's top and what stands above it [in], after what lifting it in needs."""
    needed = practice("ceiling_clearance")
    spare = limit_in - top_in - needed.number
    return Fit(
        spare,
        Working(
            name=f"room under the {limit_name}",
            formula=f"{limit_name} − hood's top − room for lifting it onto the bracket",
            inputs=(
                Input(limit_name, format_length(limit_in), "job"),
                Input("hood's top", format_length(top_in), "plan"),
                Input("for lifting", format_length(needed.number), str(needed.source)),
            ),
            result=f"{format_length(spare)} to spare",
            source=needed.source,
        ),
    )


def room_beside(*, body_width_in: float, opening_width_in: float) -> Fit:
    """What is left between the cabinets beside the hood [in]."""
    spare = opening_width_in - body_width_in
    return Fit(
        spare,
        Working(
            name="room between the cabinets",
            formula="opening − hood's width",
            inputs=(
                Input("opening", format_length(opening_width_in), "job"),
                Input("hood's width", format_length(body_width_in), "sheet"),
            ),
            result=f"{format_length(spare)} to spare",
            source=_SITE,
        ),
    )


def box_room(
    body_in: tuple[float, float, float], space_in: tuple[float, float, float]
) -> tuple[float, float, float]:
    """What is left in width, height and depth [in] when a box stands upright in a space."""
    return (space_in[0] - body_in[0], space_in[1] - body_in[1], space_in[2] - body_in[2])


def keep_clear(
    *,
    centre_in: float,
    body_width_in: float,
    body_height_in: float,
    body_depth_in: float,
    underside_in: float,
    cooking_surface_in: float,
    lowered_in: float,
    drawn_out_in: float,
) -> KeepClear:
    """What the hood sweeps between its place and its service position [in], and how far that is above the range.

    underside_in, cooking_surface_in: above the floor. lowered_in, drawn_out_in: how far it comes.
    """
    low = underside_in - lowered_in
    above = low - cooking_surface_in
    half = body_width_in / 2
    return KeepClear(
        (centre_in - half, centre_in + half),
        (0.0, body_depth_in + drawn_out_in),
        (low, underside_in + body_height_in),
        above,
        Working(
            name="service position above the cooking surface",
            formula="hood's underside − how far it is lowered − cooking surface",
            inputs=(
                Input("underside", format_length(underside_in), "plan"),
                Input("lowered", format_length(lowered_in), "sheet"),
                Input("drawn out", format_length(drawn_out_in), "sheet"),
                Input("cooking surface", format_length(cooking_surface_in), "job"),
            ),
            result=format_length(above),
            source=Source("sheet's service position, site's measurements", Confidence.SHEET),
        ),
    )
