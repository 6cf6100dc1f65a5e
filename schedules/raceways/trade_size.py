"""Which trade size does this raceway need, by which rule, and by how much?

Demands are met at once: the fill of the code; the two thickest alone, so that a third, thin one never makes
a raceway smaller (ours: by the letter it can); every connector's passage in pull order; in a nipple room for
all side by side, because its limit lets two conductors in that can't be; and the size that the equipment's
maker prescribes. The largest demand governs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.sizes import parse_trade_size
from schedules.raceways.bends import BendTotal, bend_total, between_pulls, least_bend_radius
from schedules.raceways.fill import Fill, FillSize, Jam, bore, fill, jam, least_trade_size, trade_sizes
from schedules.raceways.packing import fits, needed_bore
from schedules.raceways.passage import DERIVED_HERE
from schedules.raceways.pulling import Place, Pull, PullPlan, plan_pulls
from schedules.tables import load
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from schedules.raceways.bends import Bend
    from schedules.raceways.occupants import Occupant
    from schedules.tables.edition import Code

FILL = "fill"
TWO_THICKEST = "the two thickest alone"
PASSAGE = "connector passage"
ROOM = "room side by side"
PRESCRIBED = "size prescribed by the equipment's maker"

_SHEET = Source("equipment sheet", Confidence.SHEET)
_OURS = Source("our own margin", Confidence.DERIVED)


@dataclass(frozen=True, slots=True)
class Demand:
    """The least trade size that one rule asks for, None where no size made meets it; how the next smaller fails."""

    rule: str
    trade_size: str | None
    lacking: str
    working: Working


@dataclass(frozen=True, slots=True)
class RacewaySize:
    """A raceway sized by every rule. trade_size: None where no size made is large enough.

    governed_by: the rules that ask for this size. by_the_letter: what fill alone allows, its rounding included.
    fill, pulls, jam: in the size found, or in the largest made; pulls is None where no connector is pulled.
    """

    raceway: str
    trade_size: str | None
    demands: tuple[Demand, ...]
    governed_by: tuple[str, ...]
    by_the_letter: FillSize
    fill: Fill
    pulls: PullPlan | None
    jam: Jam | None
    bends: BendTotal
    working: Working


def size_raceway(
    raceway: str,
    pulls: Sequence[Pull],
    *,
    bends: Sequence[Bend] = (),
    nipple_in: float | None = None,
    edition: Code,
) -> RacewaySize:
    """The trade size of a raceway for everything that is pulled through it.

    bends: from end to end; without a radius of its own a bend has the least allowed for the size tried. Those between
    two pull points are added up, and the stretch with the most is told.
    nipple_in: length [in] of a raceway between two boxes, None for no nipple.
    Raises ValueError for nothing to pull, LookupError for an unknown raceway or a size it isn't made in.
    """
    occupants = [pull.occupant for pull in pulls]
    letter = least_trade_size(raceway, occupants, nipple_in=nipple_in, edition=edition)
    by_fill = _by_fill(raceway, occupants, nipple_in, edition)
    by_thickest = _by_two_thickest(raceway, occupants, nipple_in, edition)
    connectors = any(pull.plug is not None for pull in pulls)
    demands = [by_fill]
    if _rank(by_thickest, raceway) > _rank(by_fill, raceway):
        demands.append(by_thickest)
    if connectors:
        demands.append(_by_passage(raceway, pulls, bends, edition))
    if nipple_in is not None:
        demands.append(_by_room(raceway, occupants, edition))
    demands += [
        _by_maker(raceway, pull.occupant.name, str(pull.prescribed), edition)
        for pull in pulls
        if pull.prescribed is not None
    ]
    sizes = trade_sizes(raceway)
    ranks = [
        len(sizes) if demand.trade_size is None else sizes.index(demand.trade_size) for demand in demands
    ]
    highest = max(ranks)
    governing = tuple(demand for demand, rank in zip(demands, ranks, strict=True) if rank == highest)
    found = sizes[highest] if highest < len(sizes) else None
    shown = found or sizes[-1]
    return RacewaySize(
        raceway=raceway,
        trade_size=found,
        demands=tuple(demands),
        governed_by=tuple(dict.fromkeys(demand.rule for demand in governing)),
        by_the_letter=letter,
        fill=fill(raceway, shown, occupants, nipple_in=nipple_in, edition=edition),
        pulls=plan_pulls(pulls, _places(raceway, shown, bends, edition)) if connectors else None,
        jam=jam(raceway, shown, occupants, edition=edition),
        bends=max(
            (
                bend_total([bend.degrees for bend in stretch], edition=edition)
                for stretch in between_pulls(bends)
            ),
            key=lambda total: total.degrees,
        ),
        working=_working(raceway, found, demands, governing, letter),
    )


def _sizes(raceway: str) -> tuple[str, ...]:
    """Trade sizes for general use, smallest first; a smaller one is for a person to choose."""
    sizes = trade_sizes(raceway)
    return sizes[sizes.index(load("raceway_kinds").row(raceway).text("general_use_from")) :]


def _rank(demand: Demand, raceway: str) -> int:
    """The demanded size's place among those made; beyond the last where none is large enough."""
    sizes = _sizes(raceway)
    return len(sizes) if demand.trade_size is None else sizes.index(demand.trade_size)


def _by_fill(raceway: str, occupants: Sequence[Occupant], nipple_in: float | None, edition: Code) -> Demand:
    """Fill without rounding a count up: rounding is a permission, and a raceway for equal sizes only."""

    def meets(size: str) -> tuple[bool, str, Working]:
        tried = fill(raceway, size, occupants, nipple_in=nipple_in, edition=edition)
        lacking = f"{tried.bore} would be filled {tried.percent:.1f} %, limit {tried.limit_percent:g} %"
        return tried.allowed and not tried.rounded_up, lacking, tried.working

    return _least(FILL, raceway, meets)


