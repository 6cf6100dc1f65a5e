"""Where the wires of a supervised loop lead from its end-of-line resistor."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.points import Inside, Point
    from schedules.derived import Derived


def far_ends(derived: Derived, resistor: Inside) -> Iterator[tuple[Point, Point]]:
    """Pairs of terminals in one other enclosure that conductors lead to from the resistor's two nets."""
    landings, nets = derived.connections.landings, derived.network.netlist.nets
    if nets[resistor.a] == nets[resistor.b]:
        return
    ends: list[list[Point]] = [
        [
            there
            for conductor in derived.connections.conductors.values()
            for here, there in ((conductor.a, conductor.b), (conductor.b, conductor.a))
            if nets[here] == nets[side]
        ]
        for side in (resistor.a, resistor.b)
    ]
    home = landings[resistor.a].enclosure
    for a in ends[0]:
        for b in ends[1]:
            if landings[a].enclosure == landings[b].enclosure != home and nets[a] != nets[b]:
                yield a, b
