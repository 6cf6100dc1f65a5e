"""Sheet tables of the things on the wall: enclosures, openings, connectors, devices, terminals."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from schedules.files.condition import ALWAYS, Condition
from schedules.files.records import (
    Allowance,
    ApparentPower,
    Current,
    Duration,
    Length,
    Line,
    Paragraph,
    PinName,
    Power,
    Record,
    Resistance,
    Size,
    Slug,
    Tag,
    Torque,
    Trade,
    Voltage,
    Volume,
)

CircuitClass = Literal["power", "class-2", "class-3", "fire-alarm"]
"""What a conductor may share a raceway with: `power` also stands for Class 1; the others are power-limited."""

POWER_LIMITED: frozenset[str] = frozenset({"class-2", "class-3", "fire-alarm"})


class Enclosure(Record):
    """A box, panel or appliance in which conductors end.

    entry: wire from the opening to the terminals [in]. free_conductor: wire beyond the terminals that lets the
    connection be made outside the box [in]. service_loop: slack so that the thing can be lowered or drawn out [in].
    volume: what a box is marked with [cu in]. internal_clamps: it has cable clamps inside. inside: least distance from
    a wall with openings to the wall opposite [in]. width, height, depth: of its body, where it has to fit a space [in].
    """

    tag: Tag
    name: Line
    kind: Literal["panel", "equipment", "box", "by-others"]
    metal: bool
    entry: Allowance
    free_conductor: Allowance
    service_loop: Allowance = 0.0
    volume: Volume | None = None
    internal_clamps: bool | None = None
    inside: Length | None = None
    width: Length | None = None
    height: Length | None = None
    depth: Length | None = None
    compartments: tuple[Slug, ...] = ()
    place_hint: Line | None = None
    when: Condition = ALWAYS


class Opening(Record):
    """A knockout, bored hole or slot of an enclosure. A trade size or a clear diameter [in]."""

    tag: Tag
    enclosure: Tag
    kind: Literal["knockout", "bored", "slot"]
    trade_size: Trade | None = None
    clear_diameter: Length | None = None
    compartment: Slug | None = None


class Clamp(Record):
    """How a kind of terminal takes a conductor: sizes, number, strip length [in], torque [lbf·in]."""

    id: Slug
    style: Literal["screw", "spring", "lug", "lead", "pin"]
    smallest: Size
    largest: Size
    holds: int
    prepare: Literal["bare", "ferrule", "fork lug", "ring lug", "wire connector", "fitted"]
    strip: Length | None = None
    torque: Torque | None = None


class Connector(Record):
    """A plug fitted to a cable. Body diameter, or width and height; rigid length with latch and boot [in]."""

    id: Slug
    name: Line
    poles: int
    diameter: Length | None = None
    width: Length | None = None
    height: Length | None = None
    rigid_length: Length


class Terminal(Record):
    """One place where a conductor lands.

    potential: what is on it, in words; a conductor joins two terminals of one potential. land: when a conductor
    must be on it (`never`: left empty on purpose). compartment: where it differs from its device's, as on a
    transformer that is mounted through the barrier.
    """

    id: PinName
    potential: Line
    carries: Literal["line", "neutral", "ground", "signal"]
    clamp: Slug
    circuit_class: CircuitClass = Field(default="power", alias="class")
    function: Line | None = None
    compartment: Slug | None = None
    land: Condition | Literal["optional", "never", "factory"] = ALWAYS


Pair = Annotated[tuple[PinName, PinName], Field(strict=False)]


class Link(Record):
    """A jumper, bus bar or printed track between terminals of one device."""

    kind: Literal["link"]
    id: Slug
    between: Pair


class Bond(Record):
    """The device's ground terminal is fastened to the metal of its enclosure."""

    kind: Literal["bond"]
    id: Slug
    terminal: PinName


class Contact(Record):
    """A contact, drawn in shelf state. It leaves that state while the condition on signals holds.

    rated: current that it may switch [A]. rated_for: the kind of load that this marking speaks of. rated_voltage: up
    to which voltage [V].
    """

    kind: Literal["contact"]
    id: Slug
    between: Pair
    form: Literal["NO", "NC"]
    operates: Condition
    rated: Current | None = None
    rated_for: Literal["motor", "general use", "resistive", "pilot duty"] | None = None
    rated_voltage: Voltage | None = None
    delay: Duration | None = None


class Coil(Record):
    """A relay, contactor, valve or shunt-trip coil that drives a signal while it is energised."""

    kind: Literal["coil"]
    id: Slug
    between: Pair
    rated: Voltage
    burden: ApparentPower
    drives: Slug
    latches: bool = False


Appliance = Literal[
    "range hood",
    "electric range",
    "wall oven",
    "cooktop",
    "microwave oven",
    "dishwasher",
    "gas range",
    "other",
]
"""What a load is in the code's terms: `gas range` stands for its ignition and light."""


class Load(Record):
    """Something that uses energy; `effect` names what a person sees of it.

    appliance: what it is in the code's terms, where the code speaks of it.
    """

    kind: Literal["load"]
    id: Slug
    between: Pair
    rated: Voltage
    power: Power | None = None
    current: Current | None = None
    power_factor: Annotated[float, Field(gt=0, le=1)] = 1.0
    effect: Slug
    motor: bool = False
    continuous: bool = False
    appliance: Appliance | None = None


class Supply(Record):
    """A source: transformer secondary or the supply of other equipment. `fed_by` names the load that feeds it.

    listed: the class of power-limited supply that its listing gives it.
    """

    kind: Literal["supply"]
    id: Slug
    between: Pair
    volts: Voltage
    current: Literal["ac", "dc"]
    limit: ApparentPower | None = None
    listed: CircuitClass | None = None
    fed_by: Slug | None = None


class Resistor(Record):
    """A resistor such as an end-of-line resistor."""

    kind: Literal["resistor"]
    id: Slug
    between: Pair
    ohms: Resistance


Element = Annotated[Link | Bond | Contact | Coil | Load | Supply | Resistor, Field(discriminator="kind")]


class Device(Record):
    """A thing with terminals inside an enclosure. With a connector, its terminals are that connector's pins.

    mounts: how it takes room in a box: on a yoke, as a terminal block, or not at all. gangs: width of its yoke.
    """

    tag: Tag
    name: Line
    enclosure: Tag
    compartment: Slug | None = None
    connector: Slug | None = None
    mounts: Literal["yoke", "terminal block", "nothing"] | None = None
    gangs: Annotated[int, Field(ge=1, le=6)] = 1
    terminal: tuple[Terminal, ...]
    element: tuple[Element, ...] = ()
    note: Paragraph | None = None
    when: Condition = ALWAYS
