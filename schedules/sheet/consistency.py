"""What a sheet's tables say of each other must agree: every name that is used is declared, once, and fits."""

from __future__ import annotations

import difflib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.sheet.breakers import MAINS, line_terminals, off_signal
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.files.condition import Condition
    from schedules.files.toml_positions import TomlPath
    from schedules.sheet.hardware import Device, Element
    from schedules.sheet.sheet import Sheet
    from schedules.sheet.wiring import Cable, CableEnd, Circuit

Complaint = tuple[tuple[str | int, ...], str, str]


def disagreements(sheet: Sheet) -> list[Complaint]:
    """Every place where a sheet contradicts itself: (path, found, allowed)."""
    names = _Names(sheet)
    complaints = names.repeated()
    _check_choices(sheet, names)
    _check_conditions(sheet, names)
    _check_hardware(sheet, names)
    _check_elements(sheet, names)
    _check_wiring(sheet, names)
    _check_behaviour(sheet, names)
    return complaints + names.complaints


@dataclass
class _Names:
    """What the sheet declares, and what was found to be wrong with its uses."""

    sheet: Sheet
    complaints: list[Complaint] = field(default_factory=list)

    def __post_init__(self) -> None:
        sheet = self.sheet
        self.choices = {choice.id for choice in sheet.choices}
        self.enclosures = {item.tag: item for item in sheet.enclosure}
        self.openings = {item.tag: item for item in sheet.opening}
        self.clamps = {item.id for item in sheet.clamp}
        self.connectors = {item.id: item for item in sheet.connector}
        self.circuits = {item.tag for item in sheet.circuit}
        self.effects = {item.id for item in sheet.effect}
        self.parts = {item.id for item in sheet.part}
        self.signals = {item.id for item in sheet.signal} | {off_signal(tag) for tag in self.circuits}
        self.terminals = {f"{device.tag}:{item.id}" for device in sheet.device for item in device.terminal}
        for circuit in sheet.circuit:
            self.terminals.update(f"{circuit.tag}:{name}" for name in _circuit_terminals(circuit))

    def say(self, path: TomlPath, found: object, allowed: str) -> None:
        self.complaints.append((path, f'"{found}"', allowed))

    def known(self, path: TomlPath, name: str, declared: Iterable[str], what: str) -> bool:
        declared = sorted(declared)
        if name in declared:
            return True
        close = difflib.get_close_matches(name, declared, n=1)
        hint = f"; did you mean {close[0]}?" if close else ""
        self.say(path, name, f"a declared {what}{hint}")
        return False

    def repeated(self) -> list[Complaint]:
        """Names that two things of one kind have."""
        complaints: list[Complaint] = []
        for what, entries in _named(self.sheet):
            seen: set[str] = set()
            for path, name in entries:
                if name in seen:
                    complaints.append((path, f'"{name}"', f"a name no other {what} has"))
                seen.add(name)
        return complaints


def _named(sheet: Sheet) -> Iterator[tuple[str, list[tuple[TomlPath, str]]]]:
    """Everything that has a name, by what must tell it apart."""
    yield (
        "choice",
        [
            (("group", g, "choice", c, "id"), choice.id)
            for g, group in enumerate(sheet.group)
            for c, choice in enumerate(group.choice)
        ],
    )
    devices: list[tuple[TomlPath, str]] = [
        (("device", n, "tag"), item.tag) for n, item in enumerate(sheet.device)
    ]
    circuits: list[tuple[TomlPath, str]] = [
        (("circuit", n, "tag"), item.tag) for n, item in enumerate(sheet.circuit)
    ]
    yield "device or circuit", devices + circuits
    yield "cable number", [(("cable", n, "number"), str(item.number)) for n, item in enumerate(sheet.cable)]
    for table in ("enclosure", "opening"):
        yield table, [((table, n, "tag"), item.tag) for n, item in enumerate(getattr(sheet, table))]
    for table in ("group", "part", "clamp", "connector", "signal", "effect", "state", "fan", "gas_valve"):
        yield table, [((table, n, "id"), item.id) for n, item in enumerate(getattr(sheet, table))]
    for n, device in enumerate(sheet.device):
        yield (
            f"terminal of {device.tag}",
            [(("device", n, "terminal", t, "id"), item.id) for t, item in enumerate(device.terminal)],
        )
        yield (
            f"element of {device.tag}",
            [(("device", n, "element", e, "id"), item.id) for e, item in enumerate(device.element)],
        )
    for n, cable in enumerate(sheet.cable):
        yield (
            f"core of {cable.tag}",
            [(("cable", n, "core", c, "id"), core.id) for c, core in enumerate(cable.core)],
        )


def _circuit_terminals(circuit: Circuit) -> tuple[str, ...]:
    neutral = ("N",) if circuit.neutral else ()
    trip = ("ST1", "ST2") if circuit.shunt_trip is not None else ()
    return (*line_terminals(circuit), *neutral, "PE", *trip)


