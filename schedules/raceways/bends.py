"""How tight may this raceway or cable bend, and how far between two pull points?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.answers import reaches, resting_on, rule_input
from schedules.tables import load, rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.quantities.sizes import TradeSize
    from schedules.tables.edition import Code

_RADII = "nec_ch9_table2_bend_radius"
_KINDS = "raceway_kinds"
_COLUMNS = {"one shot": "one_shot_radius_in", "other": "other_bends_radius_in"}


@dataclass(frozen=True, slots=True)
class Bend:
    """One bend of a raceway: angle [degrees] and radius to the centreline [in], None for the least allowed.

    pull_box: a box to pull from stands right after it.
    """

    degrees: float
    radius_in: float | None = None
    pull_box: bool = False


@dataclass(frozen=True, slots=True)
class BendRadius:
    """The least radius of a bend [in]."""

    radius_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class BendTotal:
    """All bends between two pull points together [degrees], and whether that is allowed."""

    degrees: float
    limit_degrees: float
    allowed: bool
    working: Working


def least_bend_radius(raceway: str, trade_size: TradeSize | str, *, edition: Code) -> BendRadius:
    """Least radius of a raceway bend to its centreline [in], NEC Chapter 9 Table 2.

    Rigid raceways take the column of one-shot and full-shoe benders, flexible ones the other.
    Raises LookupError for an unknown raceway or a size not printed.
    """
    kinds, radii = load(_KINDS), load(_RADII)
    kind = kinds.row(raceway)
    row = radii.row(str(trade_size))
    column = _COLUMNS[kind.text("bend_column")]
    radius = row.number(column)
    printed = radii.source(row, column, edition)
    return BendRadius(
        radius,
        Working(
            name=f"least bend radius of {raceway} {trade_size}",
            formula="as printed for the trade size, in the column of how the raceway is bent",
            inputs=(
                Input("raceway", f"{kind.text('full_name')}, trade size {trade_size}"),
                Input(
                    "column",
                    f"{kind.text('bend_column')} bends",
                    str(kinds.source(kind, "bend_column", edition)),
                ),
            ),
            result=f"{radius:g} in",
            source=resting_on(printed.citation, printed, kinds.source(kind, "bend_column", edition)),
            note=radii.edition_note(edition),
        ),
    )


def least_cable_bend(major_in: float, *, edition: Code) -> BendRadius:
    """Least radius of a bend in NM cable to its inner edge [in], from its larger outside width [in], NEC 334.24.

    Raises ValueError for a width that is not above zero.
    """
    if major_in <= 0:
        raise ValueError(f"a cable's width must be above 0 in, not {major_in:g}")
    times = rule("nm_bend", edition)
    radius = times.number * major_in
    return BendRadius(
        radius,
        Working(
            name="least bend radius of NM cable",
            formula="larger outside width x the published factor",
            inputs=(Input("larger outside width", f"{major_in:g} in"), rule_input(times)),
            result=f"{radius:g} in to the inner edge",
            source=times.source,
            note=times.note,
        ),
    )


def between_pulls(bends: Sequence[Bend]) -> tuple[tuple[Bend, ...], ...]:
    """The bends of each stretch between two pull points: from end to box, from box to box, from box to end."""
    stretches: list[tuple[Bend, ...]] = [()]
    for bend in bends:
        stretches[-1] += (bend,)
        if bend.pull_box:
            stretches.append(())
    return tuple(stretches)


def with_pull_boxes(bends: Sequence[Bend], *, edition: Code) -> tuple[Bend, ...]:
    """The same bends with the fewest pull boxes added that keep each stretch within the limit, as late as can be."""
    limit = rule("bends_between_pulls", edition).number
    boxed: list[Bend] = []
    total = 0.0
    for bend in bends:
        if boxed and not reaches(limit, total + bend.degrees):
            boxed[-1] = replace(boxed[-1], pull_box=True)
            total = 0.0
        boxed.append(bend)
        total = 0.0 if bend.pull_box else total + bend.degrees
    return tuple(boxed)


def bend_total(degrees: Sequence[float], *, edition: Code) -> BendTotal:
    """All bends between two pull points together [degrees], against the published limit.

    Raises ValueError for an angle that is negative.
    """
    if any(angle < 0 for angle in degrees):
        raise ValueError(f"a bend's angle can't be negative: {', '.join(f'{angle:g}' for angle in degrees)}")
    limit = rule("bends_between_pulls", edition)
    total = sum(degrees)
    allowed = reaches(limit.number, total)
    return BendTotal(
        total,
        limit.number,
        allowed,
        Working(
            name="bends between pull points",
            formula="sum of the angles, not above the limit",
            inputs=(
                Input("bends", ", ".join(f"{angle:g}" for angle in degrees) or "none", "degrees"),
                rule_input(limit),
            ),
            result=f"{total:g} degrees, {'allowed' if allowed else 'put a pull point between'}",
            source=limit.source,
            note=limit.note,
        ),
    )
