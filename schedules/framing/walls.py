"""Does this raceway go into this wall?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.answers import Verdict, reaches, resting_on
from schedules.framing.cuts import Hole, plate_tie_needed, stud_hole
from schedules.framing.nail_plates import plate_along_framing, plate_for_hole
from schedules.site.lumber import lumber
from schedules.tables import load
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import TradeSize
    from schedules.tables.edition import Code

Way = Literal["through the studs", "up the bay"]
"""How a raceway runs in a wall: across its studs, or upright between two of them and through the plates."""

_OUTSIDES = "raceway_outside_diameter"
# A hole is bored this much larger than what goes through it, then up to the next bit [in].
_CLEARANCE_IN = 1 / 16
_BIT_STEP_IN = 1 / 8
BORED = Source("hole bored larger than the raceway", Confidence.COMMON_PRACTICE)
_GIVEN = Source("outside diameter as given", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class Wall:
    """A wood wall as far as wiring minds it: stud size; exterior or bearing; studs doubled where it is bored."""

    stud: str
    bearing: bool
    doubled: bool = False


@dataclass(frozen=True, slots=True)
class Outside:
    """Outside diameter of a raceway [in]."""

    diameter_in: float
    source: Source


@dataclass(frozen=True, slots=True)
class WallFit:
    """One raceway in one wall: outside diameter and hole bored for it [in].

    hole: through a stud, None up the bay. tie: of the top plate, None through the studs.
    """

    raceway: str
    trade_size: str
    wall: Wall
    way: Way
    outside_in: float
    hole_in: float
    fits: bool
    hole: Hole | None
    steel_plate: Verdict
    tie: Verdict | None
    working: Working


def outside_diameter(raceway: str, trade_size: TradeSize | str, given_in: float | None = None) -> Outside:
    """Outside diameter of a raceway [in]: the given one, else the product standard's.

    Raises LookupError where none is given and none carried, ValueError for one that is not above zero.
    """
    if given_in is not None:
        if given_in <= 0:
            raise ValueError(f"an outside diameter must be above 0 in, not {given_in:g}")
        return Outside(given_in, _GIVEN)
    table = load(_OUTSIDES)
    row = table.row(raceway, str(trade_size))
    source = Source(f"outside diameter by {row.text('product_standard')}", table.source(row).confidence)
    return Outside(row.number("outside_diameter_in"), source)


def bored_for(outside_in: float) -> float:
    """Diameter of the hole bored for something of this outside diameter [in]: a sixteenth more, up to an eighth."""
    return math.ceil((outside_in + _CLEARANCE_IN) / _BIT_STEP_IN - 1e-9) * _BIT_STEP_IN


def raceway_in_wall(
    raceway: str,
    trade_size: TradeSize | str,
    wall: Wall,
    *,
    way: Way,
    outside_in: float | None = None,
    edition: Code,
    framing_edition: Code,
) -> WallFit:
    """Whether a raceway fits a wall, in the middle of its depth, and the steel plate and plate tie that go with it.

    outside_in: outside diameter [in] of a raceway whose standard's value isn't carried. edition: of the NEC;
    framing_edition: of the IRC. Raises LookupError for an unknown size, or for an outside diameter that is
    neither given nor carried.
    """
    size = str(trade_size)
    outside = outside_diameter(raceway, size, outside_in)
    bored = bored_for(outside.diameter_in)
    depth = lumber(wall.stud).depth_in
    hole, tie = None, None
    if way == "through the studs":
        hole = stud_hole(
            wall.stud, bored, bearing=wall.bearing, doubled=wall.doubled, edition=framing_edition
        )
        fits, decisive = hole.allowed, hole.working
        steel = plate_for_hole(max(0.0, hole.edge_in), wiring=raceway, edition=edition)
    else:
        fits = reaches(depth, bored)
        tie = plate_tie_needed(wall.stud, min(bored, depth), bearing=wall.bearing, edition=framing_edition)
        decisive = tie.working
        edge = max(0.0, (depth - outside.diameter_in) / 2)
        steel = plate_along_framing(edge, wiring=raceway, edition=edition)
    working = Working(
        name=f"{raceway} {size} {way} of a {wall.stud} wall",
        formula=(
            "the hole bored for it is allowed in every stud"
            if hole is not None
            else "the hole bored for it is no wider than the plates"
        ),
        inputs=(
            Input("outside diameter", f"{outside.diameter_in:.3f} in", str(outside.source)),
            Input("hole", f"{bored:g} in", str(BORED)),
            Input("depth of the wall's studs", f"{depth:g} in"),
        ),
        result="fits" if fits else "does not fit",
        source=resting_on(decisive.source.citation, decisive.source, outside.source, BORED),
        steps=(decisive, steel.working),
    )
    return WallFit(raceway, size, wall, way, outside.diameter_in, bored, fits, hole, steel, tie, working)
