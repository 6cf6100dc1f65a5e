"""A small part of the sweep over all options and random drawings; the whole of it: `python -m tests.sweep`."""

from __future__ import annotations

import os

import pytest

from tests.sweep import RANDOM, SHEETS, choices_of, sweep_combination, sweep_part, sweep_seed, sweep_sheet

# The combinations that bring least and most, by their numbers in the sweep's order.
FEW = [("fescue", 0), ("marram", 511)]
# A random sheet of 9 enclosures and 37 conductors, a third of them spares.
A_SHEET = 9
THOROUGH = os.environ.get("HYPOTHESIS_PROFILE") == "search"


def test_the_sweep_has_every_combination() -> None:
    assert {sheet: len(choices_of(sheet)) for sheet in ("fescue", "marram")} == {"fescue": 180, "marram": 512}


@pytest.mark.parametrize(("sheet", "number"), FEW)
def test_every_view_of_some_combinations_is_proved(sheet: str, number: int) -> None:
    figures = sweep_combination(sheet, number)
    assert figures["not proved"] == 0, figures
    assert figures["drawings proved"] >= 20


def test_a_random_picture_and_random_circuits_are_proved() -> None:
    assert sweep_seed(7)["drawings proved"] == 3


def test_every_view_of_a_random_sheet_is_proved() -> None:
    figures = sweep_sheet(A_SHEET)
    assert figures["not proved"] == 0, figures
    assert figures["drawings proved"] >= 15


@pytest.mark.skipif(not THOROUGH, reason="long; with HYPOTHESIS_PROFILE=search")
@pytest.mark.parametrize("first", range(0, 1000, 50))
def test_every_view_of_every_random_sheet_is_proved(first: int) -> None:
    assert sweep_part((SHEETS, first, first + 50))["not proved"] == 0


@pytest.mark.skipif(not THOROUGH, reason="long; with HYPOTHESIS_PROFILE=search")
@pytest.mark.parametrize("first", range(0, 1000, 50))
def test_every_random_picture_and_circuit_is_proved(first: int) -> None:
    assert sweep_part((RANDOM, first, first + 50))["not proved"] == 0


@pytest.mark.skipif(not THOROUGH, reason="long; with HYPOTHESIS_PROFILE=search")
@pytest.mark.parametrize("sheet", ["fescue", "marram"])
@pytest.mark.parametrize("first", range(0, 512, 16))
def test_every_view_of_every_combination_is_proved(sheet: str, first: int) -> None:
    last = min(first + 16, len(choices_of(sheet)))
    assert sweep_part((sheet, first, last))["not proved"] == 0
