"""A sheet's deck: every pair that can stand together is shown, proved by all combinations; nothing barred is."""

from __future__ import annotations

import itertools
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.comparison import Kind
from schedules.connections.options import combinations, conflicts
from schedules.planned import Planned, plan_file
from schedules.teaching.deck import make_deck
from schedules.teaching.points import talks
from schedules.teaching.wiring import facts_of

if TYPE_CHECKING:
    from schedules.teaching.deck import Deck

SAMPLES = Path(__file__).parents[2] / "samples"


@cache
def planned() -> Planned:
    return plan_file(SAMPLES / "jobs" / "corner-electric.toml", remedies=False)


@cache
def deck() -> Deck:
    return make_deck(planned().sheet, planned().draft.job)


def pairs(sets: set[frozenset[str]]) -> set[tuple[tuple[str, bool], tuple[str, bool]]]:
    """Every two choices, each with or without, that stand so in one of the sets."""
    names = [choice.id for choice in planned().sheet.choices]
    return {
        ((a, a in choices), (b, b in choices))
        for choices in sets
        for a, b in itertools.combinations(names, 2)
    }


def test_every_pair_is_shown_and_nothing_barred() -> None:
    shown = {frozenset(item.choices) for item in deck().demonstrations}
    assert pairs(shown) == pairs(set(combinations(planned().sheet)))
    for choices in shown:
        assert not conflicts(planned().sheet, choices)
    assert deck().at_least <= len(shown) <= deck().at_least + 1


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
