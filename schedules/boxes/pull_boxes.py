"""How large must a box be where thick conductors are pulled, and how much wire must stand free in any box?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Verdict, resting_on, rule_input
from schedules.quantities.sizes import TradeSize, WireSize, parse_trade_size
from schedules.tables import rule
from schedules.tables.conductors import as_wire_size
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class Distance:
    """A least length [in]."""

    length_in: float
    working: Working


def pull_box_rules_apply(sizes: Iterable[WireSize | str], *, edition: Code) -> Verdict:
    """Whether a box's length goes by its raceways, NEC 314.28(A): any insulated conductor of 4 AWG or larger.

    Raises UnitError for a size that isn't made.
    """
    from_size = rule("pull_box_from_size", edition)
    wires = [as_wire_size(size) for size in sizes]
    threshold = WireSize(gauge=int(from_size.number))
    thick = sorted({wire for wire in wires if wire >= threshold})
    reason = (
        f"{', '.join(str(wire) for wire in thick)} is pulled" if thick else f"nothing as thick as {threshold}"
    )
    return Verdict(
        bool(thick),
        (reason,),
        Working(
            name="do pull box lengths apply",
            formula="any conductor of the published size or larger",
            inputs=(
                Input("conductors", ", ".join(str(wire) for wire in wires) or "none"),
                rule_input(from_size),
            ),
            result=f"{'yes' if thick else 'no'}: {reason}",
            source=from_size.source,
        ),
    )


def straight_pull_length(raceways: Sequence[TradeSize | str], *, edition: Code) -> Distance:
    """Least length of a box [in] for straight pulls, NEC 314.28(A)(1): from the largest trade size on the wall.

    Raises ValueError for no raceway, UnitError for a size that isn't made.
    """
    times = rule("pull_box_straight", edition)
    largest = _largest(raceways)
    length = times.number * float(largest.nominal)
    return Distance(
        length,
        Working(
            name="box length for a straight pull",
            formula="published factor x largest trade size",
            inputs=(Input("largest raceway", f"trade size {largest}"), rule_input(times)),
            result=f"{length:g} in",
            source=times.source,
        ),
    )


def angle_pull_distance(rows: Sequence[Sequence[TradeSize | str]], *, edition: Code) -> Distance:
    """Least distance [in] from a wall to the opposite one for angle and U pulls and splices, NEC 314.28(A)(2).

    rows: trade sizes of the raceways in each row on that wall; the row that asks for most decides.
    Raises ValueError for a wall without raceways, UnitError for a size that isn't made.
    """
    if not rows:
        raise ValueError("an angle pull needs at least one row of raceways")
    times = rule("pull_box_angle", edition)
    distances = []
    for row in rows:
        largest = _largest(row)
        others = sum(float(size.nominal) for size in _parsed(row)) - float(largest.nominal)
        distances.append((times.number * float(largest.nominal) + others, largest, others))
    length, largest, others = max(distances, key=lambda item: item[0])
    return Distance(
        length,
        Working(
            name="wall to opposite wall for an angle pull",
            formula="published factor x largest trade size in a row + the others in it; the longest row decides",
            inputs=(
                Input("largest raceway in the row", f"trade size {largest}"),
                Input("others in the row", f"{others:g} in together"),
                rule_input(times),
            ),
            result=f"{length:g} in",
            source=times.source,
            note=times.note,
        ),
    )


def entry_spacing(raceway: TradeSize | str, *, edition: Code) -> Distance:
    """Least distance [in] between the entries that hold one conductor, NEC 314.28(A)(2).

    Raises UnitError for a size that isn't made.
    """
    times = rule("pull_box_same_conductor", edition)
    size = _parsed([raceway])[0]
    length = times.number * float(size.nominal)
    return Distance(
        length,
        Working(
            name="between the entries of one conductor",
            formula="published factor x the larger trade size of the two",
            inputs=(Input("raceway", f"trade size {size}"), rule_input(times)),
            result=f"{length:g} in",
            source=times.source,
        ),
    )


def free_conductor(*, opening_in: float | None, depth_in: float, edition: Code) -> Distance:
    """Least free conductor in a box [in], measured from where it leaves sheath or raceway, NEC 300.14.

    opening_in: the opening's smallest dimension [in], None where the box has no front to reach through.
    depth_in: way [in] from where the conductor comes in to the opening.
    Raises ValueError for a size that is not above zero.
    """
    if depth_in < 0 or (opening_in is not None and opening_in <= 0):
        raise ValueError(f"a box's opening and depth can't be {opening_in} in and {depth_in:g} in")
    least, beyond = rule("free_conductor", edition), rule("free_conductor_beyond_opening", edition)
    small = rule("free_conductor_small_opening", edition)
    length, note = least.number, ""
    inputs = [rule_input(least)]
    if opening_in is not None:
        inputs += [Input("smallest dimension of the opening", f"{opening_in:g} in"), rule_input(small)]
    if opening_in is not None and opening_in < small.number:
        inputs += [Input("from entry to opening", f"{depth_in:g} in"), rule_input(beyond)]
        length = max(length, depth_in + beyond.number)
        note = "long enough to reach outside the opening" if length > least.number else ""
    return Distance(
        length,
        Working(
            name="free conductor",
            formula="the published length, and in a small opening far enough to reach outside it",
            inputs=tuple(inputs),
            result=f"{length:g} in",
            source=resting_on(least.source.citation, least.source, beyond.source, small.source),
            note=note,
        ),
    )


def _parsed(raceways: Iterable[TradeSize | str]) -> list[TradeSize]:
    return [size if isinstance(size, TradeSize) else parse_trade_size(size) for size in raceways]


def _largest(raceways: Sequence[TradeSize | str]) -> TradeSize:
    if not raceways:
        raise ValueError("a wall without raceways asks for no length")
    return max(_parsed(raceways))
