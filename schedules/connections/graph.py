"""The connection graph: every point, conductor and element that one set of choices gives."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from schedules.connections.panel import build_panel
from schedules.connections.points import Conductor, Inside, Landing, Point, Refusal, Spare
from schedules.sheet.hardware import Bond

if TYPE_CHECKING:
    from collections.abc import Mapping

    import networkx as nx

    from schedules.connections.options import Selection
    from schedules.sheet.hardware import Clamp, Device, Terminal
    from schedules.sheet.wiring import Cable, Core


@dataclass(frozen=True, slots=True)
class Connections:
    """The nodes and edges of the graph and what they stand for.

    Edge keys are conductor numbers and keys of `inside`. bonds: points that are fastened to their enclosure's metal.
    ends: the conductors on each point that has any, in the order of their numbers.
    """

    landings: Mapping[Point, Landing]
    conductors: Mapping[str, Conductor]
    inside: Mapping[str, Inside]
    spares: tuple[Spare, ...]
    bonds: tuple[Point, ...]
    refusals: tuple[Refusal, ...]
    ends: Mapping[Point, tuple[Conductor, ...]]

    def landed(self, point: Point) -> tuple[Conductor, ...]:
        """The conductors that end on a point, in number order."""
        return self.ends.get(point, ())

    def graph(self) -> nx.MultiGraph[Point]:
        """The same as a frozen networkx multigraph, for those who bring their own questions."""
        import networkx as nx  # noqa: PLC0415 - no plan needs it, and it takes long to load

        graph: nx.MultiGraph[Point] = nx.MultiGraph()
        graph.add_nodes_from(self.landings)
        for edges in (self.conductors, self.inside):
            for key, edge in edges.items():
                graph.add_edge(edge.a, edge.b, key=key)
        frozen: nx.MultiGraph[Point] = nx.freeze(graph)
        return frozen


def connect(selection: Selection, downstream: Mapping[str, str]) -> Connections:
    """Build the graph of a selection; what can't be joined is refused and told, never dropped silently.

    downstream: circuit -> the circuit from whose load side the job takes it.
    """
    building = _Building()
    panel = build_panel(selection, downstream)
    for landing in panel.landings:
        building.add_landing(landing)
    clamps = {item.id: item for item in selection.sheet.clamp}
    for device in selection.devices:
        for terminal in device.terminal:
            clamp = clamps[terminal.clamp]
            building.add_landing(_landing(selection.choices, device, terminal, clamp))
    for inside in panel.inside:
        building.add_inside(inside)
    for device in selection.devices:
        _add_elements(building, device)
    for wire in selection.factory_wires:
        building.add_inside(
            Inside(f"{wire.origin}~{wire.target}", Point.read(wire.origin), Point.read(wire.target), None)
        )
    for cable in selection.cables:
        _add_cable(building, cable, selection.choices)
    return building.finish()


@dataclass(slots=True)
class _Building:
    """The one place where a graph grows."""

    landings: dict[Point, Landing] = field(default_factory=dict)
    conductors: dict[str, Conductor] = field(default_factory=dict)
    inside: dict[str, Inside] = field(default_factory=dict)
    spares: list[Spare] = field(default_factory=list)
    bonds: list[Point] = field(default_factory=list)
    refusals: list[Refusal] = field(default_factory=list)

    def add_landing(self, landing: Landing) -> None:
        self.landings[landing.point] = landing

    def add_conductor(self, conductor: Conductor) -> None:
        if self._joins(conductor.number, conductor.a, conductor.b):
            self.conductors[conductor.number] = conductor

    def add_inside(self, inside: Inside) -> None:
        if self._joins(inside.key, inside.a, inside.b):
            self.inside[inside.key] = inside

    def _joins(self, key: str, a: Point, b: Point) -> bool:
        unknown = [str(point) for point in (a, b) if point not in self.landings]
        if unknown:
            self.refusals.append(
                Refusal(key, f"no terminal {' and no terminal '.join(unknown)} with these choices")
            )
        elif key in self.conductors or key in self.inside:
            self.refusals.append(Refusal(key, "the number is used twice"))
        else:
            return True
        return False

    def finish(self) -> Connections:
        ends: dict[Point, list[Conductor]] = {}
        for _, conductor in sorted(self.conductors.items()):
            for point in dict.fromkeys((conductor.a, conductor.b)):
                ends.setdefault(point, []).append(conductor)
        return Connections(
            landings=MappingProxyType(self.landings),
            conductors=MappingProxyType(self.conductors),
            inside=MappingProxyType(self.inside),
            spares=tuple(self.spares),
            bonds=tuple(self.bonds),
            refusals=tuple(self.refusals),
            ends=MappingProxyType({point: tuple(landed) for point, landed in ends.items()}),
        )


def _landing(choices: frozenset[str], device: Device, terminal: Terminal, clamp: Clamp) -> Landing:
    land = terminal.land
    return Landing(
        point=Point(device.tag, terminal.id),
        enclosure=device.enclosure,
        compartment=terminal.compartment or device.compartment,
        device_name=device.name,
        potential=terminal.potential,
        carries=terminal.carries,
        circuit_class=terminal.circuit_class,
        function=terminal.function or terminal.potential,
        needed=not isinstance(land, str) and land.holds(choices),
        empty_on_purpose=land == "never",
        wired_by_maker=land == "factory",
        clamp=clamp,
        connector=device.connector,
    )


def _add_elements(building: _Building, device: Device) -> None:
    for element in device.element:
        if isinstance(element, Bond):
            building.bonds.append(Point(device.tag, element.terminal))
            continue
        a, b = element.between
        building.add_inside(
            Inside(f"{device.tag}.{element.id}", Point(device.tag, a), Point(device.tag, b), element)
        )


def _add_cable(building: _Building, cable: Cable, choices: frozenset[str]) -> None:
    for place, core in enumerate(cable.core, start=1):
        number = conductor_number(cable.number, place)
        if core.origin is None or core.target is None or not core.when.holds(choices):
            building.spares.append(_spare(cable, core, number))
            continue
        building.add_conductor(
            Conductor(
                number=number,
                cable=cable.tag,
                core=core.id,
                colour=core.colour,
                mark=core.mark,
                size=core.size,
                circuit_class=cable.circuit_class,
                circuit=cable.circuit,
                a=Point.read(core.origin),
                b=Point.read(core.target),
                factory=cable.make == "factory",
            )
        )


def conductor_number(cable: int, core: int) -> str:
    """Number a conductor by its cable and its place in it: cable 7, core 2 is `702`.

    The numbers depend on the sheet alone, so that no choice renumbers what stood before.
    """
    return f"{cable * 100 + core}"


def _spare(cable: Cable, core: Core, number: str) -> Spare:
    return Spare(
        number, cable.tag, core.id, core.colour, core.size, (cable.origin.enclosure, cable.target.enclosure)
    )