def _check_choices(sheet: Sheet, names: _Names) -> None:
    for g, group in enumerate(sheet.group):
        if not group.choice:
            names.say(("group", g, "choice"), group.id, "at least one choice")
        for c, choice in enumerate(group.choice):
            path: TomlPath = ("group", g, "choice", c)
            for n, need in enumerate(choice.requires):
                if not need.any:
                    names.say((*path, "requires", n, "any"), choice.id, "at least one choice")
                for i, name in enumerate(need.any):
                    names.known((*path, "requires", n, "any", i), name, names.choices, "choice")
            for n, ban in enumerate(choice.excludes):
                names.known(
                    (*path, "excludes", n, "choice"), ban.choice, names.choices - {choice.id}, "other choice"
                )


def _check_conditions(sheet: Sheet, names: _Names) -> None:
    """Every `when` speaks of choices that the sheet offers."""
    for table in (
        "part",
        "enclosure",
        "device",
        "circuit",
        "cable",
        "factory_wire",
        "state",
        "promise",
        "fan",
        "gas_valve",
    ):
        for n, item in enumerate(getattr(sheet, table)):
            _check_condition(item.when, (table, n, "when"), names.choices, "choice", names)
    for n, device in enumerate(sheet.device):
        for t, terminal in enumerate(device.terminal):
            if not isinstance(terminal.land, str):
                _check_condition(
                    terminal.land, ("device", n, "terminal", t, "land"), names.choices, "choice", names
                )
    for n, cable in enumerate(sheet.cable):
        for c, core in enumerate(cable.core):
            _check_condition(core.when, ("cable", n, "core", c, "when"), names.choices, "choice", names)


def _check_condition(
    condition: Condition, path: TomlPath, declared: Iterable[str], what: str, names: _Names
) -> None:
    for part in ("all", "any", "none"):
        for n, name in enumerate(getattr(condition, part)):
            names.known((*path, part, n), name, declared, what)


def _check_hardware(sheet: Sheet, names: _Names) -> None:
    panels = [item for item in sheet.enclosure if item.kind == "panel"]
    if len(panels) != 1:
        names.say(("enclosure",), f"{len(panels)} panels", 'exactly one enclosure of kind "panel"')
    knockouts = [row.text("trade_size") for row in load("knockout_diameter").rows]
    for n, opening in enumerate(sheet.opening):
        if names.known(("opening", n, "enclosure"), opening.enclosure, names.enclosures, "enclosure"):
            _check_compartment(opening.compartment, opening.enclosure, ("opening", n, "compartment"), names)
        if (opening.trade_size is None) == (opening.clear_diameter is None):
            names.say(("opening", n), opening.tag, "either trade_size or clear_diameter")
        if opening.trade_size is not None and str(opening.trade_size) not in knockouts:
            allowed = f"a knockout's trade size: {', '.join(knockouts)}"
            names.say(("opening", n, "trade_size"), opening.trade_size, allowed)
    _check_kinds(sheet, names)
    for n, device in enumerate(sheet.device):
        _check_device(device, n, names)


def _check_kinds(sheet: Sheet, names: _Names) -> None:
    for n, clamp in enumerate(sheet.clamp):
        if clamp.smallest > clamp.largest:
            names.say(("clamp", n, "smallest"), clamp.smallest, f"not thicker than largest, {clamp.largest}")
        if clamp.holds < 1:
            names.say(("clamp", n, "holds"), clamp.holds, "1 or more conductors")
    for n, connector in enumerate(sheet.connector):
        round_body = connector.diameter is not None
        flat_body = connector.width is not None and connector.height is not None
        if round_body == flat_body or (round_body and (connector.width or connector.height)):
            names.say(("connector", n), connector.id, "either diameter, or width and height")


def _check_compartment(compartment: str | None, enclosure: str, path: TomlPath, names: _Names) -> None:
    declared = names.enclosures[enclosure].compartments
    if compartment is not None:
        names.known(path, compartment, declared, f"compartment of {enclosure}")
    elif declared:
        names.say(path[:-1], enclosure, f"compartment = one of {', '.join(declared)}")


def _check_device(device: Device, n: int, names: _Names) -> None:
    path: TomlPath = ("device", n)
    if device.tag == MAINS or (device.tag[0] == "W" and device.tag[1:].isdigit()):
        names.say(
            (*path, "tag"),
            device.tag,
            f"a tag other than {MAINS} and W with a number, which stand for the service and for cables",
        )
    if names.known((*path, "enclosure"), device.enclosure, names.enclosures, "enclosure"):
        _check_compartment(device.compartment, device.enclosure, (*path, "compartment"), names)
    if device.connector is not None and names.known(
        (*path, "connector"), device.connector, names.connectors, "connector"
    ):
        poles = names.connectors[device.connector].poles
        if len(device.terminal) > poles:
            names.say(
                (*path, "terminal"), f"{len(device.terminal)} pins", f"at most the connector's {poles} poles"
            )
    for t, terminal in enumerate(device.terminal):
        names.known((*path, "terminal", t, "clamp"), terminal.clamp, names.clamps, "clamp")
        if terminal.compartment is not None and device.enclosure in names.enclosures:
            _check_compartment(
                terminal.compartment, device.enclosure, (*path, "terminal", t, "compartment"), names
            )


