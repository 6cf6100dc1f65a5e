"""Which breaker or fuse may protect this conductor?"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.answers import Judgement, reaches, resting_on, rule_input
from schedules.tables.conductors import as_wire_size, table_cell
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Source, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.tables.edition import Code
    from schedules.tables.table import Row

_RATINGS = "nec_240_6_a_standard_ratings"
_SMALL = "nec_240_4_d_small_conductors"


@dataclass(frozen=True, slots=True)
class Rating:
    """A rating of an overcurrent device."""

    rating_a: int
    working: Working
    judgements: tuple[Judgement, ...] = ()


def standard_ratings(edition: Code) -> tuple[int, ...]:
    """Standard ratings [A] of fuses and breakers, Table 240.6(A). Raises LookupError for another edition."""
    return tuple(row.count("rating_a") for row in _rating_rows(edition))


def next_standard_rating(at_least_a: float, *, edition: Code) -> Rating:
    """The smallest standard rating of at least so much [A], Table 240.6(A).

    Raises ValueError for a current that is not positive, LookupError above the table's end.
    """
    if at_least_a <= 0:
        raise ValueError(f"current must be above 0 A, not {at_least_a:g}")
    rows = _rating_rows(edition)
    row = next((row for row in rows if reaches(row.count("rating_a"), at_least_a)), None)
    if row is None:
        raise LookupError(f"{load(_RATINGS).title}: none reaches {at_least_a:g} A")
    return Rating(
        row.count("rating_a"),
        Working(
            name="next standard rating",
            formula="smallest standard rating that is not below the current",
            inputs=(Input("current", f"{at_least_a:g} A"),),
            result=f"{row.count('rating_a')} A",
            source=load(_RATINGS).source(row, edition=edition),
            note=row.text("note"),
        ),
    )


def small_conductor_limit(size: WireSize | str, *, material: str, edition: Code) -> Rating | None:
    """Largest device [A] for a small conductor whatever its ampacity, 240.4(D); None for other sizes.

    material: `copper`, `aluminum` or `copper-clad aluminum`. Raises LookupError for an unknown edition.
    """
    table = load(_SMALL)
    table.citation(edition)
    wire = as_wire_size(size)
    for row in table.where(size=table_cell(wire)):
        if str(edition) not in row.words("editions") or material not in row.text("material").split(" or "):
            continue
        limit = row.count("max_overcurrent_a")
        return Rating(
            limit,
            Working(
                name=f"device limit for {wire} {material}",
                formula="small conductors have a fixed limit after all corrections and adjustments",
                inputs=(Input("conductor", f"{wire} {material}"),),
                result=f"{limit} A",
                source=_small_source(row, edition),
                note=row.text("note"),
            ),
        )
    return None


def largest_device(
    size: WireSize | str,
    *,
    material: str,
    ampacity_a: float,
    several_receptacles: bool,
    edition: Code,
) -> Rating | None:
    """The largest device [A] that may protect a conductor of this ampacity [A], 240.4(B) and (D).

    several_receptacles: the circuit has more than one receptacle for portable loads, so that the next size up
    isn't allowed. None where no standard rating is small enough. Raises LookupError above the table's end.
    """
    wire = as_wire_size(size)
    ceiling = rule("next_size_up_to", edition)
    row = _by_ampacity(ampacity_a, ceiling.number, several_receptacles, edition)
    if row is None:
        return None
    rating = row.count("rating_a")
    words = "its ampacity" if reaches(ampacity_a, rating) else "its ampacity, next standard rating above"
    small = small_conductor_limit(wire, material=material, edition=edition)
    if small is not None and small.rating_a < rating:
        rating, words = small.rating_a, "the fixed limit of a small conductor"
    steps = () if small is None else (small.working,)
    return Rating(
        rating,
        Working(
            name=f"largest device for {wire} {material}",
            formula="ampacity, or the next standard rating if allowed, never above a small conductor's limit",
            inputs=(
                Input("ampacity", f"{ampacity_a:g} A"),
                Input("several receptacles for portable loads", "yes" if several_receptacles else "no"),
                rule_input(ceiling),
            ),
            result=f"{rating} A",
            source=resting_on(
                f"NEC {edition} 240.4",
                load(_RATINGS).source(row, edition=edition),
                ceiling.source,
                *(step.source for step in steps),
            ),
            note=f"governed by {words}",
            steps=steps,
        ),
    )


def _by_ampacity(ampacity_a: float, ceiling_a: float, round_down: bool, edition: Code) -> Row | None:
    """The standard rating equal to the ampacity, else the next above where allowed, else the next below."""
    rows = _rating_rows(edition)
    not_above = [row for row in rows if reaches(ampacity_a, row.count("rating_a"))]
    nearest = not_above[-1] if not_above else None
    if round_down or (nearest is not None and reaches(nearest.count("rating_a"), ampacity_a)):
        return nearest
    above = next((row for row in rows if row.count("rating_a") > ampacity_a), None)
    if above is None:
        raise LookupError(f"{load(_RATINGS).title}: none above {ampacity_a:g} A")
    return above if above.count("rating_a") <= ceiling_a else nearest


@lru_cache(maxsize=64)
def _rating_rows(edition: Code) -> tuple[Row, ...]:
    table = load(_RATINGS)
    table.citation(edition)
    return tuple(row for row in table.rows if str(edition) in row.words("editions"))


def _small_source(row: Row, edition: Code) -> Source:
    """The list is numbered anew in 2023; later editions are cited by that number."""
    section = row.text("section_2020") if str(edition) == "2020" else row.text("section_2023")
    return resting_on(f"NEC {edition} {section}", load(_SMALL).source(row, "max_overcurrent_a", edition))