def _by_two_thickest(
    raceway: str, occupants: Sequence[Occupant], nipple_in: float | None, edition: Code
) -> Demand:
    thickest = sorted(occupants, key=lambda occupant: -occupant.area_sq_in)[:2]
    demands = [_by_fill(raceway, thickest[: count + 1], nipple_in, edition) for count in range(len(thickest))]
    sizes = trade_sizes(raceway)
    worst = max(
        demands, key=lambda item: len(sizes) if item.trade_size is None else sizes.index(item.trade_size)
    )
    own = Working(
        name=f"least trade size of {raceway} by its two thickest",
        formula="a third, thin conductor makes the two thickest no easier to pull: they fit as if alone",
        inputs=tuple(Input(occupant.name, f"{occupant.area_sq_in:.4f} sq in") for occupant in thickest),
        result=worst.trade_size or "none made is large enough",
        source=_OURS,
        steps=(worst.working,),
    )
    return Demand(TWO_THICKEST, worst.trade_size, worst.lacking, own)


def _by_passage(raceway: str, pulls: Sequence[Pull], bends: Sequence[Bend], edition: Code) -> Demand:
    def meets(size: str) -> tuple[bool, str, Working]:
        plan = plan_pulls(pulls, _places(raceway, size, bends, edition))
        tightest = plan.tightest
        if tightest is None:
            raise ValueError("nothing is pulled through the raceway")
        lacking = f"{tightest.working.name} lacks {-tightest.spare_in:.3f} in"
        return plan.passes, lacking, tightest.working

    return _least(PASSAGE, raceway, meets)


def _by_room(raceway: str, occupants: Sequence[Occupant], edition: Code) -> Demand:
    diameters = tuple(occupant.diameter_in for occupant in occupants)

    def meets(size: str) -> tuple[bool, str, Working]:
        inside = bore(raceway, size, edition=edition)
        needed = needed_bore(inside.diameter_in, diameters)
        working = Working(
            name=f"room in {inside}",
            formula="everything lies side by side in the bore",
            inputs=(
                *(Input(occupant.name, f"{occupant.diameter_in:.3f} in") for occupant in occupants),
                Input(f"bore of {inside}", f"{inside.diameter_in:.3f} in", str(inside.source)),
            ),
            result=f"needs {needed:.3f} in",
            source=DERIVED_HERE,
        )
        lacking = f"{inside} is {needed - inside.diameter_in:.3f} in too narrow for all side by side"
        return fits(inside.diameter_in, diameters), lacking, working

    return _least(ROOM, raceway, meets)


def _by_maker(raceway: str, cable: str, prescribed: str, edition: Code) -> Demand:
    """The maker's least size; in a raceway not made in it, the next one that is."""
    least = parse_trade_size(prescribed)
    found = next((size for size in _sizes(raceway) if parse_trade_size(size) >= least), None)
    inside = "" if found is None else f"{bore(raceway, found, edition=edition).diameter_in:.3f} in"
    working = Working(
        name=f"least trade size of {raceway} by the maker of {cable}",
        formula="a prescribed size is a lower bound",
        inputs=(Input("prescribed", prescribed, str(_SHEET)), Input("bore", inside or "none made")),
        result=found or "none made is large enough",
        source=_SHEET,
    )
    return Demand(PRESCRIBED, found, f"the maker of {cable} asks for at least {prescribed}", working)


def _least(rule: str, raceway: str, meets: Callable[[str], tuple[bool, str, Working]]) -> Demand:
    lacking = ""
    working: Working | None = None
    for size in _sizes(raceway):
        met, shortfall, working = meets(size)
        if met:
            return Demand(rule, size, lacking, working)
        lacking = shortfall
    assert working is not None, "every raceway is printed in some size"  # noqa: S101
    return Demand(rule, None, lacking, working)


def _places(raceway: str, size: str, bends: Sequence[Bend], edition: Code) -> list[Place]:
    inside = bore(raceway, size, edition=edition)
    places = [Place(f"{inside}, straight", inside.diameter_in)]
    radii: dict[float, float] = {}
    for bend in bends:
        if bend.degrees > 0:
            radius = bend.radius_in or least_bend_radius(raceway, size, edition=edition).radius_in
            radii[radius] = max(bend.degrees, radii.get(radius, 0.0))
    places += [
        Place(f"{inside}, bend of {degrees:g} degrees, radius {radius:g} in", inside.diameter_in, radius)
        for radius, degrees in radii.items()
    ]
    return places


def _working(
    raceway: str,
    found: str | None,
    demands: Sequence[Demand],
    governing: Sequence[Demand],
    letter: FillSize,
) -> Working:
    by = " and ".join(dict.fromkeys(demand.rule for demand in governing))
    lacking = governing[0].lacking
    note = f"{lacking}" if lacking else "the smallest size for general use"
    if letter.trade_size != found and letter.trade_size is not None:
        note += f"; fill alone allows {letter.trade_size} by the letter"
    return Working(
        name=f"trade size of {raceway}",
        formula="the largest of all demands",
        inputs=tuple(
            Input(demand.rule, demand.trade_size or "none made is large enough", str(demand.working.source))
            for demand in demands
        ),
        result=f"trade size {found}, governed by {by}" if found else f"none made meets {by}",
        source=governing[0].working.source,
        note=note,
        steps=tuple(demand.working for demand in demands),
    )
