"""Which size of conductor has which area, and how do the tables name it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.sizes import WireSize, parse_wire_size
from schedules.tables.loading import load
from schedules.working import Input, Source, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code

PROPERTIES = "nec_ch9_table8_dc_resistance"


@dataclass(frozen=True, slots=True)
class Area:
    """A conductor's area [cmil] as printed."""

    circular_mils: int
    source: Source


@dataclass(frozen=True, slots=True)
class SizeByArea:
    """The smallest conductor that has an area, and by how much the next smaller one misses it."""

    size: WireSize
    smaller: WireSize | None
    shortfall_cmil: float
    working: Working


def as_wire_size(size: WireSize | str) -> WireSize:
    """The size meant by `14 AWG`, `250 kcmil` or a table's `14`, `1/0`, `250`. Raises UnitError."""
    if isinstance(size, WireSize):
        return size
    return WireSize.from_table(size) if " " not in size and size[:1].isdigit() else parse_wire_size(size)


def table_cell(size: WireSize) -> str:
    """How the tables name a size: `14`, `1/0`, `250`."""
    return str(size).partition(" ")[0]


def sizes(edition: Code) -> tuple[WireSize, ...]:
    """Every size of Table 8, thinnest first. Raises LookupError for an unknown edition."""
    table = load(PROPERTIES)
    table.citation(edition)
    return tuple(sorted({WireSize.from_table(row.text("size")) for row in table.rows}))


def circular_mils(size: WireSize | str, *, edition: Code) -> Area:
    """Area of a conductor [cmil], Chapter 9 Table 8. Raises LookupError for a size that isn't printed."""
    table = load(PROPERTIES)
    wire = as_wire_size(size)
    rows = table.where(size=table_cell(wire))
    if not rows:
        raise LookupError(f"{table.title}: no row for {wire}")
    return Area(rows[0].count("circular_mils"), table.source(rows[0], "circular_mils", edition))


def smallest_of_area(needed_cmil: float, *, edition: Code) -> SizeByArea:
    """The smallest size of Table 8 with at least this area [cmil].

    Raises ValueError for an area that is not positive, LookupError for one above the table's largest.
    """
    if needed_cmil <= 0:
        raise ValueError(f"area must be above 0 cmil, not {needed_cmil:g}")
    smaller, shortfall = None, 0.0
    for size in sizes(edition):
        area = circular_mils(size, edition=edition)
        if area.circular_mils >= needed_cmil:
            return SizeByArea(size, smaller, shortfall, _by_area(size, needed_cmil, area))
        smaller, shortfall = size, needed_cmil - area.circular_mils
    raise LookupError(f"{load(PROPERTIES).title}: none has {needed_cmil:g} cmil; the largest is {smaller}")


def _by_area(size: WireSize, needed_cmil: float, area: Area) -> Working:
    return Working(
        name="smallest conductor of an area",
        formula="first size with at least the area needed",
        inputs=(
            Input("area needed", f"{needed_cmil:.0f} cmil"),
            Input(f"area of {size}", f"{area.circular_mils} cmil", str(area.source)),
        ),
        result=str(size),
        source=area.source,
    )
