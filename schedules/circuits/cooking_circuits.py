"""Which circuit, receptacle, neutral and taps does an electric range or oven need?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches, resting_on, rule_input
from schedules.circuits.demand import LIMITS
from schedules.circuits.overcurrent import Rating, next_standard_rating
from schedules.tables.conductors import as_wire_size
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.tables.edition import Code

_RECEPTACLES = "nec_210_21_b_3_receptacle_rating"
_W_PER_KW = 1000


@dataclass(frozen=True, slots=True)
class ReceptacleRatings:
    """Ratings of the receptacles that a circuit may have; most_a is None where only a least is given."""

    least_a: int
    most_a: int | None
    working: Working


@dataclass(frozen=True, slots=True)
class ReducedNeutral:
    """The least neutral of a 3-wire range circuit: ampacity, and a size that it is never below."""

    ampacity_a: float
    least_size: WireSize
    working: Working


@dataclass(frozen=True, slots=True)
class TapAmpacity:
    """The least ampacity of a tap."""

    ampacity_a: float
    working: Working


def range_circuit_rating(rating_kw: float, *, load_kw: float, supply_v: float, edition: Code) -> Rating:
    """Least rating [A] of a branch circuit for a range, 210.19 with the load by Table 220.55.

    rating_kw: nameplate [kW]. load_kw: as it counts, from `cooking_branch_load` [kW]. supply_v: between the
    legs [V]. Ranges from a certain rating up have a least circuit whatever their load. Raises ValueError for
    a value that is not positive.
    """
    if min(rating_kw, load_kw, supply_v) <= 0:
        raise ValueError(
            f"need rating, load and voltage, not {rating_kw:g} kW, {load_kw:g} kW, {supply_v:g} V"
        )
    threshold, least = rule("range_circuit_from", edition, LIMITS), rule("range_circuit_min", edition)
    current = load_kw * _W_PER_KW / supply_v
    needed = max(current, least.number) if reaches(rating_kw, threshold.number) else current
    standard = next_standard_rating(needed, edition=edition)
    return Rating(
        standard.rating_a,
        Working(
            name="range branch circuit",
            formula="load / voltage, for larger ranges not below their least circuit; next standard rating",
            inputs=(
                Input("nameplate", f"{rating_kw:g} kW"),
                Input("load", f"{load_kw:g} kW"),
                Input("supply", f"{supply_v:g} V"),
                Input("current", f"{current:.2f} A"),
                rule_input(threshold),
                rule_input(least),
            ),
            result=f"{standard.rating_a} A",
            source=resting_on(least.source.citation, least.source, threshold.source, standard.working.source),
            steps=(standard.working,),
        ),
    )


def receptacle_ratings(circuit_a: int, *, receptacles: int, edition: Code) -> ReceptacleRatings:
    """Ratings [A] that the receptacles on a circuit may have, 210.21(B)(1) and (3).

    receptacles: how many, a duplex counting as two. Raises ValueError for none, LookupError for a circuit
    rating that the table doesn't list.
    """
    if receptacles < 1:
        raise ValueError(f"need at least one receptacle, not {receptacles}")
    single, above = rule("single_receptacle", edition), rule("receptacle_above", edition)
    if receptacles == 1 or circuit_a > above.number:
        governing = single if receptacles == 1 else above
        least, most, source = circuit_a, None, governing.source
    else:
        table = load(_RECEPTACLES)
        row = table.row(circuit_a)
        most = row.count("receptacle_max_a")
        least = row.count("receptacle_min_a") if row.has("receptacle_min_a") else most
        source = table.source(row, "receptacle_max_a", edition)
    allowed = (
        f"{least} A or more" if most is None else f"{least} A" if least == most else f"{least} to {most} A"
    )
    return ReceptacleRatings(
        least,
        most,
        Working(
            name="receptacle rating",
            formula="a single one not below its circuit; of several, as the table lists for the circuit",
            inputs=(
                Input("circuit", f"{circuit_a} A"),
                Input("receptacles", str(receptacles)),
                rule_input(above),
            ),
            result=allowed,
            source=source,
        ),
    )


def range_receptacle_rating(load_kw: float, *, supply_v: float, edition: Code) -> Rating:
    """Least rating [A] of a receptacle for one range, from its demand load [kW], 210.21(B)(4).

    supply_v: between the legs [V]. Raises ValueError for a load or voltage that is not positive.
    """
    if min(load_kw, supply_v) <= 0:
        raise ValueError(f"need load and voltage above 0, not {load_kw:g} kW, {supply_v:g} V")
    permitted = rule("range_receptacle", edition)
    current = load_kw * _W_PER_KW / supply_v
    standard = next_standard_rating(current, edition=edition)
    return Rating(
        standard.rating_a,
        Working(
            name="range receptacle",
            formula="demand load of one range / voltage, next standard rating",
            inputs=(
                Input("load", f"{load_kw:g} kW"),
                Input("supply", f"{supply_v:g} V"),
                Input("current", f"{current:.2f} A"),
            ),
            result=f"{standard.rating_a} A",
            source=resting_on(permitted.source.citation, permitted.source, standard.working.source),
            note="receptacles are not made in every standard rating; the next one made is taken",
            steps=(standard.working,),
        ),
    )


def reduced_neutral(circuit_a: float, *, rating_kw: float, edition: Code) -> ReducedNeutral:
    """The least neutral of a 3-wire range circuit, 210.19 exception 2.

    circuit_a: circuit rating [A]. rating_kw: nameplate [kW]. Raises ValueError for a range below the rating
    from which the exception holds, or a circuit rating that is not positive.
    """
    threshold = rule("range_circuit_from", edition, LIMITS)
    if circuit_a <= 0 or not reaches(rating_kw, threshold.number):
        raise ValueError(
            f"holds for ranges from {threshold.number:g} kW; found {rating_kw:g} kW, {circuit_a:g} A"
        )
    share, least = rule("range_neutral_share", edition), rule("range_neutral_min", edition)
    ampacity, size = circuit_a * share.number / 100, as_wire_size(f"{least.number:g}")
    return ReducedNeutral(
        ampacity,
        size,
        Working(
            name="least range neutral",
            formula="share of the circuit rating, and never below a size",
            inputs=(Input("circuit", f"{circuit_a:g} A"), rule_input(share), rule_input(least)),
            result=f"{ampacity:g} A, not below {size}",
            source=resting_on(share.source.citation, share.source, least.source, threshold.source),
            note=share.note,
        ),
    )


def range_tap(load_a: float, *, circuit_a: float, edition: Code) -> TapAmpacity:
    """Least ampacity [A] of a tap from a range circuit to one range, oven or cooktop, 210.19 exception 1.

    load_a: of the appliance tapped [A]. circuit_a: of the circuit tapped [A]. Raises ValueError above
    the circuit rating up to which taps are allowed.
    """
    upto, least = rule("range_tap_up_to", edition, LIMITS), rule("range_tap_min", edition)
    if circuit_a > upto.number or load_a <= 0:
        raise ValueError(
            f"taps leave circuits up to {upto.number:g} A; found {circuit_a:g} A for {load_a:g} A"
        )
    ampacity = max(load_a, least.number)
    return TapAmpacity(
        ampacity,
        Working(
            name="least tap ampacity",
            formula="the appliance's load, and never below the least for taps",
            inputs=(
                Input("load", f"{load_a:g} A"),
                Input("circuit", f"{circuit_a:g} A"),
                rule_input(upto),
                rule_input(least),
            ),
            result=f"{ampacity:g} A",
            source=resting_on(least.source.citation, least.source, upto.source),
            note=least.note,
        ),
    )
