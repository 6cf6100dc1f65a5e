"""What takes room in a raceway: a conductor, bare or insulated, or a cable."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import resting_on
from schedules.tables import load, rule
from schedules.tables.conductors import as_wire_size, table_cell
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.quantities.sizes import WireSize
    from schedules.tables import Row, Rule
    from schedules.tables.edition import Code

_INSULATED = "nec_ch9_table5_insulated_conductors"
_BARE = "nec_ch9_table8_dc_resistance"
_NOTES = "nec_ch9_notes"
_MEASURED = Source("measured", Confidence.JOB)


@dataclass(frozen=True, slots=True)
class Occupant:
    """One conductor or cable in a raceway: its diameter [in] and the area [sq in] that counts for fill."""

    name: str
    diameter_in: float
    area_sq_in: float
    source: Source


def conductor(size: WireSize | str, insulation: str = "THHN", *, edition: Code) -> Occupant:
    """One insulated conductor, NEC Chapter 9 Table 5. An insulated equipment grounding conductor is one too.

    size: `12 AWG` or as the table has it, `12`, `1/0`, `250`. insulation: `THHN`, `THWN-2`, `XHHW`, `TFFN`, ….
    Raises LookupError for a size or insulation not printed, UnitError for a size that isn't made.
    """
    wire = as_wire_size(size)
    table = load(_INSULATED)
    row = table.row(_family(insulation), table_cell(wire))
    return _printed(f"{wire} {insulation}", row, "", table.source(row, edition=edition))


def bare_conductor(size: WireSize | str, *, stranding: str = "stranded", edition: Code) -> Occupant:
    """One bare conductor, as equipment grounding often is, NEC Chapter 9 Table 8.

    stranding: `solid` or `stranded`. Raises LookupError for a size or stranding not printed, UnitError for a
    size that isn't made.
    """
    wire = as_wire_size(size)
    table = load(_BARE)
    row = table.row(table_cell(wire), stranding)
    by_note = rule("bare_conductors", edition, _NOTES)
    printed = table.source(row, "bare_area_sq_in", edition)
    return _printed(f"{wire} bare", row, "bare_", resting_on(printed.citation, printed, by_note.source))


def round_cable(name: str, diameter_in: float, *, edition: Code, source: Source = _MEASURED) -> Occupant:
    """A round cable or cord of this outside diameter [in]; it counts as one conductor.

    source: where the diameter comes from. Raises ValueError for a diameter that is not above zero.
    """
    counted = rule("multiconductor_cable", edition, _NOTES)
    return _cable(name, diameter_in, source, counted)


def flat_cable(name: str, major_in: float, *, edition: Code, source: Source = _MEASURED) -> Occupant:
    """A flat or oval cable of this larger outside width [in]; it counts as one round of that diameter.

    source: where the width comes from. Raises ValueError for a width that is not above zero.
    """
    counted = rule("flat_cable", edition, _NOTES)
    return _cable(name, major_in, source, counted)


def alike(occupants: Sequence[Occupant]) -> bool:
    """Whether all are of one size."""
    return len({(occupant.diameter_in, occupant.area_sq_in) for occupant in occupants}) == 1


def _family(insulation: str) -> str:
    families = dict.fromkeys(row.text("insulation") for row in load(_INSULATED).rows)
    for family in families:
        if insulation == family or insulation in family.split("/"):
            return family
    known = ", ".join(name for family in families for name in family.split("/"))
    raise LookupError(f"no insulation {insulation!r}; there are: {known}")


def _printed(name: str, row: Row, prefix: str, source: Source) -> Occupant:
    return Occupant(name, row.number(f"{prefix}diameter_in"), row.number(f"{prefix}area_sq_in"), source)


def _cable(name: str, diameter_in: float, source: Source, counted: Rule) -> Occupant:
    if not 0 < diameter_in < math.inf:
        raise ValueError(f"{name}: the diameter must be above 0 in, not {diameter_in:g}")
    citation = f"{source.citation}, counted by {counted.source.citation}"
    resting = resting_on(citation, source, counted.source)
    return Occupant(name, diameter_in, math.pi / 4 * diameter_in**2, resting)
