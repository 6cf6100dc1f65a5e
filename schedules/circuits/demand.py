"""How much load do household cooking appliances count as?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Judgement, reaches, resting_on, rule_input
from schedules.tables.loading import load
from schedules.tables.rules import Rule, rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.tables.edition import Code

_TABLE = "nec_220_55_range_demand"
LIMITS = "nec_circuit_limits"


@dataclass(frozen=True, slots=True)
class Demand:
    """A load as it counts, in kW (kVA counts the same)."""

    demand_kw: float
    working: Working
    judgements: tuple[Judgement, ...] = ()


@dataclass(frozen=True, slots=True)
class _Bounds:
    """Ratings that divide the table's columns and notes."""

    floor: Rule
    column_a: Rule
    column_b: Rule
    column_c: Rule
    unequal: Rule
    largest: Rule

    @classmethod
    def of(cls, edition: Code) -> _Bounds:
        return cls(
            floor=rule("range_demand_above", edition),
            column_a=rule("column_a_below", edition, LIMITS),
            column_b=rule("column_b_up_to", edition, LIMITS),
            column_c=rule("column_c_up_to", edition, LIMITS),
            unequal=rule("unequal_range_above", edition, LIMITS),
            largest=rule("large_range_up_to", edition, LIMITS),
        )


def cooking_demand(ratings_kw: Sequence[float], *, edition: Code) -> Demand:
    """Feeder or service demand [kW] of household cooking appliances by nameplate [kW], Table 220.55.

    Every way that the notes allow is worked out and the smallest is the answer; the others are its steps.
    Appliances too small for the table are added at their full rating. Raises ValueError for no appliance, a
    rating that is not positive or one above the table, LookupError for more appliances than the table's rows.
    """
    bounds = _Bounds.of(edition)
    if not ratings_kw or min(ratings_kw) <= 0:
        raise ValueError("need at least one appliance, each rated above 0 kW")
    if max(ratings_kw) > bounds.largest.number:
        raise ValueError(f"the table ends at {bounds.largest.number:g} kW; found {max(ratings_kw):g} kW")
    small = [kw for kw in ratings_kw if kw <= bounds.floor.number]
    counted = [kw for kw in ratings_kw if kw > bounds.floor.number]
    ways = _ways(counted, bounds, edition)
    best = min(ways, key=lambda way: way.demand_kw) if ways else None
    demand = sum(small) + (best.demand_kw if best else 0.0)
    sources = [bounds.floor.source, *(way.working.source for way in ways)]
    return Demand(
        demand,
        Working(
            name="demand of cooking appliances",
            formula="smallest of the ways that the table and its notes allow; small appliances in full",
            inputs=(
                Input("nameplate ratings", _listed(ratings_kw)),
                Input("at full rating", _listed(small) if small else "none", str(bounds.floor.source)),
                *(Input(way.working.name, way.working.result) for way in ways),
            ),
            result=f"{demand:g} kW",
            source=resting_on(f"NEC {edition} {_number(edition)}", *sources),
            note=load(_TABLE).edition_note(edition),
            steps=tuple(way.working for way in ways),
        ),
    )


def cooking_branch_load(
    *,
    ranges_kw: Sequence[float] = (),
    cooktops_kw: Sequence[float] = (),
    ovens_kw: Sequence[float] = (),
    edition: Code,
) -> Demand:
    """Load [kW] of one branch circuit for cooking, by nameplates [kW], notes to Table 220.55.

    One range counts by the table, one wall oven or cooktop in full, one cooktop with up to two wall ovens in
    the same room as one range of their sum. Raises ValueError for any other company on one circuit, and as
    `cooking_demand` does.
    """
    branch, most = rule("range_demand_branch", edition), rule("ovens_with_cooktop", edition, LIMITS)
    steps: tuple[Working, ...] = ()
    counts = (len(ranges_kw), len(cooktops_kw), len(ovens_kw))
    ratings = [*ranges_kw, *cooktops_kw, *ovens_kw]
    if counts == (1, 0, 0):
        step = cooking_demand(ratings, edition=edition)
        load_kw, words, steps = step.demand_kw, "one range: by the table", (step.working,)
    elif counts in {(0, 1, 0), (0, 0, 1)}:
        if ratings[0] <= 0:
            raise ValueError(f"rating must be above 0 kW, not {ratings[0]:g}")
        load_kw, words = ratings[0], "one cooktop or wall oven: in full"
    elif counts[:2] == (0, 1) and counts[2] <= most.number:
        step = cooking_demand([sum(ratings)], edition=edition)
        load_kw, words = step.demand_kw, f"cooktop and ovens: as one range of {sum(ratings):g} kW"
        steps = (step.working,)
    else:
        raise ValueError(
            f"one circuit may feed one range, wall oven or cooktop, or a cooktop with up to {most.number:g} "
            f"wall ovens; found {counts[0]} ranges, {counts[1]} cooktops, {counts[2]} ovens"
        )
    return Demand(
        load_kw,
        Working(
            name="load of a cooking branch circuit",
            formula="one range by the table; one oven or cooktop in full; cooktop with ovens as one range",
            inputs=(Input("nameplate ratings", _listed(ratings)), rule_input(most)),
            result=f"{load_kw:g} kW",
            source=resting_on(branch.source.citation, branch.source, *(step.source for step in steps)),
            note=words,
            steps=steps,
        ),
    )


