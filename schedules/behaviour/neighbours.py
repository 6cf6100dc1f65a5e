"""Which terminals stand side by side, so that a strand of wire can join them?"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.connections.points import Point

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.sheet.hardware import Device


def neighbours(derived: Derived, device: Device) -> Iterator[tuple[Point, Point]]:
    """Terminals side by side on a device that are different nets, at least one with a field wire on it."""
    nets, landed = derived.network.netlist.nets, derived.connections.landed
    for one, two in itertools.pairwise(device.terminal):
        a, b = Point(device.tag, one.id), Point(device.tag, two.id)
        if nets[a] != nets[b] and one.compartment == two.compartment and (landed(a) or landed(b)):
            yield a, b
