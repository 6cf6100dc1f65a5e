"""What a hood's weight asks of each fastener of its bracket, and how much of what they hold is used."""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.answers import reaches, resting_on
from schedules.mounting.fasteners import Held, combined_value
from schedules.working import Confidence, Input, Source, Working

_STATICS = Source("statics: rigid plate turning about its lower edge", Confidence.TWO_TEXTS)


@dataclass(frozen=True, slots=True)
class Anchor:
    """One fastener's place [in]: across from the hood's centre line, above the edge on which hood or plate bears."""

    across_in: float
    above_in: float


@dataclass(frozen=True, slots=True)
class Demand:
    """What one fastener gets [lb]: straight out of the wall, down and sideways along it."""

    pull_lb: float
    down_lb: float
    sideways_lb: float

    @property
    def shear_lb(self) -> float:
        """Both directions along the wall together [lb]."""
        return math.hypot(self.down_lb, self.sideways_lb)

    @property
    def resultant_lb(self) -> float:
        """Pull and shear together [lb]."""
        return math.hypot(self.pull_lb, self.shear_lb)


@dataclass(frozen=True, slots=True)
class Use:
    """How much of what the worst fastener holds is used; above 1 it is too much. infinite where it holds nothing."""

    share: float
    worst: int
    demands: tuple[Demand, ...]
    working: Working

    @property
    def holds(self) -> bool:
        """Whether every fastener holds its load."""
        return reaches(1.0, self.share)


def bracket_demand(
    weight_lb: float, lever_in: float, anchors: tuple[Anchor, ...], *, off_centre_in: float = 0.0
) -> tuple[Demand, ...]:
    """What each fastener gets of a weight [lb] that hangs lever_in [in] out from the wall.

    The plate is rigid and turns about the edge it bears on: pull grows with height above it. Weight is shared
    alike; where it hangs beside the fasteners' middle (off_centre_in [in] from the hood's centre line), the turning
    moment is added by the elastic method. Raises ValueError without weight, without a fastener above the edge, or
    where a single fastener has the weight beside it.
    """
    if weight_lb <= 0 or lever_in < 0:
        raise ValueError(f"weight above 0 and lever 0 or more, not {weight_lb:g} lb and {lever_in:g} in")
    heights = math.fsum(anchor.above_in**2 for anchor in anchors)
    if not anchors or heights == 0 or any(anchor.above_in < 0 for anchor in anchors):
        raise ValueError("at least one fastener above the edge on which the plate bears, and none below it")
    count = len(anchors)
    middle = math.fsum(anchor.across_in for anchor in anchors) / count
    level = math.fsum(anchor.above_in for anchor in anchors) / count
    polar = math.fsum((item.across_in - middle) ** 2 + (item.above_in - level) ** 2 for item in anchors)
    turning = weight_lb * (off_centre_in - middle)
    if polar == 0 and not math.isclose(off_centre_in, middle, abs_tol=1e-9):
        raise ValueError("one fastener, or several on one spot, can't hold a weight that hangs beside it")
    spin = turning / polar if polar else 0.0
    return tuple(
        Demand(
            pull_lb=weight_lb * lever_in * anchor.above_in / heights,
            down_lb=weight_lb / count + spin * (anchor.across_in - middle),
            sideways_lb=spin * (anchor.above_in - level),
        )
        for anchor in anchors
    )


def bracket_use(
    weight_lb: float,
    lever_in: float,
    fastened: tuple[tuple[Anchor, Held], ...],
    *,
    load_factor: float = 1.0,
    off_centre_in: float = 0.0,
) -> Use:
    """How much of what the bracket's fasteners hold is used by load_factor times the weight [lb].

    Pull and shear are joined at the angle of each fastener's load. Raises as `bracket_demand`, and ValueError for
    a factor below 1.
    """
    if load_factor < 1:
        raise ValueError(f"the load factor is 1 or more, not {load_factor:g}")
    anchors = tuple(anchor for anchor, _ in fastened)
    demands = bracket_demand(weight_lb * load_factor, lever_in, anchors, off_centre_in=off_centre_in)
    shares = tuple(_share(demand, held) for demand, (_, held) in zip(demands, fastened, strict=True))
    worst = max(range(len(shares)), key=lambda place: shares[place])
    demand, held = demands[worst], fastened[worst][1]
    percent = "more than it holds at all" if math.isinf(shares[worst]) else f"{100 * shares[worst]:.0f} %"
    return Use(
        shares[worst],
        worst,
        demands,
        Working(
            name=f"use of the bracket's fasteners at {load_factor:g} times the weight",
            formula="pull = weight · lever · height / sum of heights²; shear = weight / number; "
            "resultant against the value at its angle, the worst fastener",
            inputs=(
                Input("weight", f"{weight_lb:g} lb x {load_factor:g}"),
                Input("lever from the wall", f"{lever_in:g} in"),
                Input("fasteners", str(len(anchors))),
                Input("worst one, pull", f"{demand.pull_lb:.1f} lb of {held.pull_lb:.0f} lb"),
                Input("worst one, shear", f"{demand.shear_lb:.1f} lb of {held.shear_lb:.0f} lb"),
                Input("worst one, resultant", f"{demand.resultant_lb:.1f} lb"),
            ),
            result=percent,
            source=resting_on("statics, NDS 12.4.1", _STATICS, held.working.source),
            note="the joined value is from memory",
            steps=(held.working,),
        ),
    )


def _share(demand: Demand, held: Held) -> float:
    value = combined_value(
        held.pull_lb, held.shear_lb, pull_load_lb=demand.pull_lb, shear_load_lb=demand.shear_lb
    )
    return demand.resultant_lb / value if value else math.inf
