"""How full is this raceway, and which trade size do these conductors and cables need?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches, resting_on, rule_input
from schedules.raceways.occupants import alike
from schedules.tables import load, rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.quantities.sizes import TradeSize
    from schedules.raceways.occupants import Occupant
    from schedules.tables.edition import Code
    from schedules.working import Source

_FILL = "nec_ch9_table1_fill"
_NOTES = "nec_ch9_notes"
_RACEWAYS = "nec_ch9_table4_raceway_internal"


@dataclass(frozen=True, slots=True)
class Bore:
    """The inside of a raceway as printed: diameter [in] and area [sq in]."""

    raceway: str
    trade_size: str
    diameter_in: float
    area_sq_in: float
    source: Source

    def __str__(self) -> str:
        return f"{self.raceway} {self.trade_size}"


@dataclass(frozen=True, slots=True)
class FillLimit:
    """How much of a raceway's inside may be filled [%]."""

    percent: float
    working: Working


@dataclass(frozen=True, slots=True)
class Fill:
    """How full one raceway is [%], and whether that is allowed.

    rounded_up: allowed only because a count of equal conductors may be rounded up.
    """

    bore: Bore
    percent: float
    limit_percent: float
    allowed: bool
    rounded_up: bool
    working: Working


@dataclass(frozen=True, slots=True)
class MostConductors:
    """How many equal conductors a raceway may hold."""

    count: int
    working: Working


@dataclass(frozen=True, slots=True)
class FillSize:
    """The least trade size that a fill allows, None where none made does; `fill` and the next smaller one's."""

    trade_size: str | None
    fill: Fill
    smaller: Fill | None
    working: Working


@dataclass(frozen=True, slots=True)
class Jam:
    """How likely three conductors are to jam side by side in a bend: ratio of bore to conductor diameter."""

    ratio: float
    likely: bool
    working: Working


def bore(raceway: str, trade_size: TradeSize | str, *, edition: Code) -> Bore:
    """The inside of a raceway, NEC Chapter 9 Table 4. Raises LookupError for a raceway or size not printed."""
    table = load(_RACEWAYS)
    row = table.row(raceway, str(trade_size))
    return Bore(
        raceway,
        str(trade_size),
        row.number("internal_diameter_in"),
        row.number("internal_area_sq_in"),
        table.source(row, edition=edition),
    )


def trade_sizes(raceway: str) -> tuple[str, ...]:
    """Every trade size printed for a raceway, smallest first. Raises LookupError for an unknown raceway."""
    rows = load(_RACEWAYS).where(raceway=raceway)
    if not rows:
        known = ", ".join(dict.fromkeys(row.text("raceway") for row in load(_RACEWAYS).rows))
        raise LookupError(f"no raceway {raceway!r}; there are: {known}")
    return tuple(row.text("trade_size") for row in rows)


def fill_limit(count: int, *, nipple_in: float | None = None, edition: Code) -> FillLimit:
    """Largest share of a raceway's inside [%] that `count` conductors or cables may fill, NEC Chapter 9 Table 1.

    nipple_in: length [in] of a raceway between two boxes; a short one has a limit of its own. None: no nipple.
    Raises ValueError for fewer than one conductor or a length that is not above zero.
    """
    if count < 1:
        raise ValueError(f"a fill needs at least one conductor, not {count}")
    if nipple_in is not None:
        if nipple_in <= 0:
            raise ValueError(f"a nipple's length must be above 0 in, not {nipple_in:g}")
        longest = rule("nipple_length", edition, _NOTES)
        if reaches(longest.number, nipple_in):
            return _nipple_limit(nipple_in, edition)
    table = load(_FILL)
    row = [row for row in table.rows if row.count("conductors_min") <= count][-1]
    percent = row.number("max_fill_percent")
    return FillLimit(
        percent,
        Working(
            name="fill limit",
            formula="share of the raceway's inside by the number of conductors; a cable counts as one",
            inputs=(Input("conductors and cables", str(count)),),
            result=f"{percent:g} %",
            source=table.source(row, edition=edition),
        ),
    )


