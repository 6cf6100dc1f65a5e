"""The tables of an equipment sheet, declared once, in the order in which a maker's manual is read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class SheetTable:
    """One table of a sheet's file.

    name: as the file has it. title, why: what it is about, and where a manual says it. one: what one entry is called,
    empty where a sheet has the table once.
    """

    name: str
    title: str
    why: str
    one: str = ""


_TABLES = (
    SheetTable("sheet", "Identity", "What the equipment is, and which manual this was read from."),
    SheetTable(
        "group",
        "What may be bought",
        "The order form: each question, its choices, and what needs or bars what.",
        "question",
    ),
    SheetTable("part", "Delivery", "The packing list: what must be there, with which choices.", "part"),
    SheetTable(
        "enclosure",
        "Enclosures",
        "Where conductors end: the panel, the hood, each box and thing of others.",
        "enclosure",
    ),
    SheetTable("opening", "Openings", "Knockouts, bored holes and slots of the enclosures.", "opening"),
    SheetTable(
        "clamp",
        "Kinds of terminal",
        "How each kind takes a conductor: sizes, how many, strip length, torque.",
        "kind of terminal",
    ),
    SheetTable(
        "connector", "Connectors", "Plugs fitted to cables: they have to pass every opening.", "connector"
    ),
    SheetTable("circuit", "Circuits", "What the panel has to feed.", "circuit"),
    SheetTable(
        "device",
        "Devices and terminals",
        "The connection diagram: strips, plugs, relays, loads, and what is inside them.",
        "device",
    ),
    SheetTable("cable", "Cables", "What runs between enclosures, made by the maker or cut on site.", "cable"),
    SheetTable(
        "factory_wire",
        "Wires by the maker",
        "What the maker wired between devices of one enclosure.",
        "wire",
    ),
    SheetTable(
        "signal", "Signals", "Yes or no: fire, a switch, a coil that pulls. Contacts follow them.", "signal"
    ),
    SheetTable("effect", "Effects", "What a person sees of a load: heat, air, light, alarm.", "effect"),
    SheetTable("state", "States", "Situations to be solved beside those that every sheet has.", "state"),
    SheetTable(
        "promise",
        "What the maker promises",
        "What the manual says each effect does; it is compared with what the wiring does.",
        "promise",
    ),
    SheetTable("hood", "The hood as it hangs", "Body, weight, bracket and collar."),
    SheetTable("fan", "Fans", "Each fan's curve as the maker gives it.", "fan"),
    SheetTable("gas_valve", "Gas valves", "The valve that the fire shutoff closes.", "gas valve"),
)

TABLES: Mapping[str, SheetTable] = {table.name: table for table in _TABLES}
