"""The job file as one frozen record."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from schedules.files.records import (
    Allowance,
    Angle,
    Coordinate,
    Length,
    Line,
    Paragraph,
    Percent,
    Record,
    Reference,
    Size,
    Slug,
    Tag,
    Temperature,
    Trade,
)
from schedules.job.acknowledging import Acknowledged
from schedules.job.building import Box, Framing
from schedules.job.electrical import AmendedRule, Bundle, CircuitChange, Nameplate
from schedules.job.kitchen import Cabinet, CookingRange, KeepOut, Routing, Stock, Wall
from schedules.job.mechanical import Air, Duct, DuctFitting, Gas, Mounting, Space, StepTime, Stud, Work
from schedules.job.testing import Tested
from schedules.tables import Adopted, Amendment

Edition = Literal[2020, 2023, 2026]
ResidentialEdition = Literal[2009, 2012, 2015, 2018, 2021, 2024]
Surface = Literal["finished", "rough"]
RouteKind = Literal[
    "direct", "straight", "overhead", "underfloor", "cabinets", "shortest", "waypoints", "taped"
]
RacewayKind = Literal["EMT", "ENT", "FMC", "LFMC", "LFNC-B", "RMC", "PVC-40", "PVC-80"]


class Title(Record):
    """What identifies the job on every page. sheet: path to the equipment sheet, relative to this file.

    code: edition of the NEC that was adopted. residential_code: edition of the IRC.
    """

    name: Line
    sheet: Line
    revision: Line
    date: Line
    code: Edition
    residential_code: ResidentialEdition | None = None
    prepared_by: Line | None = None
    note: Paragraph | None = None


class Site(Record):
    """The room. Coordinates: along the wall from its left corner, out from it, up from the floor [in].

    tolerance: what each measurement may be off by. wall_finish, floor_finish: thickness still to come where a
    position was measured from the rough surface. above, below: what lies behind ceiling and floor; rise_above and
    drop_below: how far past ceiling or floor a cable runs there. cabinet_height: height of the run through cabinets.
    waste: share added to field cable for what is lost in cutting [%]. ambient: the hottest surroundings of the cables
    [C]. feeder_drop: share of the voltage that is lost before the panel [%]. range_wall: the wall that positions are
    measured along where they name none; without it the first one.
    """

    tolerance: Allowance
    range_wall: Tag | None = None
    ceiling: Length | None = None
    above: Literal["attic", "joists", "closed"] | None = None
    below: Literal["crawlspace", "basement", "slab"] | None = None
    rise_above: Allowance | None = None
    drop_below: Allowance | None = None
    cabinet_height: Length | None = None
    wall_finish: Allowance | None = None
    floor_finish: Allowance | None = None
    waste: Percent = 0.0
    ambient: Temperature | None = None
    feeder_drop: Percent | None = None


class Place(Record):
    """Where an enclosure is: the point at which its cables enter [in]. None where it is not measured yet.

    wall: which one it is measured along, without it the range wall. stands: on that wall; free in the kitchen (an
    island, a hood in its duct cover); in attic or underfloor; elsewhere in the house or outside. width, height, depth:
    of the box [in]. enters: the side of the box by which its cables enter. mounted: set into the wall or on it.
    """

    enclosure: Tag
    wall: Tag | None = None
    stands: Literal["wall", "free", "attic", "underfloor", "elsewhere"] = "wall"
    along: Coordinate | None = None
    out: Coordinate | None = None
    up: Coordinate | None = None
    surface: Surface = "finished"
    tolerance: Allowance | None = None
    width: Length | None = None
    height: Length | None = None
    depth: Length | None = None
    enters: Literal["back", "top", "bottom", "left", "right"] = "back"
    mounted: Literal["flush", "surface"] | None = None


class Waypoint(Record):
    """A point that a route passes [in]."""

    along: Coordinate
    out: Coordinate
    up: Coordinate


class Run(Record):
    """How one cable goes, and what the site changes about it.

    ambient: the hottest surroundings on its way, where they differ from the room's [C]. size, ground: conductors of a
    field cable bought thicker than the sheet's.
    """

    cable: Tag
    route: RouteKind
    taped: Length | None = None
    waypoint: tuple[Waypoint, ...] = ()
    from_opening: Tag | None = None
    to_opening: Tag | None = None
    extension: Slug | None = None
    ambient: Temperature | None = None
    size: Size | None = None
    ground: Size | None = None


class RacewayBend(Record):
    """A bend of a raceway: angle [deg], radius to its centreline [in], the least allowed where it isn't given.

    then: a box to pull from stands right after it.
    """

    angle: Angle
    radius: Length | None = None
    then: Literal["pull box"] | None = None


class Raceway(Record):
    """Conduit or tubing that the site gives to one or several cables. Without a trade size it is computed.

    path: the corners of its course, so that every cable in it goes that way. bend: every bend from end to end, in
    order; without any those of its course. nipple: its length where it only joins two boxes [in].
    """

    tag: Tag
    kind: RacewayKind
    cables: tuple[Tag, ...]
    trade_size: Trade | None = None
    bend: tuple[RacewayBend, ...] = ()
    nipple: Length | None = None
    path: tuple[Waypoint, ...] = ()


class AsBuilt(Record):
    """What was found or done on site: a cable's pulled length, or a conductor landed at one terminal."""

    cable: Tag
    length: Length | None = None
    landed: tuple[Reference, ...] = ()
    initials: Annotated[str, Field(min_length=1, max_length=6)]
    date: Line
    note: Paragraph | None = None


class Job(Record):
    """One kitchen. `format` is the version of this file format."""

    format: Literal[1]
    job: Title
    choices: tuple[Slug, ...]
    site: Site
    wall: tuple[Wall, ...] = ()
    cabinet: tuple[Cabinet, ...] = ()
    keep_out: tuple[KeepOut, ...] = ()
    cooking_range: CookingRange = CookingRange()
    routing: Routing = Routing()
    place: tuple[Place, ...] = ()
    run: tuple[Run, ...] = ()
    raceway: tuple[Raceway, ...] = ()
    circuit: tuple[CircuitChange, ...] = ()
    nameplate: tuple[Nameplate, ...] = ()
    bundle: tuple[Bundle, ...] = ()
    stock: tuple[Stock, ...] = ()
    box: tuple[Box, ...] = ()
    framing: tuple[Framing, ...] = ()
    amendment: tuple[AmendedRule, ...] = ()
    as_built: tuple[AsBuilt, ...] = ()
    acknowledged: tuple[Acknowledged, ...] = ()
    tested: tuple[Tested, ...] = ()
    mounting: Mounting = Mounting()
    stud: tuple[Stud, ...] = ()
    space: tuple[Space, ...] = ()
    duct: Duct = Duct()
    fitting: tuple[DuctFitting, ...] = ()
    air: Air = Air()
    gas: Gas = Gas()
    work: Work = Work()
    step: tuple[StepTime, ...] = ()

    @property
    def adopted(self) -> Adopted:
        """The NEC as it holds here: its edition and the local amendments."""
        return Adopted(
            str(self.job.code),
            tuple(Amendment(item.rule, item.number, item.unit, item.source) for item in self.amendment),
        )
