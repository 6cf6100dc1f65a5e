"""What does each contact switch, and may it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.fan_contact import fan_contact
from schedules.circuits.feeds import current_of
from schedules.circuits.wire_paths import contacts_before
from schedules.sheet.hardware import Coil, Contact, Load

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.circuits.feeds import CircuitNeed
    from schedules.circuits.wire_paths import Joins
    from schedules.connections.graph import Connections
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class SwitchedLoad:
    """One contact and the current that it may have to switch [A]: of every load behind it on its circuit."""

    contact: str
    circuit: str
    loads: tuple[str, ...]
    current_a: float
    rated_a: float | None


@dataclass(frozen=True, slots=True)
class SwitchedMotor:
    """One contact before one motor. verdict: None where the sheet doesn't say what the contact is rated for."""

    contact: str
    motor: str
    circuit: str
    by_others: bool
    full_load_a: float
    verdict: Verdict | None


def switched_loads(
    needs: tuple[CircuitNeed, ...], connections: Connections, joins: Joins
) -> tuple[SwitchedLoad, ...]:
    """Every contact of the equipment on the way to a load, parallel ways counted one by one."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for need in needs:
        for load, way in contacts_before(need.circuit, need.feeds, connections, joins):
            for contact in way:
                found.setdefault((contact, need.circuit.tag), {})[load] = None
    return tuple(
        SwitchedLoad(
            contact,
            circuit,
            tuple(loads),
            sum(_current(connections, load) for load in loads),
            _rated(connections, contact),
        )
        for (contact, circuit), loads in found.items()
    )


def switched_motors(
    switched: tuple[SwitchedLoad, ...], connections: Connections, by_others: frozenset[str], edition: Code
) -> tuple[SwitchedMotor, ...]:
    """Every contact before a motor, against the marking that holds for motors. by_others: others' enclosures."""
    return tuple(_motors(switched, connections, by_others, edition))


def _motors(
    switched: tuple[SwitchedLoad, ...], connections: Connections, by_others: frozenset[str], edition: Code
) -> Iterator[SwitchedMotor]:
    for item in switched:
        contact = connections.inside[item.contact].spec
        for key in item.loads:
            load = connections.inside[key]
            if not isinstance(load.spec, Load) or not load.spec.motor or not isinstance(contact, Contact):
                continue
            amperes = current_of(load.spec)
            foreign = connections.landings[load.a].enclosure in by_others
            verdict = _verdict(contact, load.spec, amperes, edition)
            yield SwitchedMotor(item.contact, key, item.circuit, foreign, amperes, verdict)


def _verdict(contact: Contact, motor: Load, amperes: float, edition: Code) -> Verdict | None:
    if contact.rated is None or contact.rated_for is None or contact.rated_voltage is None:
        return None
    return fan_contact(
        full_load_a=amperes,
        contact_a=contact.rated,
        rated_for=contact.rated_for,
        fan_v=motor.rated,
        contact_v=contact.rated_voltage,
        edition=edition,
    )


def _current(connections: Connections, load: str) -> float:
    spec = connections.inside[load].spec
    return current_of(spec) if isinstance(spec, Load | Coil) else 0.0


def _rated(connections: Connections, contact: str) -> float | None:
    spec = connections.inside[contact].spec
    return spec.rated if isinstance(spec, Contact) else None
