"""The raceways that a job plans, each sized by every rule for all that is pulled through it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.quantities.sizes import parse_trade_size
from schedules.raceways.bends import Bend
from schedules.raceways.occupants import bare_conductor, conductor, flat_cable, round_cable
from schedules.raceways.openings import leading_plug
from schedules.raceways.pulling import Pull
from schedules.raceways.trade_size import size_raceway
from schedules.site.legs import turns
from schedules.tables import load
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.job.records import Job, Raceway
    from schedules.quantities.sizes import TradeSize
    from schedules.raceways.occupants import Occupant
    from schedules.raceways.trade_size import RacewaySize
    from schedules.sheet.wiring import Cable
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class RacewayPlan:
    """One raceway of the job.

    given: the trade size that the job fixed, None where it is left to us. pulls, bends: what it is sized for. sized:
    what every rule asks for, None where nothing in it has a known width. unknown: cables whose width neither sheet nor
    table gives.
    """

    raceway: str
    kind: str
    cables: tuple[str, ...]
    given: TradeSize | None
    pulls: tuple[Pull, ...]
    bends: tuple[Bend, ...]
    sized: RacewaySize | None
    unknown: tuple[str, ...]

    @property
    def needed(self) -> TradeSize | None:
        """The least trade size that meets every rule, None where none made does or nothing is known."""
        if self.sized is None or self.sized.trade_size is None:
            return None
        return parse_trade_size(self.sized.trade_size)

    @property
    def size(self) -> TradeSize | None:
        """The size to install: the job's, else the least that serves."""
        return self.given or self.needed

    @property
    def large_enough(self) -> bool:
        """Whether the size that is planned meets every rule."""
        return self.needed is not None and (self.given is None or self.given >= self.needed)


def plan_raceways(job: Job, selection: Selection) -> tuple[RacewayPlan, ...]:
    """Size every raceway of the job that holds something with these options."""
    cables = {cable.tag: cable for cable in selection.cables}
    held = ((raceway, [cables[tag] for tag in raceway.cables if tag in cables]) for raceway in job.raceway)
    return tuple(_plan(job, selection, raceway, inside) for raceway, inside in held if inside)


def cable_occupant(cable: Cable, edition: Code) -> Occupant | None:
    """A cable's place in a raceway: by the sheet's diameter, else by its type's typical width; None if unknown."""
    if cable.diameter is not None:
        sheet = Source("equipment sheet", Confidence.SHEET)
        return round_cable(cable.tag, cable.diameter, edition=edition, source=sheet)
    table = load("typical_cable_dimensions")
    for row in table.where(cable=cable.type):
        source = table.source(row)
        if row.has("major_max_in"):
            return flat_cable(cable.tag, row.number("major_max_in"), edition=edition, source=source)
        return round_cable(cable.tag, row.number("diameter_max_in"), edition=edition, source=source)
    return None


def cable_occupants(cable: Cable, edition: Code) -> tuple[Occupant, ...]:
    """What a cable puts into a raceway: itself, or each of its conductors where they come without a jacket.

    The table's fill counts loose conductors one by one, so the sheet's width of their bundle stands for nothing here.
    Empty if a width is unknown.
    """
    insulation = _insulation_of_singles(cable.type)
    if insulation is None:
        occupant = cable_occupant(cable, edition)
        return () if occupant is None else (occupant,)
    try:
        found = [
            (
                core,
                bare_conductor(core.size, edition=edition)
                if core.colour == "bare"
                else conductor(core.size, insulation, edition=edition),
            )
            for core in cable.core
        ]
    except LookupError:
        return ()
    return tuple(replace(occupant, name=f"{cable.tag} {core.id}") for core, occupant in found)


def _insulation_of_singles(cable_type: str) -> str | None:
    """The insulation of conductors that are pulled without a jacket, None for a cable."""
    return next(
        (
            row.text("kind")
            for row in load("wiring_kinds").rows
            if row.text("what") == "conductors" and cable_type.startswith(row.text("kind"))
        ),
        None,
    )


@lru_cache(maxsize=256)
def _sized(
    kind: str, pulls: tuple[Pull, ...], bends: tuple[Bend, ...], nipple_in: float | None, edition: Code
) -> RacewaySize:
    """Sized once for what it holds: most changes of a job leave most raceways as they are."""
    return size_raceway(kind, pulls, bends=bends, nipple_in=nipple_in, edition=edition)


def _of_course(raceway: Raceway) -> tuple[Bend, ...]:
    """The bends that a raceway's own course makes at its corners."""
    points = [(point.along, point.out, point.up) for point in raceway.path]
    return tuple(Bend(angle) for angle in turns(points))


def _plan(job: Job, selection: Selection, raceway: Raceway, inside: list[Cable]) -> RacewayPlan:
    edition = job.adopted
    pulls = []
    unknown = []
    for cable in inside:
        occupants = cable_occupants(cable, edition)
        if not occupants:
            unknown.append(cable.tag)
        for place, occupant in enumerate(occupants):
            # Its maker asks for a size once, however many loose conductors it is made of.
            prescribed = None if place else cable.raceway
            pulls.append(Pull(occupant, leading_plug(selection, cable), prescribed, cable.tag))
    given = tuple(Bend(bend.angle, bend.radius, bend.then == "pull box") for bend in raceway.bend)
    bends = given or _of_course(raceway)
    sized = None
    if pulls:
        sized = _sized(raceway.kind, tuple(pulls), bends, raceway.nipple, edition)
    return RacewayPlan(
        raceway=raceway.tag,
        kind=raceway.kind,
        cables=tuple(cable.tag for cable in inside),
        given=raceway.trade_size,
        pulls=tuple(pulls),
        bends=bends,
        sized=sized,
        unknown=tuple(unknown),
    )
