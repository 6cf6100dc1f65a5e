"""What disconnects an appliance or the hood from its supply, so that nobody is fed while working on it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Verdict, resting_on, rule_input
from schedules.tables import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.job.electrical import Means
    from schedules.tables.edition import Code

_IN_PER_FT = 12


@dataclass(frozen=True, slots=True)
class Sight:
    """How the panel lies to the appliance: in the same room, and how far off [in], None where not measured."""

    same_room: bool
    distance_in: float | None


def by_plug(*, reachable: bool, range_plug: bool, edition: Code) -> Verdict:
    """Whether plug and receptacle disconnect, 422.33. range_plug: behind a range, reached by taking out its drawer."""
    plug = rule("disconnect_range_plug" if range_plug else "disconnect_plug", edition)
    return Verdict(
        reachable,
        () if reachable else ("the plug can't be reached",),
        Working(
            name="disconnecting means",
            formula="a plug that a hand can reach",
            inputs=(Input("plug can be reached", "yes" if reachable else "no", "job"), rule_input(plug)),
            result="plug and receptacle" if reachable else "none",
            source=plug.source,
            note=plug.note,
        ),
    )


def wired_in(*, load_va: float, motor: bool, means: Means, sight: Sight, edition: Code) -> Verdict:
    """Whether this disconnects something that is wired in, 422.31.

    load_va: what it takes [VA]. motor: it is driven by one. In sight: seen, and no further off than Article 100 has it.
    Raises ValueError for a negative load.
    """
    if load_va < 0:
        raise ValueError(f"a load is 0 or more, not {load_va:g} VA")
    small, within = rule("disconnect_small", edition), rule("in_sight_within", edition)
    which = "disconnect_small" if load_va <= small.number else "disconnect_large"
    governing = rule("disconnect_motor" if motor and which == "disconnect_large" else which, edition)
    breaches = []
    if means == "breaker in sight":
        if not sight.same_room:
            breaches.append("the panel stands in another room")
        elif sight.distance_in is not None and sight.distance_in > within.number * _IN_PER_FT:
            breaches.append(
                f"the panel is {sight.distance_in / _IN_PER_FT:.0f} ft off, {within.number:g} ft is in sight"
            )
    return Verdict(
        not breaches,
        tuple(breaches),
        Working(
            name="disconnecting means",
            formula="a breaker that locks open, or a breaker or switch in sight",
            inputs=(
                Input("load", f"{load_va:.0f} VA"),
                Input("motor", "yes" if motor else "no"),
                Input("means", means, "job"),
                rule_input(governing),
                rule_input(within),
            ),
            result=means if not breaches else "; ".join(breaches),
            source=resting_on(governing.source.citation, governing.source, within.source),
            note=governing.note,
        ),
    )
