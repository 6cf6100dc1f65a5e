"""What a way may be off by, against Monte Carlo: by the model's own errors, and by planning kitchens measured anew."""

from __future__ import annotations

import itertools
import math
import random
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.site.chance import chance_within, in_percent, root_sum_square, worst_case
from schedules.site.legs import Error, Span
from schedules.site.routes import Route
from tests.small_kitchens import inches, keep_out, kitchen, kitchen_job, place, wall

if TYPE_CHECKING:
    from collections.abc import Sequence

DRAWS = 1_000_000


def span(length: float, *tolerances: float, times: float = 1.0) -> Span:
    return Span("along", length, tuple(Error("x", tolerance, times) for tolerance in tolerances))


CASES = {
    "long ways only": ((span(120, 0.25, 0.25), span(60, 0.25, 0.25, 0.5)), 0.3),
    "nothing to spare": ((span(120, 0.25, 0.25),), 0.0),
    "short of it": ((span(120, 0.25, 0.5),), -0.2),
    "one position above another": ((span(0, 0.25, 0.25), span(60, 0.25, 0.25)), 0.3),
    "nearly above": ((span(0.2, 0.25, 0.25), span(60, 0.25, 0.25)), 0.1),
    "short in two directions": ((span(0, 0.5, 0.5), span(0.3, 0.25, 0.25), span(80, 0.25, 0.25)), 0.4),
    "short in all directions": ((span(0, 0.5), span(0.1, 0.25), span(0.5, 1.0)), 0.7),
    "alone and short": ((span(0.1, 0.5, 0.5),), 0.2),
    "a height counted twice": ((span(100, 0.25, 0.25), span(80, 0.25, times=2)), 0.5),
    "one error dwarfs the others": ((span(0, 2.0), span(100, 0.01)), 0.5),
}


def drawn(spans: Sequence[Span], spare: float, seed: int) -> float:
    """The share of draws in which the way gets no longer than that: each error normal, its tolerance two sigma."""
    chance = np.random.default_rng(seed)
    longer = np.zeros(DRAWS)
    for item in spans:
        off = np.zeros(DRAWS)
        for error in item.errors:
            off += error.times * chance.normal(0, error.tolerance_in / 2, DRAWS)
        longer += np.abs(item.length_in + off) - item.length_in
    return float(np.mean(longer <= spare))


@pytest.mark.parametrize("name", CASES)
def test_the_chance_agrees_with_a_million_draws(name: str) -> None:
    spans, spare = CASES[name]
    chance = chance_within(spans, spare)
    standard_error = math.sqrt(chance * (1 - chance) / DRAWS)
    # Of ten such comparisons, one beyond three standard errors would come up once in some forty sets.
    assert abs(chance - drawn(spans, spare, seed=2026)) <= 3 * standard_error


tolerances = st.lists(st.floats(0.01, 2.0), min_size=1, max_size=3)
spans_of = st.lists(
    st.builds(lambda length, off: span(length, *off), st.floats(0, 3) | st.floats(50, 300), tolerances),
    min_size=1,
    max_size=3,
)


@settings(max_examples=40)
@given(spans=spans_of, spare=st.floats(-6, 6), more=st.floats(0, 3))
def test_more_to_spare_never_lowers_the_chance(spans: list[Span], spare: float, more: float) -> None:
    assert 0 <= chance_within(spans, spare) <= chance_within(spans, spare + more) + 1e-6 <= 1 + 2e-6


@given(spans=spans_of)
def test_root_sum_square_is_no_more_than_the_worst_case(spans: list[Span]) -> None:
    assert root_sum_square(spans) <= worst_case(spans) + 1e-9


@given(offs=tolerances, spare=st.floats(-6, 6))
def test_a_long_way_has_the_chance_of_a_normal_error(offs: list[float], spare: float) -> None:
    """By the closed form: the normal distribution of the root-sum-square at two standard deviations."""
    expected = math.erfc(-2 * spare / math.hypot(*offs) / math.sqrt(2)) / 2
    assert chance_within((span(500, *offs),), spare) == pytest.approx(expected, abs=1e-12)


def test_a_chance_is_never_printed_surer_than_it_is() -> None:
    assert [in_percent(value) for value in (1.0, 0.99996, 0.8314, 0.0001, 0.0)] == [
        "100 %",
        "over 99.9 %",
        "83.1 %",
        "under 0.1 %",
        "0.0 %",
    ]