def _check_elements(sheet: Sheet, names: _Names) -> None:
    for n, device in enumerate(sheet.device):
        own = {terminal.id for terminal in device.terminal}
        loads = {item.id for item in device.element if item.kind == "load"}
        for e, element in enumerate(device.element):
            path: TomlPath = ("device", n, "element", e)
            ends = (
                [(("terminal",), element.terminal)]
                if element.kind == "bond"
                else [(("between", i), end) for i, end in enumerate(element.between)]
            )
            for step, end in ends:
                names.known((*path, *step), end, own, f"terminal of {device.tag}")
            _check_element(element, path, loads, names)


def _check_element(element: Element, path: TomlPath, loads: set[str], names: _Names) -> None:
    match element.kind:
        case "contact":
            _check_condition(element.operates, (*path, "operates"), names.signals, "signal", names)
        case "coil":
            driven = {item.id for item in names.sheet.signal if item.set_by == "coil"}
            names.known((*path, "drives"), element.drives, driven, "signal set by a coil")
        case "load":
            names.known((*path, "effect"), element.effect, names.effects, "effect")
            if (element.power is None) == (element.current is None):
                names.say(path, element.id, "either power or current")
        case "supply" if element.fed_by is not None:
            names.known((*path, "fed_by"), element.fed_by, loads, "load of this device")


def _check_wiring(sheet: Sheet, names: _Names) -> None:
    for n, circuit in enumerate(sheet.circuit):
        if circuit.shunt_trip is not None:
            driven = {item.id for item in sheet.signal if item.set_by == "coil"}
            names.known(
                ("circuit", n, "shunt_trip", "drives"),
                circuit.shunt_trip.drives,
                driven,
                "signal set by a coil",
            )
    for n, cable in enumerate(sheet.cable):
        path: TomlPath = ("cable", n)
        if cable.circuit is not None:
            names.known((*path, "circuit"), cable.circuit, names.circuits, "circuit")
        _check_make(cable, path, names)
        _check_end(cable.origin, (*path, "from"), names)
        _check_end(cable.target, (*path, "to"), names)
        _check_cores(cable, path, names)
        for e, extension in enumerate(cable.extension):
            names.known((*path, "extension", e, "part"), extension.part, names.parts, "part")
    for n, wire in enumerate(sheet.factory_wire):
        for key, reference in (("from", wire.origin), ("to", wire.target)):
            names.known(("factory_wire", n, key), reference, names.terminals, "terminal")


def _check_cores(cable: Cable, path: TomlPath, names: _Names) -> None:
    for c, core in enumerate(cable.core):
        for key, reference in (("from", core.origin), ("to", core.target)):
            if reference is not None:
                names.known((*path, "core", c, key), reference, names.terminals, "terminal")
        if (core.origin is None) != (core.target is None):
            names.say((*path, "core", c), core.id, "both from and to, or neither for a spare")


def _check_make(cable: Cable, path: TomlPath, names: _Names) -> None:
    if cable.make == "factory":
        missing = [key for key in ("length", "diameter") if getattr(cable, key) is None]
        if missing:
            names.say(path, cable.tag, f"{' and '.join(missing)}, which a factory cable has")
    elif cable.length is not None or cable.extension:
        names.say(path, cable.tag, "no length or extension: a field cable is cut on site")


def _check_end(end: CableEnd, path: TomlPath, names: _Names) -> None:
    known = names.known((*path, "enclosure"), end.enclosure, names.enclosures, "enclosure")
    if (
        end.opening is not None
        and names.known((*path, "opening"), end.opening, names.openings, "opening")
        and known
    ):
        home = names.openings[end.opening].enclosure
        if home != end.enclosure:
            names.say((*path, "opening"), end.opening, f"an opening of {end.enclosure}")
    if end.connector is not None:
        names.known((*path, "connector"), end.connector, names.connectors, "connector")


def _check_behaviour(sheet: Sheet, names: _Names) -> None:
    states = {item.id for item in sheet.state}
    latched = {item.id for item in sheet.signal if item.latched}
    for n, state in enumerate(sheet.state):
        if state.after is not None:
            # Only an earlier one, so that no situation comes after itself.
            earlier = {item.id for item in sheet.state[:n]}
            names.known(("state", n, "after"), state.after, earlier, "state that stands before this one")
        for i, name in enumerate(state.reset):
            names.known(("state", n, "reset", i), name, latched, "signal that is latched")
        for i, name in enumerate(state.signals):
            names.known(("state", n, "signals", i), name, names.signals, "signal")
        for i, tag in enumerate(state.circuits_off):
            names.known(("state", n, "circuits_off", i), tag, names.circuits, "circuit")
    for n, promise in enumerate(sheet.promise):
        for i, name in enumerate(promise.states):
            names.known(("promise", n, "states", i), name, states, "state")
        names.known(("promise", n, "effect"), promise.effect, names.effects, "effect")
    if not any(signal.fire for signal in sheet.signal):
        names.say(("signal",), "no fire signal", "at least one signal with fire = true")
