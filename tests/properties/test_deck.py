"""A sheet's deck: every pair that can stand together is shown, proved by all combinations; nothing barred is."""

from __future__ import annotations

import itertools
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.comparison import Kind
from schedules.connections.options import combinations, conflicts
from schedules.planned import Planned, plan_file
from schedules.sheet.reading import read_sheet
from schedules.teaching.choices import option_model
from schedules.teaching.covering import cover
from schedules.teaching.deck import make_deck
from schedules.teaching.points import talks
from schedules.teaching.wiring import facts_of

if TYPE_CHECKING:
    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck

SAMPLES = Path(__file__).parents[2] / "samples"


@cache
def planned() -> Planned:
    return plan_file(SAMPLES / "jobs" / "corner-electric.toml", remedies=False)


@cache
def deck() -> Deck:
    return make_deck(planned().sheet, planned().draft.job)


def test_every_pair_is_shown_and_nothing_barred() -> None:
    shown = {frozenset(item.choices) for item in deck().demonstrations}
    assert together(planned().sheet, shown, 2) == together(
        planned().sheet, set(combinations(planned().sheet)), 2
    )
    for choices in shown:
        assert not conflicts(planned().sheet, choices)
    assert deck().at_least <= len(shown) <= deck().at_least + 1


@pytest.mark.parametrize("name", ["marram", "fescue"])
@pytest.mark.parametrize("strength", [2, 3])
def test_every_pair_and_triple_that_can_be_built_is_covered_and_nothing_else(
    name: str, strength: int
) -> None:
    sheet = read_sheet(SAMPLES / "sheets" / f"{name}.toml")
    options = option_model(sheet)
    rows = cover(options.model, strength, moves=20).rows
    shown = {options.choices(row) for row in rows}
    built = set(combinations(sheet))
    assert shown <= built
    assert together(sheet, shown, strength) == together(sheet, built, strength)


def together(sheet: Sheet, sets: set[frozenset[str]], strength: int) -> set[tuple[tuple[str, bool], ...]]:
    """Every so many choices, each with or without, that stand so in one of the sets."""
    names = [choice.id for choice in sheet.choices]
    return {
        tuple((name, name in choices) for name in some)
        for choices in sets
        for some in itertools.combinations(names, strength)
    }


def test_each_differs_from_the_one_before_as_said_and_no_order_is_shorter() -> None:
    facts = [facts_of(item.plan) for item in deck().demonstrations]
    rows = [len(a ^ b) for a, b in itertools.pairwise(facts)]
    assert [item.rows for item in deck().demonstrations] == [0, *rows]
    assert deck().ordered_exactly
    apart = [[len(a ^ b) for b in facts] for a in facts]
    orders = itertools.permutations(range(len(facts)))
    least = min(sum(apart[a][b] for a, b in itertools.pairwise(order)) for order in orders)
    assert deck().total_rows == least


def test_what_to_say_is_what_differs() -> None:
    before: set[str] = set()
    titles = {choice.id: choice.title for choice in planned().sheet.choices}
    for item, talk in zip(deck().demonstrations, talks(planned().sheet, deck()), strict=True):
        now = set(item.choices)
        assert set(talk.put_in) == {titles[name] for name in now - before}
        assert set(talk.taken_out) == {titles[name] for name in before - now}
        if item.change is not None:
            added = sum(change.kind is Kind.ADDED for change in item.change.cables)
            assert (f"cables, more: {added}" in {point.what for point in talk.points}) == (added > 0)
        before = now
