"""Sheet tables of what joins things: circuits, cables, factory wires inside an enclosure."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from schedules.files.condition import ALWAYS, Condition
from schedules.files.records import (
    ApparentPower,
    Current,
    Length,
    Line,
    PinName,
    Record,
    Reference,
    Size,
    Slug,
    Tag,
    Trade,
    Voltage,
)
from schedules.sheet.hardware import CircuitClass

Colour = Literal["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ", "GNYE", "bare"]
"""IEC 60757 codes, and `bare` for an uninsulated grounding conductor."""


class ShuntTrip(Record):
    """The breaker's trip coil: energised, it opens the breaker until a hand resets it."""

    rated: Voltage
    burden: ApparentPower
    drives: Slug


class Cord(Record):
    """The cord and plug that the maker fitted to a hood, as the manual allows it. length [in]."""

    length: Length
    instructions_allow: bool
    grounding_plug: bool
    double_insulated: bool = False


class Feed(Record):
    """How a circuit reaches what it feeds. What a sheet leaves open, the job says.

    connection: wired in, or by cord and plug. receptacle: rating of each receptacle on it [A]. receptacles: how many,
    a duplex counting as two. countertop: a receptacle on it serves the countertop. to_sink: distance of the receptacle
    from the nearest sink [in]. small_appliance: it is one of the kitchen's small-appliance circuits. shares_with: what
    else is on it. receptacle_accessible, cord_protected: how the hood's receptacle is placed. marked_terminals:
    the lowest temperature that the terminals at both ends are marked for [C]. least_circuit, largest_device: what the
    nameplate marks [A].
    """

    connection: Literal["hardwired", "cord"] | None = None
    receptacle: Current | None = None
    receptacles: Annotated[int, Field(ge=1, le=50)] | None = None
    countertop: bool | None = None
    to_sink: Length | None = None
    small_appliance: bool | None = None
    shares_with: Literal["nothing", "lights or portable loads", "small-appliance receptacles"] | None = None
    receptacle_accessible: bool | None = None
    cord_protected: bool | None = None
    marked_terminals: Literal[60, 75, 90] | None = None
    least_circuit: Current | None = None
    largest_device: Current | None = None


class Circuit(Feed):
    """One branch circuit from the panel. Its breaker's terminals are `TAG:L` (or `L1`, `L2`), `TAG:N`, `TAG:PE`.

    individual: it feeds nothing but what the sheet puts on it. multiwire: its legs share the neutral. cord: of a hood
    that is plugged in.
    """

    tag: Tag
    name: Line
    poles: Literal[1, 2]
    neutral: bool
    rating: Current
    individual: bool
    serves: Literal["controls", "cooking", "fan", "make-up air", "receptacle", "other"]
    multiwire: bool = False
    shunt_trip: ShuntTrip | None = None
    cord: Cord | None = None
    when: Condition = ALWAYS


class CableEnd(Record):
    """Where a cable ends: enclosure, the opening it enters by, the connector fitted to it.

    fixed: the maker fastened this end inside the equipment, so the cable can only be pulled by the other one.
    """

    enclosure: Tag
    opening: Tag | None = None
    connector: Slug | None = None
    fixed: bool = False


class Core(Record):
    """One conductor of a cable. Without ends it is a spare, capped at both. `mark`: re-identified as this colour."""

    id: PinName
    colour: Colour
    size: Size
    mark: Colour | None = None
    origin: Reference | None = Field(default=None, alias="from")
    target: Reference | None = Field(default=None, alias="to")
    when: Condition = ALWAYS


class Extension(Record):
    """A standard extension that can be ordered for a factory cable [in]."""

    part: Slug
    length: Length


class Cable(Record):
    """Conductors in one jacket, or loose conductors pulled together.

    number: 1 to 99, its conductors are number·100 + core. factory: fixed length with connectors fitted, so `length`
    and `diameter` [in] are given. raceway: the least trade size that the maker prescribes.
    """

    number: Annotated[int, Field(ge=1, le=99)]
    name: Line
    make: Literal["factory", "field"]
    type: Line
    circuit_class: CircuitClass = Field(default="power", alias="class")
    circuit: Tag | None = None
    origin: CableEnd = Field(alias="from")
    target: CableEnd = Field(alias="to")
    length: Length | None = None
    diameter: Length | None = None
    raceway: Trade | None = None
    core: tuple[Core, ...]
    extension: tuple[Extension, ...] = ()
    when: Condition = ALWAYS

    @property
    def tag(self) -> str:
        """What stands on its labels: `W7`."""
        return f"W{self.number}"


class FactoryWire(Record):
    """A conductor that the maker fitted between two devices of one enclosure."""

    origin: Reference = Field(alias="from")
    target: Reference = Field(alias="to")
    size: Size | None = None
    when: Condition = ALWAYS
