"""Decks of random models with bans, held against all rows tried one by one; orders against all permutations.

By construction: what is expected is counted here by brute force. Published sizes stand in
`tests/examples/test_covering_arrays.py`.
"""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.teaching.covering import cover
from schedules.teaching.models import Ban, Model, Row
from schedules.teaching.ordering import EXACT_UP_TO, path_length, shortest_path


@st.composite
def models(draw: st.DrawFn) -> Model:
    levels = tuple(draw(st.lists(st.integers(2, 3), min_size=2, max_size=5)))
    factor = st.integers(0, len(levels) - 1)
    bans: list[Ban] = []
    for factors in draw(st.lists(st.sets(factor, min_size=1, max_size=3), max_size=4)):
        ban = tuple(
            (item, frozenset(draw(st.sets(st.integers(0, levels[item] - 1), min_size=1, max_size=2))))
            for item in sorted(factors)
        )
        bans.append(ban)
    return Model(levels, tuple(bans))


def brute(model: Model) -> set[Row]:
    """Every allowed row, by trying each against the bans as they are written."""
    return {
        row
        for row in itertools.product(*(range(count) for count in model.levels))
        if not any(all(row[factor] in barred for factor, barred in ban) for ban in model.bans)
    }


def pairs_in(rows: set[Row], strength: int) -> set[tuple[tuple[int, int], ...]]:
    return {
        tuple((factor, row[factor]) for factor in factors)
        for row in rows
        for factors in itertools.combinations(range(len(row)), strength)
    }


@settings(max_examples=60, deadline=None)
@given(model=models(), strength=st.integers(2, 3))
def test_every_allowed_pair_is_there_and_nothing_barred(model: Model, strength: int) -> None:
    allowed = brute(model)
    strength = min(strength, len(model.levels))
    if not allowed:
        with pytest.raises(ValueError, match="no row is allowed"):
            cover(model, strength)
        return
    covering = cover(model, strength, moves=60)
    rows = set(covering.rows)
    assert rows <= allowed
    assert pairs_in(rows, strength) == pairs_in(allowed, strength)
    assert covering.targets == len(pairs_in(allowed, strength))
    assert covering.at_least <= len(rows)


def test_factors_that_no_ban_joins_are_not_tried_against_each_other() -> None:
    """Sixty free choices before a pair of which one is wanted, twice: by trying all, it would never end."""
    one_of_the_first, one_of_the_last = (
        tuple((factor, frozenset({0})) for factor in pair) for pair in ((60, 61), (62, 63))
    )
    never = ((63, frozenset({1})),)
    model = Model((2,) * 64, (one_of_the_first, one_of_the_last, never))
    found = model.nearest((0,) * 64, {60: 0})
    assert found is not None
    assert found == (*(0,) * 60, 0, 1, 1, 0)
    assert model.nearest(found, {62: 0}) is None


@settings(max_examples=25, deadline=None)
@given(model=models())
def test_no_smaller_deck_than_is_said_to_be_possible(model: Model) -> None:
    """The bound never passes the least deck, found by trying every set of allowed rows of a few."""
    allowed = sorted(brute(model))
    if not 0 < len(allowed) <= 12:
        return
    wanted = pairs_in(set(allowed), 2)
    least = next(
        count
        for count in range(1, len(allowed) + 1)
        if any(pairs_in(set(some), 2) == wanted for some in itertools.combinations(allowed, count))
    )
    covering = cover(model, moves=400)
    assert covering.at_least <= least <= len(covering.rows) <= least + 1


def test_the_same_deck_each_time() -> None:
    model = Model((3, 2, 2, 3), (((0, frozenset({1})), (1, frozenset({0}))),))
    assert cover(model, moves=100) == cover(model, moves=100)


@settings(max_examples=40, deadline=None)
@given(data=st.data(), count=st.integers(0, 6))
def test_no_order_of_a_few_is_shorter(data: st.DataObject, count: int) -> None:
    distances = symmetric(data, count)
    path = shortest_path(distances)
    assert sorted(path) == list(range(count))
    least = min(path_length(other, distances) for other in itertools.permutations(range(count)))
    assert path_length(path, distances) == least


@settings(max_examples=5, deadline=None)
@given(data=st.data())
def test_many_are_ordered_no_worse_than_as_they_came(data: st.DataObject) -> None:
    count = EXACT_UP_TO + 2
    distances = symmetric(data, count)
    path = shortest_path(distances)
    assert sorted(path) == list(range(count))
    assert path_length(path, distances) <= path_length(range(count), distances)


def symmetric(data: st.DataObject, count: int) -> list[list[int]]:
    distances = [[0] * count for _ in range(count)]
    for a, b in itertools.combinations(range(count), 2):
        distances[a][b] = distances[b][a] = data.draw(st.integers(0, 30))
    return distances
