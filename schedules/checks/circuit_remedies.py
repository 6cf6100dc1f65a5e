"""What can be done about a circuit's voltage drop, as edits of the job that can be planned again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.circuits.circuit_drops import drop_on
from schedules.findings import Edit, Remedy
from schedules.tables.conductors import sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.circuits.circuit_drops import CircuitDrop
    from schedules.derived import Derived
    from schedules.quantities.sizes import WireSize


def drop_remedies(derived: Derived, circuit: str) -> Iterator[Remedy]:
    """The thinnest conductors, for every field cable on the way, that keep the drop within the code's advice."""
    planned = next((item for item in derived.branches if item.circuit.tag == circuit), None)
    if planned is None or planned.drop is None:
        return
    makes = {cable.tag: cable.make for cable in derived.selection.cables}
    field = {leg.name for leg in planned.drop.legs if makes[leg.name] == "field"}
    thickest = max(leg.size for leg in planned.drop.legs)
    for size in sizes(derived.job.adopted):
        if size > thickest and _keeps_to_advice(derived, planned.drop, field, size):
            tags = sorted(field, key=lambda tag: int(tag[1:]))
            yield Remedy(
                f"buy {', '.join(tags)} with {size}, and a ground as thick",
                tuple(Edit("run", tag, key, str(size)) for tag in tags for key in ("size", "ground")),
            )
            return


def _keeps_to_advice(derived: Derived, drop: CircuitDrop, field: set[str], size: WireSize) -> bool:
    legs = tuple(replace(leg, size=size) if leg.name in field else leg for leg in drop.legs)
    try:
        return drop_on(derived.job, derived.connections, drop.load, legs).advice.holds
    except LookupError:
        # Thicker than the tables of impedance go for this wiring.
        return False
