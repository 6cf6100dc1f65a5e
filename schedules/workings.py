"""Every number of a plan that can be explained, by the thing it belongs to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.plan import Plan
    from schedules.working import Working


@dataclass(frozen=True, slots=True)
class Explained:
    """One derived number. subject: the tag of the thing that it belongs to, e.g. `W4`, `R1`, `Q1`."""

    subject: str
    working: Working


def workings(plan: Plan) -> tuple[Explained, ...]:
    """Every working of a plan, in the order of its derivation."""
    return tuple(_all(plan))


def workings_of(plan: Plan, item: str) -> tuple[Explained, ...]:
    """The workings of one thing, by its tag, or the one of this name; upper and lower case are one."""
    wanted = item.casefold().strip()
    return tuple(
        found
        for found in workings(plan)
        if wanted in (found.subject.casefold(), found.working.name.casefold())
    )


def _all(plan: Plan) -> Iterator[Explained]:
    derived = plan.derived
    for length in derived.lengths:
        if length.working is not None:
            yield Explained(length.cable, length.working)
    for coil in derived.coils:
        yield Explained(coil.cable, coil.working)
    for raceway in derived.raceways:
        if raceway.sized is not None:
            yield Explained(raceway.raceway, raceway.sized.working)
    for entry in derived.entries:
        if entry.passage is not None:
            yield Explained(entry.cable, entry.passage.working)
    yield from _of_circuits(derived)
    yield from _of_the_building(derived)
    for subject, found in (
        ("hood", derived.hanging),
        ("duct", derived.exhaust),
        ("air", derived.house_air),
        ("gas", derived.gas_supply),
    ):
        if found is not None:
            yield from (Explained(subject, working) for working in found.workings)


def _of_circuits(derived: Derived) -> Iterator[Explained]:
    """Loads, conductors, drops, protection, disconnects; what the kitchen counts as; contacts, power-limited wiring."""
    for planned in derived.branches:
        for working in planned.workings:
            yield Explained(planned.circuit.tag, working)
        for wires in planned.wires:
            yield Explained(wires.cable, wires.working)
    for disconnect in derived.disconnects:
        if disconnect.verdict is not None:
            yield Explained(disconnect.circuit.tag, disconnect.verdict.working)
    if derived.kitchen is not None:
        panel = next((item.tag for item in derived.selection.enclosures if item.kind == "panel"), "")
        yield Explained(panel, derived.kitchen.working)
    for motor in derived.motors:
        if motor.verdict is not None:
            yield Explained(motor.contact, motor.verdict.working)
    for cable in derived.limited:
        yield Explained(cable.cable, cable.by_class.working)
        yield Explained(cable.cable, cable.in_the_open.working)


def _of_the_building(derived: Derived) -> Iterator[Explained]:
    for box in derived.boxes:
        for working in box.workings:
            yield Explained(box.enclosure.tag, working)
    for framing in derived.framing:
        for working in framing.workings:
            yield Explained(framing.framing.tag, working)