def _nipple_limit(nipple_in: float, edition: Code) -> FillLimit:
    longest, share = rule("nipple_length", edition, _NOTES), rule("nipple_fill", edition, _NOTES)
    return FillLimit(
        share.number,
        Working(
            name="fill limit of a nipple",
            formula="a raceway this short has one limit, whatever the number of conductors",
            inputs=(Input("length", f"{nipple_in:g} in"), rule_input(longest), rule_input(share)),
            result=f"{share.number:g} %",
            source=resting_on(share.source.citation, share.source, longest.source),
        ),
    )


def fill(
    raceway: str,
    trade_size: TradeSize | str,
    occupants: Sequence[Occupant],
    *,
    nipple_in: float | None = None,
    edition: Code,
) -> Fill:
    """How full a raceway is [%] with these conductors and cables, and whether it may be.

    Equipment grounding conductors are occupants like any other. nipple_in: as in `fill_limit`.
    Raises ValueError for no occupant, LookupError for a raceway or size not printed.
    """
    inside = bore(raceway, trade_size, edition=edition)
    limit = fill_limit(len(occupants), nipple_in=nipple_in, edition=edition)
    taken = sum(occupant.area_sq_in for occupant in occupants)
    percent = 100 * taken / inside.area_sq_in
    allowed, note = reaches(limit.percent, percent), ""
    rounded_up = not allowed and _rounds_up(inside, limit, occupants, edition)
    if rounded_up:
        rounding = rule("rounding", edition, _NOTES)
        note = f"over the limit, allowed because the count of equal conductors rounds up: {rounding.source}"
    return Fill(
        inside,
        percent,
        limit.percent,
        allowed or rounded_up,
        rounded_up,
        Working(
            name=f"fill of {inside}",
            formula="100 x sum of the occupants' areas / inside area of the raceway, not above the limit",
            inputs=(
                *_areas(occupants),
                Input("sum of areas", f"{taken:.4f} sq in"),
                Input(f"inside area of {inside}", f"{inside.area_sq_in:.3f} sq in", str(inside.source)),
                Input("limit", limit.working.result, str(limit.working.source)),
            ),
            result=f"{percent:.1f} %, {'allowed' if allowed or rounded_up else 'too full'}",
            source=resting_on(
                limit.working.source.citation,
                limit.working.source,
                inside.source,
                *(occupant.source for occupant in occupants),
            ),
            note=note,
            steps=(limit.working,),
        ),
    )


def _areas(occupants: Sequence[Occupant]) -> tuple[Input, ...]:
    counts: dict[Occupant, int] = {}
    for occupant in occupants:
        counts[occupant] = counts.get(occupant, 0) + 1
    return tuple(
        Input(
            f"{count} x {occupant.name}" if count > 1 else occupant.name,
            f"{occupant.area_sq_in:.4f} sq in" + (" each" if count > 1 else ""),
            str(occupant.source),
        )
        for occupant, count in counts.items()
    )


def _rounds_up(inside: Bore, limit: FillLimit, occupants: Sequence[Occupant], edition: Code) -> bool:
    quotient = limit.percent / 100 * inside.area_sq_in / occupants[0].area_sq_in
    return alike(occupants) and _rounded(quotient, edition) >= len(occupants)


def _rounded(quotient: float, edition: Code) -> int:
    """A count of equal conductors: a fraction of at least the published one counts as a whole.

    Below one the fraction is not taken: that a single conductor may be rounded up was found in no text.
    """
    whole = math.floor(quotient)
    enough = rule("rounding", edition, _NOTES).number if whole else 1.0
    return whole + 1 if reaches(quotient - whole, enough) else whole