WALLS = (160.0, 110.0, 160.0, 110.0)
Measured = dict[str, float]


def measured() -> Measured:
    """A kitchen with a window between its two boxes, as it was measured [in]."""
    return {
        "A": 160.0,
        "B": 110.0,
        "e.along": 30.0,
        "e.up": 50.0,
        "f.along": 40.0,
        "f.up": 44.0,
        "f.out": 3.0,
        "left": 70.0,
        "right": 100.0,
        "bottom": 30.0,
        "top": 80.0,
        "ceiling": 96.0,
        "drop_below": 10.0,
        "cabinet_height": 84.0,
    }


def planned(values: Measured, kind: str, tolerance: float) -> Route:
    """Plan that kitchen: E on the range wall, F on the wall to its right, a window in the range wall."""
    walls = (wall("A", values["A"]), wall("B", values["B"]), wall("C", values["A"]), wall("D", values["B"]))
    ends = (
        place("E", values["e.along"], values["e.up"]),
        place("F", values["f.along"], values["f.up"], values["f.out"], wall="B"),
    )
    window = keep_out(
        "N1",
        values["left"],
        values["right"] - values["left"],
        values["bottom"],
        values["top"] - values["bottom"],
    )
    site = {key: inches(values[key]) for key in ("ceiling", "drop_below", "cabinet_height")}
    job = kitchen_job(walls, ends, kind, tolerance=inches(tolerance), site=site, keep_out=(window,))
    found = kitchen(job).lengths[0].route
    assert isinstance(found, Route)
    return found


@settings(max_examples=40)
@given(signs=st.lists(st.sampled_from((-1, 0, 1)), min_size=14, max_size=14))
@pytest.mark.parametrize("kind", ["direct", "overhead", "underfloor", "cabinets"])
def test_no_kitchen_within_the_tolerance_needs_more_than_the_worst_case(kind: str, signs: list[int]) -> None:
    """The kitchen as it may really be, planned without any tolerance, against the worst case of the measured one."""
    values = measured()
    plan = planned(values, kind, 0.5)
    real = {key: value + 0.5 * sign for (key, value), sign in zip(values.items(), signs, strict=True)}
    assert planned(real, kind, 0.0).length_in <= plan.length_in + plan.tolerance_in + 1e-6


@pytest.mark.parametrize("above", [-0.9, -0.3, 0.0, 0.3, 0.9])
def test_an_end_about_as_high_as_the_run_counts_as_the_worse_of_above_and_below(above: float) -> None:
    """F as high as the cabinets' run, for all that the measurements tell: every kitchen that it may really be."""
    values = measured() | {"f.up": 84.0 + above}
    plan = planned(values, "cabinets", 0.5)
    # Level measures at their worst, so that the heights' share is all that decides.
    level = values | {
        "A": values["A"] + 0.5,
        "e.along": values["e.along"] - 0.5,
        "f.along": values["f.along"] + 0.5,
    }
    keys = ("f.out", "e.up", "f.up", "cabinet_height")
    for signs in itertools.product((-1, 1), repeat=len(keys)):
        real = level | {key: values[key] + 0.5 * sign for key, sign in zip(keys, signs, strict=True)}
        assert planned(real, "cabinets", 0.0).length_in <= plan.length_in + plan.tolerance_in + 1e-6


@pytest.mark.parametrize("kind", ["overhead", "underfloor"])
@pytest.mark.parametrize("spare", [-0.4, 0.0, 0.5])
def test_the_chance_agrees_with_kitchens_measured_anew(kind: str, spare: float) -> None:
    """A thousand kitchens whose real measures differ by chance, each planned by the whole planner."""
    values, chance = measured(), random.Random(7)
    plan = planned(values, kind, 0.5)
    draws = 1_000
    reached = 0
    for _ in range(draws):
        real = {key: value + chance.gauss(0, 0.25) for key, value in values.items()}
        reached += planned(real, kind, 0.0).length_in <= plan.length_in + spare
    expected = chance_within(plan.spans, spare)
    standard_error = math.sqrt(max(expected * (1 - expected), 1 / draws) / draws)
    assert abs(reached / draws - expected) <= 3 * standard_error
