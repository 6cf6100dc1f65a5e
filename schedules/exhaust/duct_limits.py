"""Is the duct short enough by the code's table, and does the air in it run at a fit speed?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.answers import resting_on, rule_input
from schedules.practice import practice
from schedules.tables import load, rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables import Code

_LENGTHS = "irc_m1504_2_duct_length"
_IRC = "irc_mechanical_rules"
_IN_PER_FT = 12
_SQ_IN_PER_SQ_FT = 144
_HAIR_IN = 1e-6


class Speed(StrEnum):
    """How fast the air in a duct runs, by what the trade says of it."""

    SLOW = "slow"
    COMFORTABLE = "comfortable"
    BRISK = "brisk"
    LOUD = "loud"


@dataclass(frozen=True, slots=True)
class CodeLength:
    """The longest duct that the code's table allows [in], infinite where it sets no limit, 0 where it allows none."""

    length_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class DuctSize:
    """The round duct to use [in]."""

    diameter_in: float
    working: Working


def round_duct(airflow_cfm: float, collar_sq_in: float) -> DuctSize:
    """The smallest round duct in whole inches that is no narrower than the collar and where the air runs quietly [in].

    collar_sq_in: the collar's free area [sq in]. Raises ValueError for a figure that is not above zero.
    """
    if airflow_cfm <= 0 or collar_sq_in <= 0:
        raise ValueError(
            f"airflow and collar are above 0, not {airflow_cfm:g} cfm and {collar_sq_in:g} sq in"
        )
    quiet = practice("duct_speed_comfortable")
    for_speed = airflow_cfm / quiet.number * _SQ_IN_PER_SQ_FT
    area = max(collar_sq_in, for_speed)
    # A hair off, so that a collar of 8 in asks for an 8 in duct.
    diameter = float(math.ceil(math.sqrt(4 * area / math.pi) - _HAIR_IN))
    return DuctSize(
        diameter,
        Working(
            name="round duct for collar and airflow",
            formula="whole inches, no narrower than the collar, the air no faster than is quiet",
            inputs=(
                Input("airflow", f"{airflow_cfm:.0f} cfm"),
                Input("collar", f"{collar_sq_in:.1f} sq in", "sheet"),
                Input("area for that speed", f"{for_speed:.1f} sq in"),
                rule_input(quiet),
            ),
            result=f"{diameter:g} in, decided by the {'collar' if collar_sq_in >= for_speed else 'speed'}",
            source=quiet.source,
        ),
    )


def code_duct_length(
    duct: str, diameter_in: float, airflow_cfm: float, *, elbows: int, edition: Code
) -> CodeLength:
    """Longest exhaust duct by the code's table [in], IRC M1504.2, less what elbows take off.

    duct: `smooth` or `flexible`. diameter_in: rounded down to the table's [in]. airflow_cfm: the fan's at the table's
    pressure, rounded up to the table's. Raises LookupError beyond the table, which ends at 300 cfm, or for an edition
    without it.
    """
    table = load(_LENGTHS)
    sizes = sorted({row.number("diameter_in") for row in table.where(duct=duct)})
    ratings = sorted({row.number("airflow_cfm") for row in table.rows})
    size = max((each for each in sizes if each <= diameter_in), default=None)
    rating = min((each for each in ratings if each >= airflow_cfm), default=None)
    if size is None or rating is None:
        raise LookupError(f"{table.title}: no row for {duct} {diameter_in:g} in at {airflow_cfm:g} cfm")
    row = table.row(duct, size, rating)
    elbow = rule("duct_elbow_takes_off", edition, _IRC)
    printed = row.text("length")
    feet = {"no limit": math.inf, "not allowed": 0.0}.get(printed)
    if feet is None:
        feet = max(0.0, float(printed) - elbows * elbow.number)
    source = table.source(row, "length", str(edition))
    return CodeLength(
        feet * _IN_PER_FT,
        Working(
            name="longest duct by the code's table",
            formula="table by duct, diameter and airflow, less its figure for each elbow",
            inputs=(
                Input("row", f"{duct}, {size:g} in, {rating:g} cfm", str(source)),
                Input("printed", printed if feet in (0.0, math.inf) else f"{printed} ft"),
                Input("elbows", str(elbows)),
                rule_input(elbow),
            ),
            result="no limit" if math.isinf(feet) else f"{feet:g} ft",
            source=resting_on(source.citation, source, elbow.source),
            note="the maker's own limit or a measured airflow may stand in its place",
        ),
    )


def speed_of(velocity_fpm: float) -> Speed:
    """What the trade says of air at this speed in a hood duct [fpm]."""
    if velocity_fpm < practice("duct_speed_low").number:
        return Speed.SLOW
    if velocity_fpm <= practice("duct_speed_comfortable").number:
        return Speed.COMFORTABLE
    return Speed.BRISK if velocity_fpm <= practice("duct_speed_loud").number else Speed.LOUD
