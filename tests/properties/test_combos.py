"""Every combination of a sheet, against the sheet's rules one by one; figures against two plans side by side."""

from __future__ import annotations

import gc
import itertools
import tracemalloc
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.connections.options import combinations, conflicts
from schedules.planned import Planned, plan_file
from schedules.sheet.reading import read_sheet
from schedules.teaching.barring import barring
from schedules.teaching.choices import option_model
from schedules.teaching.combos import Combination, Wanted, every_combination, plan_every, plan_with
from schedules.teaching.tally import Tally
from schedules.teaching.wiring import Wiring, wiring_of

if TYPE_CHECKING:
    from schedules.sheet.sheet import Sheet

SAMPLES = Path(__file__).parents[2] / "samples"
SHEETS = pytest.mark.parametrize("name", ["marram", "fescue"])


@cache
def sheet(name: str) -> Sheet:
    return read_sheet(SAMPLES / "sheets" / f"{name}.toml")


@cache
def galley() -> Planned:
    return plan_file(SAMPLES / "jobs" / "galley-gas.toml", remedies=False)


def test_the_model_allows_what_the_rules_allow() -> None:
    """Every thinkable row: allowed by the bans exactly where no conflict is found in its choices."""
    options = option_model(sheet("fescue"))
    possible = []
    for row in itertools.product(*map(range, options.model.levels)):
        choices = options.choices(row)
        possible += [] if conflicts(sheet("fescue"), choices) else [choices]
        assert options.model.allows(row) == (choices in possible[-1:]), choices
    assert set(combinations(sheet("fescue"))) == set(possible)


@SHEETS
def test_every_combination_once_and_no_other(name: str) -> None:
    found = [frozenset(choices) for choices in every_combination(sheet(name))]
    assert len(found) == len(set(found))
    assert set(found) == set(combinations(sheet(name)))


def test_what_is_barred_and_why() -> None:
    barred = barring(sheet("fescue"))
    assert barred.possible == len(list(combinations(sheet("fescue"))))
    assert all(0 < rule.count <= barred.thinkable - barred.possible for rule in barred.rules)
    said = {rule.reason.partition(": ")[2] for rule in barred.rules}
    written = {item.reason for choice in sheet("fescue").choices for item in choice.requires}
    written |= {item.reason for choice in sheet("fescue").choices for item in choice.excludes}
    assert written <= said
    for group in barred.together:
        assert all(
            len(choices.intersection(group)) in (0, len(group)) for choices in combinations(sheet("fescue"))
        )
    assert barred.never == ()


def test_a_filter_takes_what_it_says() -> None:
    wanted = Wanted(frozenset({"gas-valve"}), frozenset({"wall-switch"}), at_most=9)
    found = list(every_combination(sheet("marram"), wanted))
    assert len(found) == 9
    assert all("gas-valve" in item and "wall-switch" not in item for item in found)


def test_what_a_choice_adds_is_what_two_plans_differ_by() -> None:
    wanted = Wanted(
        frozenset({"fan-inside", "gas-valve"}),
        frozenset(
            {"range-contactor", "range-shunt-trip", "make-up-contact", "alarm-contact", "receptacle-drop"}
        ),
    )
    tally = Tally(galley().sheet)
    for combination in plan_every(galley().sheet, galley().draft.job, wanted):
        tally.take(combination)
    costs = {item.bundle: item for item in tally.costs()}
    cost = costs["pull-remote",]
    # beacon, wall-switch: with and without each, so four pairs that differ in the pull station alone
    assert cost.pairs == 4
    assert not cost.idle
    without = plan_with(galley().sheet, galley().draft.job, ("fan-inside", "gas-valve"))
    with_it = plan_with(galley().sheet, galley().draft.job, ("fan-inside", "gas-valve", "pull-remote"))
    ends = 2 * (len(with_it.derived.connections.conductors) - len(without.derived.connections.conductors))
    assert ends > 0
    assert cost.figures["terminations"].least <= ends <= cost.figures["terminations"].most
    cables = len(with_it.derived.selection.cables) - len(without.derived.selection.cables)
    assert cost.figures["cables"].least == cost.figures["cables"].most == cables
    assert costs["gas-valve",].pairs == 0


def test_a_choice_that_changes_nothing_is_told() -> None:
    tally = Tally(sheet("marram"))
    for choices, mark in (
        (("gas-valve",), b"one"),
        (("gas-valve", "wall-switch"), b"one"),
        (("gas-valve", "beacon"), b"two"),
    ):
        tally.take(Combination(choices, Wiring((1, 2, 3, 4), mark), 0))
    idle = {item.bundle for item in tally.costs() if item.idle}
    assert idle == {("wall-switch",)}


def test_plans_with_the_same_wiring_have_the_same_mark() -> None:
    again = plan_with(galley().sheet, galley().draft.job, galley().draft.job.choices)
    assert wiring_of(again) == wiring_of(galley().plan)


def test_planned_side_by_side_is_planned_the_same() -> None:
    wanted = Wanted(frozenset({"gas-valve"}), at_most=6)
    alone, shared = (
        list(plan_every(galley().sheet, galley().draft.job, wanted, workers=workers)) for workers in (1, 2)
    )
    assert alone == shared


def test_memory_stays_flat() -> None:
    """Later combinations take no more than the first ones: each leaves its figures behind, not its plan."""
    tally, peaks = Tally(galley().sheet), []
    tracemalloc.start()
    try:
        for place, combination in enumerate(
            plan_every(galley().sheet, galley().draft.job, Wanted(at_most=6))
        ):
            tally.take(combination)
            gc.collect()
            if place % 3 == 2:
                peaks.append(tracemalloc.get_traced_memory()[1])
                tracemalloc.reset_peak()
    finally:
        tracemalloc.stop()
    first, later = peaks
    assert later < 1.25 * first


def test_a_tally_takes_no_more_for_more_combinations() -> None:
    names = [choice.id for choice in sheet("marram").choices]
    every = itertools.chain.from_iterable(itertools.combinations(names, count) for count in range(len(names)))
    tally, held = Tally(sheet("marram")), []
    tracemalloc.start()
    try:
        for place, choices in enumerate(itertools.islice(every, 1600)):
            tally.take(Combination(choices, Wiring((place % 7, 2, 3, 4), place.to_bytes(16, "big")), 0))
            if place in (399, 1599):
                held.append(tracemalloc.get_traced_memory()[0])
    finally:
        tracemalloc.stop()
    # Counters of the figures that have come; a set of choices and its wiring would take some 500 bytes each.
    assert held[1] - held[0] < 16 * 1200
    assert sum(cost.pairs for cost in tally.costs()) > 1600
