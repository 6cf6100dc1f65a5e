"""Which class does each signal circuit have, by what feeds it, and how far does it keep from power?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.power_limited import separation, wiring_class
from schedules.circuits.wire_paths import walk
from schedules.connections.panel import LEG_VOLTS
from schedules.sheet.hardware import POWER_LIMITED, Coil, Contact, Load, Supply

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.circuits.installation import Installation
    from schedules.circuits.power_limited import Separation, WiringClass
    from schedules.circuits.switched_loads import SwitchedLoad
    from schedules.connections.graph import Connections
    from schedules.connections.points import Point
    from schedules.sheet.sheet import Sheet
    from schedules.sheet.wiring import Cable


@dataclass(frozen=True, slots=True)
class LimitedCable:
    """One power-limited cable.

    supplies: keys of what feeds it, as far as the sheet shows it. listed: all of them are listed for its class;
    mislisted: those that are listed for another. safety: what it carries releases agent or shuts off heat.
    by_class: the class that follows from its source. in_the_open: how far it keeps from power outside raceways.
    """

    cable: str
    circuit_class: str
    supplies: tuple[str, ...]
    listed: bool
    mislisted: tuple[str, ...]
    safety: bool
    by_class: WiringClass
    in_the_open: Separation


def limited_cables(
    installed: Installation, switched: Sequence[SwitchedLoad], sheet: Sheet
) -> tuple[LimitedCable, ...]:
    """Follow every power-limited cable to the supplies that feed it and to what hangs on it alone."""
    critical = _critical_signals(installed.connections, switched, sheet)
    return tuple(
        _limited(installed, cable, critical, sheet)
        for tag, cable in installed.cables.items()
        if cable.circuit_class in POWER_LIMITED and tag in installed.conductors
    )


def _limited(installed: Installation, cable: Cable, critical: frozenset[str], sheet: Sheet) -> LimitedCable:
    edition, connections = installed.edition, installed.connections
    ends = [end for conductor in installed.conductors[cable.tag] for end in (conductor.a, conductor.b)]
    reached = walk(ends, installed.joins, lambda _key: False)
    supplies = {
        key: inside.spec
        for key, inside in connections.inside.items()
        if isinstance(inside.spec, Supply) and (inside.a in reached or inside.b in reached)
    }
    listings = {spec.listed for spec in supplies.values()}
    alarm = cable.circuit_class == "fire-alarm"
    safety = _is_safety_control(installed, ends, critical, sheet)
    return LimitedCable(
        cable=cable.tag,
        circuit_class=cable.circuit_class,
        supplies=tuple(supplies),
        listed=listings == {cable.circuit_class},
        mislisted=tuple(
            key for key, spec in supplies.items() if spec.listed not in (None, cable.circuit_class)
        ),
        safety=safety,
        by_class=wiring_class(
            "fire alarm panel" if alarm else "listed class 2 or 3 supply",
            safety_control=safety,
            edition=edition,
        ),
        in_the_open=separation(
            "open run", alarm=alarm, barrier=False, to_ground_v=LEG_VOLTS, own_jacket=True, edition=edition
        ),
    )


def _critical_signals(
    connections: Connections, switched: Sequence[SwitchedLoad], sheet: Sheet
) -> frozenset[str]:
    """Signals of a release, and those by which contacts before cooking loads move."""
    cooking = {effect.id for effect in sheet.effect if effect.kind == "cooking"}
    signals = {signal.id for signal in sheet.signal if signal.fire}
    for item in switched:
        contact = connections.inside[item.contact].spec
        effects = {
            spec.effect for load in item.loads if isinstance(spec := connections.inside[load].spec, Load)
        }
        if isinstance(contact, Contact) and effects & cooking:
            signals |= {*contact.operates.all, *contact.operates.any, *contact.operates.none}
    return frozenset(signals)


def _is_safety_control(
    installed: Installation, ends: Sequence[Point], critical: frozenset[str], sheet: Sheet
) -> bool:
    """Whether a wire of the cable that isn't just its supply's goes to what releases agent or shuts off heat."""
    inside = installed.connections.inside
    grave = {effect.id for effect in sheet.effect if effect.kind in ("cooking", "release")}
    poles = {end for item in inside.values() if isinstance(item.spec, Supply) for end in (item.a, item.b)}

    def is_contact(key: str) -> bool:
        return key in inside and isinstance(inside[key].spec, Contact)

    for end in ends:
        net = walk((end,), installed.joins, is_contact)
        if not poles.isdisjoint(net):
            continue
        for item in inside.values():
            if item.a not in net and item.b not in net:
                continue
            drives = isinstance(item.spec, Coil) and item.spec.drives in critical
            if drives or (isinstance(item.spec, Load) and item.spec.effect in grave):
                return True
    return False
