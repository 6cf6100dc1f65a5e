"""The connection graph as a network: nets, branches between them, and what contacts, coils, loads and sources are."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from schedules.circuits.feeds import current_of
from schedules.connections.points import Point
from schedules.network.impedance import (
    CONTACT_OHM,
    NOMINAL_LENGTH_IN,
    SUPPLY_OHM,
    TABLE_TEMPERATURE_C,
    conductor_ohm_per_in,
    load_siemens,
)
from schedules.sheet.breakers import MAINS, off_signal
from schedules.sheet.hardware import Coil, Contact, Load, Resistor, Supply

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.connections.points import Conductor, Inside
    from schedules.files.condition import Condition
    from schedules.site.reach import CableLength


@dataclass(frozen=True, slots=True)
class Branch:
    """What joins two nets.

    ac, dc: its admittance to either [S]. contact: its bit among contacts, 0 if it always conducts.
    """

    key: str
    a: int
    b: int
    ac: complex
    dc: complex
    contact: int = 0


@dataclass(frozen=True, slots=True)
class Switch:
    """A contact.

    needs, either, bars: bits of the signals by which it operates: all, any and none of them are set. breaker: of a
    breaker's pole, the signal that stands for the breaker being open; else 0.
    """

    key: str
    bit: int
    needs: int
    either: int
    bars: int
    delay_s: float
    breaker: int
    rated_a: float | None


@dataclass(frozen=True, slots=True)
class Winding:
    """A coil: its bit among coils, the signal that it drives."""

    key: str
    bit: int
    rated_v: float
    signal: int


@dataclass(frozen=True, slots=True)
class User:
    """A load: rated voltage [V], what is seen of it."""

    key: str
    rated_v: float
    effect: str


@dataclass(frozen=True, slots=True)
class Source:
    """A supply behind its own branch. fed_by: key of the load that is its primary. limit_va: more makes it give up."""

    key: str
    volts: float
    dc: bool
    limit_va: float | None
    fed_by: str | None


@dataclass(frozen=True, slots=True)
class Netlist:
    """A network before anything is switched.

    nets: the net of each point; points that links, fitted wires and bonds join are one net. metal: the net of each
    enclosure's metal. held: nets of given voltage [V]. shut: contacts closed in shelf state. latching: signals that
    stay until a hand resets them. assumed: cables whose length is the nominal one.
    """

    connections: Connections
    nets: Mapping[Point, int]
    metal: Mapping[str, int]
    held: Mapping[int, complex]
    branches: Mapping[str, Branch]
    switches: Mapping[str, Switch]
    windings: Mapping[str, Winding]
    users: Mapping[str, User]
    sources: Mapping[str, Source]
    signals: Mapping[str, int]
    shut: int
    latching: int
    assumed: tuple[str, ...]

    def bits(self, names: Iterable[str]) -> int:
        """The mask of these signals; a name that no contact or coil here knows stands for nothing."""
        mask = 0
        for name in names:
            mask |= self.signals.get(name, 0)
        return mask

    def names(self, mask: int) -> frozenset[str]:
        """The signals of a mask."""
        return frozenset(name for name, bit in self.signals.items() if bit & mask)


def make_netlist(
    selection: Selection, connections: Connections, lengths: Iterable[CableLength], edition: str
) -> Netlist:
    """Read a connection graph as a network.

    lengths: of the cables, as far as they are known. edition: of the code whose table gives conductors' resistance.
    """
    building = _Building(connections, _signals(selection))
    metal = building.merge(selection)
    building.hold_service()
    known = {item.cable: item.supplied_in or item.required_in for item in lengths}
    for conductor in connections.conductors.values():
        building.add_conductor(conductor, known.get(conductor.cable), edition)
    for inside in connections.inside.values():
        building.add_inside(inside)
    latched = [signal.id for signal in selection.sheet.signal if signal.latched]
    return building.finish(metal, latched)


def _signals(selection: Selection) -> dict[str, int]:
    names = [signal.id for signal in selection.sheet.signal]
    names += [off_signal(circuit.tag) for circuit in selection.circuits]
    return {name: 1 << place for place, name in enumerate(dict.fromkeys(names))}


def _metal(enclosure: str) -> Point:
    """The point that stands for an enclosure's metal; brackets stand in no terminal's designation."""
    return Point(enclosure, "(metal)")


@dataclass(slots=True)
class _Building:
    connections: Connections
    signals: dict[str, int]
    nets: dict[Point, int] = field(default_factory=dict)
    held: dict[int, complex] = field(default_factory=dict)
    branches: dict[str, Branch] = field(default_factory=dict)
    switches: dict[str, Switch] = field(default_factory=dict)
    windings: dict[str, Winding] = field(default_factory=dict)
    users: dict[str, User] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    shut: int = 0
    latching: int = 0
    assumed: dict[str, None] = field(default_factory=dict)

    def merge(self, selection: Selection) -> dict[str, int]:
        """Number the nets; give each metal enclosure, or one that something is bonded to, a net for its metal."""
        landings = self.connections.landings
        metal = {item.tag: _metal(item.tag) for item in selection.enclosures if item.metal}
        joined: dict[Point, Point] = {}

        def root(point: Point) -> Point:
            while (up := joined.get(point, point)) != point:
                joined[point] = joined.get(up, up)
                point = up
            return point

        for inside in self.connections.inside.values():
            if inside.conducts:
                joined[root(inside.a)] = root(inside.b)
        for point in self.connections.bonds:
            enclosure = landings[point].enclosure
            joined[root(point)] = root(metal.setdefault(enclosure, _metal(enclosure)))
        panel = next((item.tag for item in selection.enclosures if item.kind == "panel"), None)
        if panel in metal:
            joined[root(metal[panel])] = root(Point(MAINS, "PE"))
        numbers: dict[Point, int] = {}
        self.nets = {point: numbers.setdefault(root(point), len(numbers)) for point in landings}
        return {tag: numbers.setdefault(root(point), len(numbers)) for tag, point in metal.items()}

    def hold_service(self) -> None:
        """The service is stiff: its bars keep their voltages, whatever is drawn."""
        self.held[self.nets[Point(MAINS, "N")]] = 0j
        for inside in self.connections.inside.values():
            spec = inside.spec
            if inside.a.device == MAINS and isinstance(spec, Supply):
                a, b = self.nets[inside.a], self.nets[inside.b]
                if a in self.held:
                    self.held[b] = self.held[a] - spec.volts
                else:
                    self.held[a] = self.held[b] + spec.volts

    def add_conductor(self, conductor: Conductor, length_in: float | None, edition: str) -> None:
        if length_in is None:
            self.assumed[conductor.cable] = None
        ohm = max(length_in or NOMINAL_LENGTH_IN, 1.0) * conductor_ohm_per_in(
            conductor.size, factory=conductor.factory, temperature_c=TABLE_TEMPERATURE_C, edition=edition
        )
        self._add(conductor.number, conductor.a, conductor.b, 1 / ohm)

    def add_inside(self, inside: Inside) -> None:
        match inside.spec:
            case Contact() as spec:
                self._add_switch(inside, spec)
            case Coil() as spec:
                signal = self.signals.get(spec.drives, 0)
                self.windings[inside.key] = Winding(inside.key, 1 << len(self.windings), spec.rated, signal)
                self.latching |= signal if spec.latches else 0
                self._add(inside.key, inside.a, inside.b, current_of(spec) / spec.rated)
            case Load() as spec:
                self.users[inside.key] = User(inside.key, spec.rated, spec.effect)
                admittance = load_siemens(spec)
                self._add(inside.key, inside.a, inside.b, admittance, abs(admittance))
            case Resistor() as spec:
                self._add(inside.key, inside.a, inside.b, 1 / spec.ohms)
            case Supply() as spec if inside.a.device != MAINS:
                fed_by = f"{inside.a.device}.{spec.fed_by}" if spec.fed_by is not None else None
                self.sources[inside.key] = Source(
                    inside.key, spec.volts, spec.current == "dc", spec.limit, fed_by
                )
                self._add(inside.key, inside.a, inside.b, 1 / SUPPLY_OHM)

    def _add_switch(self, inside: Inside, spec: Contact) -> None:
        bit = 1 << len(self.switches)
        operates: Condition = spec.operates
        either = self._bits(operates.any)
        self.switches[inside.key] = Switch(
            key=inside.key,
            bit=bit,
            needs=self._bits(operates.all),
            either=either,
            bars=self._bits(operates.none),
            delay_s=spec.delay or 0.0,
            breaker=self.signals[off_signal(inside.b.device)] if inside.a.device == MAINS else 0,
            rated_a=spec.rated,
        )
        if spec.form == "NC":
            self.shut |= bit
        self._add(inside.key, inside.a, inside.b, 1 / CONTACT_OHM, contact=bit)

    def _bits(self, names: Iterable[str]) -> int:
        mask = 0
        for name in names:
            mask |= self.signals.setdefault(name, 1 << len(self.signals))
        return mask

    def _add(
        self, key: str, a: Point, b: Point, ac: complex, dc: complex | None = None, *, contact: int = 0
    ) -> None:
        ends = self.nets[a], self.nets[b]
        if ends[0] != ends[1]:
            self.branches[key] = Branch(key, *ends, ac, ac if dc is None else dc, contact)

    def finish(self, metal: dict[str, int], latched: Iterable[str]) -> Netlist:
        for name in latched:
            self.latching |= self.signals[name]
        return Netlist(
            connections=self.connections,
            nets=MappingProxyType(self.nets),
            metal=MappingProxyType(metal),
            held=MappingProxyType(self.held),
            branches=MappingProxyType(self.branches),
            switches=MappingProxyType(self.switches),
            windings=MappingProxyType(self.windings),
            users=MappingProxyType(self.users),
            sources=MappingProxyType(self.sources),
            signals=MappingProxyType(self.signals),
            shut=self.shut,
            latching=self.latching,
            assumed=tuple(self.assumed),
        )
