"""Job tables of what stands round the wires: mounting, duct, air, gas, delivery, order of work."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from schedules.files.records import (
    Airflow,
    Allowance,
    Area,
    Coordinate,
    Day,
    Duration,
    HeatRate,
    Length,
    Line,
    Pressure,
    Record,
    Slug,
    Tag,
    Temperature,
)
from schedules.job.building import Lumber
from schedules.sheet.hood import Loss

Count = Annotated[int, Field(ge=0, le=99)]
Species = Literal[
    "southern-pine",
    "douglas-fir-larch",
    "douglas-fir-larch-north",
    "douglas-fir-south",
    "hem-fir",
    "spruce-pine-fir",
    "spruce-pine-fir-south",
]
DuctSurface = Literal[
    "galvanized",
    "galvanized-spiral",
    "galvanized-rectangular",
    "stainless",
    "copper",
    "aluminium",
    "pvc",
    "flexible",
]
FittingKind = Literal[
    "stamped 90",
    "stamped 45",
    "pleated 90",
    "pleated 45",
    "gored 90",
    "gored 45",
    "three gores 90",
    "smooth 90",
    "flat smooth 90",
    "mitred 90",
    "other",
]


class Mounting(Record):
    """Where and on what the hood hangs. None where it is not known yet.

    cooking_surface: above the finished floor [in]. clearance: from it to the hood's underside [in]. centre: the hood's
    centre line along the wall [in]. range_lowest: what the range's own manual asks for [in]. stud_size: of the range
    wall where the wall itself says none. wall_board: what lies between bracket and studs [in]. fastener_length: under
    the head [in]. blocks: between the studs. service_load: how many times the weight is counted. people: who lift it.
    lift: a lift or jack is there.
    """

    cooking_surface: Length | None = None
    clearance: Length | None = None
    centre: Coordinate | None = None
    range_lowest: Length | None = None
    stud_size: Lumber | None = None
    species: Species | None = None
    wall_board: Allowance | None = None
    fastener: Line | None = None
    fastener_length: Length | None = None
    blocks: Literal["none", "planned", "fitted"] = "none"
    service_load: Annotated[float, Field(ge=1, le=10)] | None = None
    people: Annotated[int, Field(ge=1, le=8)] = 2
    lift: bool = False


class Stud(Record):
    """One stud as it was found: its centre along the wall [in]. wall: without it the range wall. doubled: a pair."""

    tag: Tag
    along: Coordinate
    wall: Tag | None = None
    doubled: bool = False


class Space(Record):
    """The space in which an enclosure is to stand, such as a cabinet or a chimney: width, height, depth [in]."""

    enclosure: Tag
    width: Length
    height: Length
    depth: Length


class Duct(Record):
    """The exhaust duct. None where it is not known yet.

    diameter, or width and height [in]. length: straight duct, all together [in]. straight_first: before the first
    elbow [in]. damper_loss, cap_loss: coefficients from their makers' sheets; the cap's beyond the bare exit.
    altitude: above sea level [in]. air: in the duct [C]. wanted: least airflow. arrow: where the inline fan's arrow
    points. fan_access: it can be reached. stud_bay: depth of the stud bay that the duct runs in [in]. to_property_line,
    to_opening, to_intake: from its outlet [in]; above_intake: how much higher than the intake [in].
    """

    surface: DuctSurface | None = None
    diameter: Length | None = None
    width: Length | None = None
    height: Length | None = None
    length: Length | None = None
    straight_first: Allowance | None = None
    damper_loss: Loss | None = None
    cap_loss: Loss | None = None
    altitude: Allowance | None = None
    air: Temperature | None = None
    wanted: Airflow | None = None
    arrow: Literal["outlet", "hood"] | None = None
    fan_access: bool | None = None
    stud_bay: Length | None = None
    to_property_line: Allowance | None = None
    to_opening: Allowance | None = None
    to_intake: Allowance | None = None
    above_intake: Allowance | None = None


class DuctFitting(Record):
    """Elbows of one kind in the duct. radius: of the centreline, where the kind needs it [in].

    turns: which side of a flat duct is bent. loss: for `other`, from its maker's sheet.
    """

    tag: Tag
    kind: FittingKind
    count: Annotated[int, Field(ge=1, le=20)] = 1
    radius: Length | None = None
    turns: Literal["width", "height"] | None = None
    loss: Loss | None = None


class Air(Record):
    """What the house gives the hood. None where it is not known yet.

    book: which mechanical code holds. fuel_appliances: fuel-burning ones inside that are neither direct-vent nor
    mechanical-draft. natural_draft: one of them draws by itself. make_up: how air is let in; make_up_airflow: by a
    fan; opening: free area of a passive one [sq in]; pressure: what it may cost the house. spring: where the make-up
    damper stands without power. damper_access: it can be reached. leakage: by the blower door at 50 Pa; exponent: as
    the test gave it. outdoor, indoor: for the heat of the make-up air [C].
    """

    book: Literal["IRC", "IMC"] | None = None
    fuel_appliances: Count | None = None
    natural_draft: bool | None = None
    make_up: Literal["none", "passive", "powered"] | None = None
    make_up_airflow: Airflow | None = None
    opening: Area | None = None
    pressure: Pressure | None = None
    spring: Literal["open", "closed"] | None = None
    damper_access: bool | None = None
    leakage: Airflow | None = None
    exponent: Annotated[float, Field(ge=0.5, le=1)] | None = None
    outdoor: Temperature | None = None
    indoor: Temperature | None = None


class Gas(Record):
    """The range's gas. None where it is not known yet.

    demand: of the range. shutoff: from the range to its manual valve [in]. same_room, upstream: of that valve.
    connector: its length [in]; concealed: it runs in or through wall, floor or housing. pipe: nominal size of steel
    pipe; pipe_length: from the meter [in], with elbows, tees and valves. inlet: pressure at the meter. allowed_drop: up
    to the range. valve_after_shutoff: the fire valve stands after the manual one.
    """

    gas: Literal["natural", "propane"] | None = None
    demand: HeatRate | None = None
    shutoff: Allowance | None = None
    same_room: bool | None = None
    upstream: bool | None = None
    connector: Length | None = None
    concealed: bool = False
    pipe: Literal["1/2", "3/4", "1"] | None = None
    pipe_length: Length | None = None
    elbows: Count = 0
    tees: Count = 0
    valves: Count = 0
    inlet: Pressure | None = None
    allowed_drop: Pressure | None = None
    valve_after_shutoff: bool | None = None


class Work(Record):
    """When the work begins, and when the delivery came."""

    start: Day | None = None
    delivered: Day | None = None


class StepTime(Record):
    """This site's own duration of one step of the order of work: in working days of 24 h."""

    step: Slug
    low: Duration
    likely: Duration
    high: Duration