def _ways(counted: list[float], bounds: _Bounds, edition: Code) -> tuple[Demand, ...]:
    """What Column C gives for all, and what Columns A and B give for the smaller appliances."""
    if not counted:
        return ()
    smaller = [kw for kw in counted if kw <= bounds.column_b.number]
    larger = [kw for kw in counted if kw > bounds.column_b.number]
    ways = []
    if max(counted) <= bounds.column_c.number or not smaller:
        ways.append(_column_c(counted, bounds, edition))
    if smaller:
        ways.append(_by_columns(smaller, larger, bounds, edition))
    return tuple(ways)


def _column_c(ratings: list[float], bounds: _Bounds, edition: Code) -> Demand:
    """Column C for the number of appliances, raised where the ratings or their average exceed its limit."""
    table = load(_TABLE)
    row = table.row(len(ratings))
    base, step = row.number("column_c_kw"), rule("range_demand_note_1", edition)
    limit = bounds.column_c.number
    sources = [table.source(row, "column_c_kw", edition)]
    inputs = [Input("column C", f"{base:g} kW", str(sources[0])), Input("ratings", _listed(ratings))]
    raised = 0.0
    if max(ratings) > limit:
        average = sum(max(kw, limit) for kw in ratings) / len(ratings)
        major = rule("range_major_fraction", edition, LIMITS)
        excess = _whole_kw(average - limit, major)
        raised = excess * step.number / 100
        sources.append(step.source)
        inputs.append(Input(f"average, none below {limit:g} kW", f"{average:g} kW"))
        inputs.append(Input(f"whole kW above {limit:g}", str(excess), major.words))
        inputs.append(rule_input(step))
        if len(set(ratings)) > 1:
            sources.append(rule("range_demand_note_2", edition).source)
    demand = base * (1 + raised)
    return Demand(
        demand,
        Working(
            name=f"column C for {len(ratings)}",
            formula="column C x (1 + share per kW x whole kW above the column's limit)",
            inputs=tuple(inputs),
            result=f"{demand:g} kW",
            source=resting_on(sources[0].citation, *sources),
        ),
    )


def _by_columns(smaller: list[float], larger: list[float], bounds: _Bounds, edition: Code) -> Demand:
    """Columns A and B for the smaller appliances, each for its own number, and Column C for the rest."""
    table, note = load(_TABLE), rule("range_demand_note_3", edition)
    a = [kw for kw in smaller if kw < bounds.column_a.number]
    b = [kw for kw in smaller if kw >= bounds.column_a.number]
    demand, inputs, sources, steps = 0.0, [], [note.source], []
    for name, group in (("a", a), ("b", b)):
        if not group:
            continue
        row = table.row(len(group))
        percent = row.number(f"column_{name}_percent")
        demand += sum(group) * percent / 100
        sources.append(table.source(row, f"column_{name}_percent", edition))
        inputs.append(
            Input(
                f"column {name.upper()} for {len(group)}",
                f"{percent:g} percent of {sum(group):g} kW",
                str(sources[-1]),
            )
        )
    if larger:
        rest = _column_c(larger, bounds, edition)
        demand += rest.demand_kw
        sources.append(rest.working.source)
        inputs.append(Input(rest.working.name, rest.working.result))
        steps.append(rest.working)
    return Demand(
        demand,
        Working(
            name="columns A and B" + (", with column C for the larger" if larger else ""),
            formula="each column's share of its own appliances' sum, added",
            inputs=tuple(inputs),
            result=f"{demand:g} kW",
            source=resting_on(note.source.citation, *sources),
            steps=tuple(steps),
        ),
    )


def _whole_kw(excess: float, major: Rule) -> int:
    """Whole kW, a major fraction counting as one more, arithmetic noise aside."""
    whole = math.floor(excess)
    return whole + 1 if reaches(excess - whole, major.number) else whole


def _listed(ratings: Sequence[float]) -> str:
    return ", ".join(f"{kw:g} kW" for kw in ratings)


def _number(edition: Code) -> str:
    return load(_TABLE).editions[str(edition)].number
