"""The sheet's things as this job installs them: fed as here, rated as bought, cables thicker, boxes as set."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.sheet.wiring import Feed
from schedules.tables.conductors import table_cell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.connections.options import Selection
    from schedules.job.building import Box
    from schedules.job.electrical import CircuitChange, Nameplate
    from schedules.job.records import Job, Run
    from schedules.sheet.hardware import Device, Element, Enclosure
    from schedules.sheet.wiring import Cable, Circuit, Core

GROUND_COLOURS = frozenset({"GN", "GNYE", "bare"})


def as_installed(selection: Selection, job: Job) -> Selection:
    """Put what the job says of circuits, nameplates, cables and boxes in place of what the sheet says."""
    changes = {item.circuit: item for item in job.circuit}
    plates = {item.load: item for item in job.nameplate}
    runs = {item.cable: item for item in job.run}
    boxes = {item.enclosure: item for item in job.box}
    return replace(
        selection,
        circuits=tuple(_fed(circuit, changes.get(circuit.tag)) for circuit in selection.circuits),
        devices=tuple(_rated(device, plates) for device in selection.devices)
        if plates
        else selection.devices,
        cables=tuple(_bought(cable, runs.get(cable.tag)) for cable in selection.cables),
        enclosures=tuple(_set(enclosure, boxes.get(enclosure.tag)) for enclosure in selection.enclosures),
    )


def _fed(circuit: Circuit, change: CircuitChange | None) -> Circuit:
    if change is None:
        return circuit
    stated = {key: value for key in Feed.model_fields if (value := getattr(change, key)) is not None}
    return circuit.model_copy(update=stated) if stated else circuit


def _rated(device: Device, plates: Mapping[str, Nameplate]) -> Device:
    elements = tuple(
        _as_marked(element, plates.get(f"{device.tag}.{element.id}")) for element in device.element
    )
    return device.model_copy(update={"element": elements})


def _as_marked(element: Element, plate: Nameplate | None) -> Element:
    """A load with the nameplate's figure: its power or its current, never one beside the sheet's other."""
    if plate is None or element.kind != "load":
        return element
    update: dict[str, object] = {}
    if plate.power is not None or plate.current is not None:
        update = {"power": plate.power, "current": plate.current}
    if plate.appliance is not None:
        update["appliance"] = plate.appliance
    return element.model_copy(update=update)


def _bought(cable: Cable, run: Run | None) -> Cable:
    """A field cable with thicker conductors; what stands in its type's name for their size follows."""
    if cable.make != "field" or run is None or (run.size is None and run.ground is None):
        return cable
    cores = tuple(_thicker(core, run) for core in cable.core)
    name = cable.type
    if run.size is not None:
        bought = table_cell(run.size)
        for size in {core.size for core in cable.core if core.colour not in GROUND_COLOURS}:
            name = name.replace(f"{table_cell(size)}/", f"{bought}/")
    return cable.model_copy(update={"core": cores, "type": name})


def _thicker(core: Core, run: Run) -> Core:
    size = run.ground if core.colour in GROUND_COLOURS else run.size
    return core if size is None else core.model_copy(update={"size": size})


def _set(enclosure: Enclosure, box: Box | None) -> Enclosure:
    if box is None or enclosure.kind != "box":
        return enclosure
    clamps = enclosure.internal_clamps if box.internal_clamps is None else box.internal_clamps
    return enclosure.model_copy(update={"volume": box.volume, "internal_clamps": clamps})
