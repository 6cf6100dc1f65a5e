"""Which class does each signal circuit have, by what feeds it, and how far does it keep from power?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.circuits.power_limited import separation, wiring_class
from schedules.connections.incidence import conducting, conducting_or_contact, nets
from schedules.connections.panel import LEG_VOLTS
from schedules.sheet.hardware import POWER_LIMITED, Coil, Contact, Load, Supply

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

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
    reach = _Reach.of(installed.connections, _critical_signals(installed.connections, switched, sheet), sheet)
    return tuple(
        _limited(installed, cable, reach)
        for tag, cable in installed.cables.items()
        if cable.circuit_class in POWER_LIMITED and tag in installed.conductors
    )


@dataclass(frozen=True, slots=True)
class _Reach:
    """The connections as limited wiring sees them, each net by its number.

    feeding: the supplies, each with its nets where every contact is closed. joined: nets as conductors alone join
    them. poles: those on a supply's pole. grave: those of what releases agent, shuts off heat, or sets a critical
    signal.
    """

    closed: Mapping[Point, int]
    joined: Mapping[Point, int]
    feeding: Mapping[str, tuple[Supply, frozenset[int]]]
    poles: frozenset[int]
    grave: frozenset[int]

    @classmethod
    def of(cls, connections: Connections, critical: frozenset[str], sheet: Sheet) -> _Reach:
        closed = nets(connections, conducting_or_contact(connections))
        joined = nets(connections, conducting(connections))
        effects = {effect.id for effect in sheet.effect if effect.kind in ("cooking", "release")}
        feeding, poles, grave = dict[str, tuple[Supply, frozenset[int]]](), set[int](), set[int]()
        for key, item in connections.inside.items():
            ends = {joined[item.a], joined[item.b]}
            match item.spec:
                case Supply() as spec:
                    poles |= ends
                    feeding[key] = spec, frozenset({closed[item.a], closed[item.b]})
                case Coil() as spec if spec.drives in critical:
                    grave |= ends
                case Load() as spec if spec.effect in effects:
                    grave |= ends
        return cls(closed, joined, feeding, frozenset(poles), frozenset(grave))

    def supplies(self, ends: Iterable[Point]) -> dict[str, Supply]:
        """The supplies that points can be fed from over closed contacts."""
        near = {self.closed[end] for end in ends}
        return {key: spec for key, (spec, ends) in self.feeding.items() if not ends.isdisjoint(near)}

    def is_safety_control(self, ends: Iterable[Point]) -> bool:
        """Whether a wire that isn't just a supply's goes to what releases agent or shuts off heat."""
        return any(self.joined[end] in self.grave - self.poles for end in ends)


def _limited(installed: Installation, cable: Cable, reach: _Reach) -> LimitedCable:
    edition = installed.edition
    ends = [end for conductor in installed.conductors[cable.tag] for end in (conductor.a, conductor.b)]
    supplies = reach.supplies(ends)
    listings = {spec.listed for spec in supplies.values()}
    alarm = cable.circuit_class == "fire-alarm"
    safety = reach.is_safety_control(ends)
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
