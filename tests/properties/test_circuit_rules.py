"""Every rule of branch circuits gives a working that can stand alone, in every edition."""

from __future__ import annotations

import itertools

import pytest

from schedules.circuits.branch_circuits import breaker, required_rating
from schedules.circuits.cooking_circuits import range_tap, receptacle_ratings, reduced_neutral
from schedules.circuits.demand import cooking_branch_load, cooking_demand
from schedules.circuits.fan_contact import fan_contact
from schedules.circuits.gfci_afci import appliance_gfci, kitchen_afci
from schedules.circuits.hood_supply import HoodCord, hood_circuit, hood_cord
from schedules.working import Confidence, Working

EDITIONS = ("2020", "2023", "2026")
CORD = HoodCord(
    length_in=36.0,
    instructions_allow=True,
    grounding_plug=True,
    double_insulated=False,
    receptacle_accessible=True,
    cord_kept_from_damage=True,
    individual_circuit=True,
)


def _all_workings(edition: str) -> list[Working]:
    return [
        cooking_demand([14, 18], edition=edition).working,
        cooking_branch_load(cooktops_kw=[7.2], ovens_kw=[2.4], edition=edition).working,
        required_rating(continuous_a=10, other_a=2, edition=edition).working,
        receptacle_ratings(20, receptacles=2, edition=edition).working,
        reduced_neutral(50, rating_kw=12, edition=edition).working,
        range_tap(20, circuit_a=50, edition=edition).working,
        hood_cord(CORD, edition=edition).working,
        hood_circuit(
            hood_a=3, circuit_a=15, connection="hardwired", shares_with="nothing", edition=edition
        ).working,
        appliance_gfci("electric range", circuit_a=40, to_ground_v=120, edition=edition).working,
        kitchen_afci(circuit_a=15, supply_v=120, extension_without_outlets_in=None, edition=edition).working,
        fan_contact(
            full_load_a=4, contact_a=10, rated_for="motor", fan_v=120, contact_v=120, edition=edition
        ).working,
        breaker(legs=2, multiwire=False, shunt_trip=False, edition=edition).working,
    ]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_working_can_stand_alone(edition: str) -> None:
    for working in _all_workings(edition):
        assert working.name
        assert working.formula
        assert working.result
        assert working.inputs
        assert edition in working.source.citation
        if edition == "2026":
            assert working.source.confidence is Confidence.MEMORY
        deepest = itertools.chain(working.inputs, *(step.inputs for step in working.steps))
        assert all(entry.name for entry in deepest)
