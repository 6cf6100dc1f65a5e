"""The parts of a connection graph: points where conductors land, conductors, elements."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.sheet.hardware import CircuitClass, Clamp, Coil, Contact, Link, Load, Resistor, Supply


class Point(NamedTuple):
    """A terminal or connector pin: device and designation. A node of the graph."""

    # A tuple, because points are looked up and sorted more often than anything else.

    device: str
    terminal: str

    def __str__(self) -> str:
        return f"{self.device}:{self.terminal}"

    @classmethod
    def read(cls, reference: str) -> Point:
        """Take `DEVICE:TERMINAL` apart."""
        device, _, terminal = reference.partition(":")
        return cls(device, terminal)


@dataclass(frozen=True, slots=True)
class Landing:
    """What is known of one point.

    needed: a conductor must be on it with these choices. wired_by_maker: no field conductor belongs on it. clamp is
    None where the maker of somebody else's equipment (the panel) states it and the sheet can't.
    """

    point: Point
    enclosure: str
    compartment: str | None
    device_name: str
    potential: str
    carries: str
    circuit_class: CircuitClass
    function: str
    needed: bool
    empty_on_purpose: bool
    wired_by_maker: bool
    clamp: Clamp | None
    connector: str | None


@dataclass(frozen=True, slots=True)
class Conductor:
    """One wire with two ends. An edge of the graph, its key is the number.

    mark: the colour that it is re-identified with, None where it stays as bought. a, b: its ends; None on both marks
    a spare.
    """

    number: str
    cable: str
    core: str
    colour: str
    mark: str | None
    size: WireSize
    circuit_class: CircuitClass
    circuit: str | None
    a: Point
    b: Point
    factory: bool


@dataclass(frozen=True, slots=True)
class Spare:
    """A core that lands nowhere with these choices: capped at both ends."""

    number: str
    cable: str
    core: str
    colour: str
    size: WireSize
    enclosures: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Inside:
    """An element between two points of one device, or a wire fitted by the maker between two devices.

    key: `DEVICE.element`, unique in the graph. spec: what the sheet says of it; None for a fitted wire.
    """

    key: str
    a: Point
    b: Point
    spec: Link | Contact | Coil | Load | Supply | Resistor | None

    @property
    def conducts(self) -> bool:
        """Whether current passes without a contact, coil or load between: a link or fitted wire."""
        return self.spec is None or self.spec.kind == "link"


@dataclass(frozen=True, slots=True)
class Refusal:
    """A conductor or wire that could not be put into the graph, and why."""

    key: str
    reason: str
