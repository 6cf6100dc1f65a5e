"""May this many people lift the hood onto its bracket by hand?"""

from __future__ import annotations

from dataclasses import dataclass

from schedules.answers import reaches
from schedules.tables import load
from schedules.working import Confidence, Input, Source, Working

_FREQUENCIES = "niosh_frequency"
_GRIPS = "niosh_coupling"

# Limits and constants of the equation, NIOSH 94-110, section 1.3 [lb, in, degrees].
_LOAD_CONSTANT_LB = 51.0
_LEAST_REACH_IN, _MOST_REACH_IN = 10.0, 25.0
_BEST_HEIGHT_IN, _MOST_HEIGHT_IN = 30.0, 70.0
_LEAST_TRAVEL_IN, _MOST_TRAVEL_IN = 10.0, 70.0
_MOST_TWIST_DEG = 135.0
_EQUATION = Source("NIOSH 94-110 (revised 2021) section 1.3", Confidence.TWO_TEXTS)


@dataclass(frozen=True, slots=True)
class Limit:
    """Recommended weight limit at one end of a lift [lb] with its six multipliers, 0 where no load is allowed."""

    limit_lb: float
    multipliers: tuple[tuple[str, float], ...]
    working: Working


@dataclass(frozen=True, slots=True)
class Lift:
    """A shared lift: each person's part [lb], the lower limit of both ends [lb], load over limit; None at no limit."""

    share_lb: float
    start: Limit
    end: Limit
    index: float | None
    working: Working

    @property
    def within(self) -> bool:
        """Whether the lifting index is 1 or less."""
        return self.index is not None and reaches(1.0, self.index)


def weight_limit(
    *,
    reach_in: float,
    height_in: float,
    travel_in: float,
    twist_deg: float,
    lifts_per_min: float,
    hours: str,
    grip: str,
) -> Limit:
    """Recommended weight limit of one person's two-handed lift [lb], NIOSH 94-110.

    reach_in: hands out from the ankles. height_in: hands above the floor. travel_in: between start and end.
    hours: `up to 1`, `1 to 2` or `2 to 8`. grip: `good`, `fair` or `poor`. Less than the least reach or travel counts
    as that; beyond a limit nothing may be lifted. Raises ValueError for a negative figure, LookupError for another
    word or a frequency between or beyond the table's.
    """
    if min(reach_in, height_in, travel_in, twist_deg, lifts_per_min) < 0:
        raise ValueError("reach, height, travel, twist and frequency are 0 or more")
    frequencies, grips = load(_FREQUENCIES), load(_GRIPS)
    often = frequencies.row(hours, max(0.2, lifts_per_min))
    held = grips.row(grip, "below 30 in" if height_in < _BEST_HEIGHT_IN else "30 in and above")
    reach, travel = max(reach_in, _LEAST_REACH_IN), max(travel_in, _LEAST_TRAVEL_IN)
    multipliers = (
        ("HM", 10 / reach if reach <= _MOST_REACH_IN else 0.0),
        ("VM", 1 - 0.0075 * abs(height_in - _BEST_HEIGHT_IN) if height_in <= _MOST_HEIGHT_IN else 0.0),
        ("DM", 0.82 + 1.8 / travel if travel <= _MOST_TRAVEL_IN else 0.0),
        ("AM", 1 - 0.0032 * twist_deg if twist_deg <= _MOST_TWIST_DEG else 0.0),
        ("FM", often.number("multiplier")),
        ("CM", held.number("multiplier")),
    )
    limit = _LOAD_CONSTANT_LB
    for _, value in multipliers:
        limit *= value
    return Limit(
        limit,
        multipliers,
        Working(
            name="recommended weight limit",
            formula="51 lb x 10/H x (1 − 0.0075·|V − 30|) x (0.82 + 1.8/D) x (1 − 0.0032·A) x FM x CM",
            inputs=(
                Input("hands out from the ankles, H", f"{reach_in:g} in"),
                Input("hands above the floor, V", f"{height_in:g} in"),
                Input("travel, D", f"{travel_in:g} in"),
                Input("twist, A", f"{twist_deg:g} degrees"),
                Input("FM", f"{often.number('multiplier'):g}", str(frequencies.source(often))),
                Input("CM", f"{held.number('multiplier'):g}", str(grips.source(held))),
                *(Input(name, f"{value:.3f}") for name, value in multipliers[:4]),
            ),
            result=f"{limit:.1f} lb",
            source=_EQUATION,
        ),
    )


def shared_lift(
    weight_lb: float,
    people: int,
    *,
    start_height_in: float,
    end_height_in: float,
    start_reach_in: float,
    end_reach_in: float,
) -> Lift:
    """Screen of a rare lift by several people at once: each takes an equal part [lb].

    Fair grip at the start, poor one at the bracket, no twist. NIOSH does not cover shared lifts, so this is a screen
    and not the method. Raises ValueError without weight or people, or for a negative figure.
    """
    if weight_lb <= 0 or people < 1:
        raise ValueError(f"weight above 0 and at least one person, not {weight_lb:g} lb and {people}")
    share = weight_lb / people
    travel = abs(end_height_in - start_height_in)
    start, end = (
        weight_limit(
            reach_in=reach,
            height_in=height,
            travel_in=travel,
            twist_deg=0.0,
            lifts_per_min=0.2,
            hours="up to 1",
            grip=grip,
        )
        for reach, height, grip in (
            (start_reach_in, start_height_in, "fair"),
            (end_reach_in, end_height_in, "poor"),
        )
    )
    lower = min(start.limit_lb, end.limit_lb)
    index = share / lower if lower > 0 else None
    return Lift(
        share,
        start,
        end,
        index,
        Working(
            name=f"lifting index with {people} {'person' if people == 1 else 'people'}",
            formula="part of the weight over the lower limit of start and end",
            inputs=(
                Input("weight", f"{weight_lb:g} lb"),
                Input("each person's part", f"{share:.1f} lb"),
                Input("limit at the start", f"{start.limit_lb:.1f} lb"),
                Input("limit at the bracket", f"{end.limit_lb:.1f} lb"),
            ),
            result="nothing may be lifted so" if index is None else f"{index:.2f}",
            source=_EQUATION,
            note="a screen: the method covers one person, not a shared lift",
            steps=(start.working, end.working),
        ),
    )