def most_conductors(
    raceway: str,
    trade_size: TradeSize | str,
    occupant: Occupant,
    *,
    nipple_in: float | None = None,
    edition: Code,
) -> MostConductors:
    """How many equal conductors or cables a raceway may hold, with the count's fraction rounded as published.

    Raises LookupError for a raceway or size not printed.
    """
    inside = bore(raceway, trade_size, edition=edition)
    rounding = rule("rounding", edition, _NOTES)
    # From the row for most conductors down to the one for a single one: the first that its own limit fills.
    for row in reversed(load(_FILL).rows):
        least = row.count("conductors_min")
        limit = fill_limit(least, nipple_in=nipple_in, edition=edition)
        quotient = limit.percent / 100 * inside.area_sq_in / occupant.area_sq_in
        count = _rounded(quotient, edition)
        if row.has("conductors_max"):
            count = min(count, row.count("conductors_max"))
        if count >= least:
            break
    return MostConductors(
        count,
        Working(
            name=f"most {occupant.name} in {inside}",
            formula="limit x inside area / area of one, down to a whole number unless its fraction is large enough",
            inputs=(
                Input("limit", limit.working.result, str(limit.working.source)),
                Input(f"inside area of {inside}", f"{inside.area_sq_in:.3f} sq in", str(inside.source)),
                Input(f"area of {occupant.name}", f"{occupant.area_sq_in:.4f} sq in", str(occupant.source)),
                Input("quotient", f"{quotient:.2f}"),
                rule_input(rounding),
            ),
            result=str(count),
            source=resting_on(
                limit.working.source.citation,
                limit.working.source,
                inside.source,
                occupant.source,
                rounding.source,
            ),
        ),
    )


def least_trade_size(
    raceway: str, occupants: Sequence[Occupant], *, nipple_in: float | None = None, edition: Code
) -> FillSize:
    """The least trade size of a raceway in which this fill is allowed, to the letter of the notes.

    From two occupants to three the published limit grows, so a third, small one can make this size smaller.
    Raises ValueError for no occupant, LookupError for an unknown raceway.
    """
    tried: list[Fill] = []
    for size in trade_sizes(raceway):
        tried.append(fill(raceway, size, occupants, nipple_in=nipple_in, edition=edition))
        if tried[-1].allowed:
            break
    last, smaller = tried[-1], tried[-2] if len(tried) > 1 else None
    found = last.bore.trade_size if last.allowed else None
    lacking = "" if smaller is None else f"{smaller.bore} would be filled {smaller.percent:.1f} %"
    return FillSize(
        found,
        last,
        smaller,
        Working(
            name=f"least trade size of {raceway} by fill",
            formula="the smallest whose fill is allowed",
            inputs=last.working.inputs,
            result=f"trade size {found}, filled {last.percent:.1f} %"
            if found
            else "none made is large enough",
            source=last.working.source,
            note=lacking,
            steps=(last.working,) if smaller is None else (smaller.working, last.working),
        ),
    )


def jam(
    raceway: str, trade_size: TradeSize | str, occupants: Sequence[Occupant], *, edition: Code
) -> Jam | None:
    """Whether three conductors are likely to jam side by side in a bend; None for any other number.

    For three of unlike size their mean diameter is taken, from memory of trade practice.
    Raises LookupError for a raceway or size not printed.
    """
    if len(occupants) != 3:
        return None
    inside = bore(raceway, trade_size, edition=edition)
    low, high = rule("jam_ratio_low", edition, _NOTES), rule("jam_ratio_high", edition, _NOTES)
    diameter = sum(occupant.diameter_in for occupant in occupants) / 3
    ratio = inside.diameter_in / diameter
    likely = reaches(ratio, low.number) and reaches(high.number, ratio)
    return Jam(
        ratio,
        likely,
        Working(
            name=f"jam ratio in {inside}",
            formula="inside diameter / diameter of one conductor; jamming is likely inside the band",
            inputs=(
                Input(f"inside diameter of {inside}", f"{inside.diameter_in:.3f} in", str(inside.source)),
                Input("diameter of one conductor", f"{diameter:.3f} in", str(occupants[0].source)),
                Input("band", f"{low.number:g} to {high.number:g}", str(low.source)),
            ),
            result=f"{ratio:.2f}, {'jamming is likely' if likely else 'outside the band'}",
            source=resting_on(
                low.source.citation, low.source, inside.source, *(occupant.source for occupant in occupants)
            ),
            note="" if alike(occupants) else "unlike sizes: their mean diameter is taken (from memory)",
        ),
    )
