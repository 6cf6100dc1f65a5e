"""Picking a choice never leaves a set that can't stand where the one before could."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.connections.options import combinations, conflicts
from schedules.questions.picking import leave, pick
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from schedules.sheet.sheet import Sheet

SHEETS = Path(__file__).parents[2] / "samples" / "sheets"


@cache
def sheet_of(name: str) -> Sheet:
    return read_sheet(SHEETS / f"{name}.toml")


@cache
def sets_of(name: str) -> tuple[frozenset[str], ...]:
    return tuple(combinations(sheet_of(name)))


NAMES = ("marram", "fescue")


@given(name=st.sampled_from(NAMES), data=st.data())
def test_a_choice_picked_stands_or_is_barred_with_its_reason(name: str, data: st.DataObject) -> None:
    sheet = sheet_of(name)
    chosen = data.draw(st.sampled_from(sets_of(name)))
    choice = data.draw(st.sampled_from(sheet.choices))
    picking = pick(sheet, chosen, choice)
    after = frozenset(picking.choices)
    if picking.barred:
        assert all(picking.barred)
        assert after == chosen
    else:
        assert choice.id in after
        assert not [conflict for conflict in conflicts(sheet, after) if not conflict.undecided]


@given(name=st.sampled_from(NAMES), data=st.data())
def test_a_choice_left_takes_with_it_only_what_needs_it(name: str, data: st.DataObject) -> None:
    sheet = sheet_of(name)
    chosen = data.draw(st.sampled_from(sets_of(name)))
    if not chosen:
        return
    name_left = data.draw(st.sampled_from(sorted(chosen)))
    choice = next(item for item in sheet.choices if item.id == name_left)
    picking = leave(sheet, chosen, choice)
    after = frozenset(picking.choices)
    assert after == chosen - {choice.id} - {item.id for item in picking.dropped}
    assert not [conflict for conflict in conflicts(sheet, after) if not conflict.undecided]


def test_two_choices_that_need_each_other_come_together() -> None:
    """marram: the shunt trip wants its supply, and the supply has nothing else to feed."""
    sheet = sheet_of("marram")
    trip = next(item for item in sheet.choices if item.id == "range-shunt-trip")
    picking = pick(sheet, frozenset({"fan-inside"}), trip)
    assert not picking.barred
    assert [item.id for item in picking.brought] == ["trip-supply"]
    assert set(picking.choices) == {"fan-inside", "range-shunt-trip", "trip-supply"}


def test_what_came_with_a_choice_goes_with_it() -> None:
    sheet = sheet_of("marram")
    trip = next(item for item in sheet.choices if item.id == "range-shunt-trip")
    picking = leave(sheet, frozenset({"fan-inside", "gas-valve", "range-shunt-trip", "trip-supply"}), trip)
    assert [item.id for item in picking.dropped] == ["trip-supply"]
    assert set(picking.choices) == {"fan-inside", "gas-valve"}


def test_of_a_group_of_one_the_choice_before_goes() -> None:
    sheet = sheet_of("marram")
    inline = next(item for item in sheet.choices if item.id == "fan-inline")
    assert set(pick(sheet, frozenset({"fan-inside", "gas-valve"}), inline).choices) == {
        "fan-inline",
        "gas-valve",
    }


def test_an_exclusion_bars_and_gives_the_sheets_reason() -> None:
    sheet = sheet_of("marram")
    beacon = next(item for item in sheet.choices if item.id == "beacon")
    picking = pick(sheet, frozenset({"fan-inside", "range-shunt-trip", "trip-supply"}), beacon)
    assert any("normally open mains contact" in reason for reason in picking.barred)


@pytest.mark.parametrize("name", NAMES)
def test_every_set_that_can_stand_is_reached_by_picking(name: str) -> None:
    """From nothing, picking one choice after another: no order of the sheet locks a choice out for good."""
    sheet = sheet_of(name)
    for wanted in sets_of(name)[:60]:
        chosen: frozenset[str] = frozenset()
        for choice in sheet.choices:
            if choice.id in wanted and choice.id not in chosen:
                chosen = frozenset(pick(sheet, chosen, choice).choices)
        assert wanted <= chosen
