"""Demand, ratings, receptacles, neutrals and taps, edition by edition, each against the section it comes from."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.circuits.branch_circuits import (
    breaker,
    fastened_on_shared_circuit,
    individual_circuit,
    on_small_appliance_circuit,
    portable_on_shared_circuit,
    required_rating,
    small_appliance_circuits,
)
from schedules.circuits.cooking_circuits import range_tap, receptacle_ratings, reduced_neutral
from schedules.circuits.demand import cooking_branch_load, cooking_demand

EDITIONS = ("2020", "2023", "2026")
editions = st.sampled_from(EDITIONS)
ratings = st.lists(st.integers(4, 108).map(lambda quarter: quarter / 4), min_size=1, max_size=5)


@given(ratings, editions)
def test_demand_is_never_above_the_nameplates_nor_moved_by_their_order(
    ratings_kw: list[float], edition: str
) -> None:
    demand = cooking_demand(ratings_kw, edition=edition).demand_kw
    assert 0 < demand <= sum(ratings_kw) + 1e-9
    assert cooking_demand(sorted(ratings_kw), edition=edition).demand_kw == pytest.approx(demand)


@given(st.lists(st.integers(36, 107), min_size=1, max_size=5), st.data())
def test_a_larger_range_never_counts_less(quarters: list[int], data: st.DataObject) -> None:
    ratings_kw = [quarter / 4 for quarter in quarters]
    which = data.draw(st.integers(0, len(ratings_kw) - 1))
    larger = [*ratings_kw]
    larger[which] += 0.25
    before, after = (cooking_demand(each, edition="2023").demand_kw for each in (ratings_kw, larger))
    assert before <= after + 1e-9


@pytest.mark.parametrize(
    ("rating_kw", "demand_kw"),
    [
        # Table 220.55, one appliance, by hand: full rating, column A, column B (the lower of B and C), C, Note 1.
        (1.75, 1.75),
        (1.76, 1.408),
        (3.49, 2.792),
        (3.5, 2.8),
        (8.75, 7.0),
        (8.76, 8.0),
        (12.0, 8.0),
        (12.49, 8.0),
        (12.5, 8.4),
        (13.5, 8.8),
        (27.0, 14.0),
    ],
)
def test_demand_of_one_appliance(rating_kw: float, demand_kw: float) -> None:
    assert cooking_demand([rating_kw], edition="2023").demand_kw == pytest.approx(demand_kw)


def test_demand_refuses_what_the_table_does_not_cover() -> None:
    with pytest.raises(ValueError, match="the table ends at 27 kW; found 28 kW"):
        cooking_demand([28], edition="2023")
    with pytest.raises(ValueError, match="at least one appliance"):
        cooking_demand([], edition="2023")
    with pytest.raises(LookupError, match="no row for appliance_count 6"):
        cooking_demand([10] * 6, edition="2023")


def test_a_branch_circuit_takes_only_the_company_that_the_notes_allow() -> None:
    # Table 220.55 Notes 4 to 6 (2023): an oven or a cooktop in full, and at most two ovens with a cooktop.
    assert cooking_branch_load(ovens_kw=[4.5], edition="2023").demand_kw == 4.5
    assert cooking_branch_load(cooktops_kw=[7.2], edition="2023").demand_kw == 7.2
    assert cooking_branch_load(ranges_kw=[8], edition="2023").demand_kw == pytest.approx(6.4)
    for company in ({"ranges_kw": [8, 8]}, {"ranges_kw": [8], "ovens_kw": [4]}, {"ovens_kw": [4, 4]}, {}):
        with pytest.raises(ValueError, match="one circuit may feed one range"):
            cooking_branch_load(**company, edition="2023")
    with pytest.raises(ValueError, match="found 0 ranges, 1 cooktops, 3 ovens"):
        cooking_branch_load(cooktops_kw=[5], ovens_kw=[3, 3, 3], edition="2023")


@pytest.mark.parametrize(
    ("circuit_a", "receptacles", "least", "most"),
    [
        (20, 1, 20, None),  # 210.21(B)(1)
        (20, 2, 15, 20),  # Table 210.21(B)(3), every row
        (15, 2, 15, 15),
        (30, 2, 30, 30),
        (40, 2, 40, 50),
        (50, 2, 50, 50),
        (60, 2, 60, None),
    ],
)
def test_receptacle_ratings(circuit_a: int, receptacles: int, least: int, most: int | None) -> None:
    found = receptacle_ratings(circuit_a, receptacles=receptacles, edition="2023")
    assert (found.least_a, found.most_a) == (least, most)


def test_receptacle_ratings_refuse_what_the_table_does_not_list() -> None:
    with pytest.raises(LookupError, match="no row for circuit_a 35"):
        receptacle_ratings(35, receptacles=2, edition="2023")
    with pytest.raises(ValueError, match="at least one receptacle"):
        receptacle_ratings(20, receptacles=0, edition="2023")


def test_a_range_neutral_may_be_reduced_from_8_75_kw() -> None:
    # 210.19 exception 2: 70 percent of the circuit, not below 10 AWG.
    found = reduced_neutral(50, rating_kw=12, edition="2023")
    assert (found.ampacity_a, str(found.least_size)) == (35, "10 AWG")
    with pytest.raises(ValueError, match=r"ranges from 8\.75 kW; found 8 kW"):
        reduced_neutral(40, rating_kw=8, edition="2023")


def test_range_taps() -> None:
    # 210.19 exception 1: at least 20 A from circuits up to 50 A, and the load.
    assert range_tap(15, circuit_a=50, edition="2023").ampacity_a == 20
    assert range_tap(31.04, circuit_a=50, edition="2023").ampacity_a == 31.04
    with pytest.raises(ValueError, match="taps leave circuits up to 50 A; found 60 A"):
        range_tap(15, circuit_a=60, edition="2023")


def test_an_individual_circuit_keeps_to_the_nameplate() -> None:
    # 422.10(A), 422.11(A): 11 A continuous needs 13.75 A, so 15 A; marked 20 A least and 20 A most.
    found = individual_circuit(
        continuous_a=11, other_a=0, marked_circuit_a=None, marked_device_a=None, edition="2023"
    )
    assert found.rating_a == 15
    marked = individual_circuit(
        continuous_a=11, other_a=0, marked_circuit_a=16.5, marked_device_a=20, edition="2023"
    )
    assert marked.rating_a == 20
    with pytest.raises(ValueError, match="needs a 20 A circuit, the appliance allows 15 A at most"):
        individual_circuit(
            continuous_a=16, other_a=0, marked_circuit_a=None, marked_device_a=15, edition="2023"
        )


@given(st.floats(0, 80), st.floats(0.1, 80), editions)
def test_a_circuit_carries_its_raised_load(continuous_a: float, other_a: float, edition: str) -> None:
    rating = required_rating(continuous_a=continuous_a, other_a=other_a, edition=edition).rating_a
    assert rating >= other_a + 1.25 * continuous_a - 1e-6


@pytest.mark.parametrize(
    ("circuit_a", "load_a", "fastened", "portable"),
    [
        # 210.23: fastened equipment with others 50 percent, portable 80 percent of 15 and 20 A.
        (15, 7.5, True, True),
        (15, 7.51, False, True),
        (15, 12, False, True),
        (15, 12.1, False, False),
        (20, 10, True, True),
        (20, 16, False, True),
        (20, 16.1, False, False),
    ],
)
def test_shares_of_a_circuit(circuit_a: float, load_a: float, fastened: bool, portable: bool) -> None:
    for edition in EDITIONS:
        by_fastening = fastened_on_shared_circuit(fastened_a=load_a, circuit_a=circuit_a, edition=edition)
        by_cord = portable_on_shared_circuit(cord_a=load_a, circuit_a=circuit_a, edition=edition)
        assert (by_fastening.holds, by_cord.holds) == (fastened, portable)
        assert bool(by_fastening.reasons) is not fastened
    cited = [
        fastened_on_shared_circuit(fastened_a=1, circuit_a=15, edition=edition).working.source.citation
        for edition in EDITIONS
    ]
    assert cited == [
        "NEC 2020 210.23(A)",
        "NEC 2023 210.23(B)(2)",
        "NEC 2023 210.23(B)(2), standing in for 2026",
    ]


def test_shares_are_not_asked_of_other_circuits() -> None:
    with pytest.raises(ValueError, match="for loads on circuits of 15 or 20 A; found 3 A on 30 A"):
        fastened_on_shared_circuit(fastened_a=3, circuit_a=30, edition="2023")


def test_small_appliance_circuits_serve_receptacles_only() -> None:
    # 210.11(C)(1) and 210.52(B)(2).
    found = small_appliance_circuits("2023")
    assert (found.count, found.rating_a) == (2, 20)
    answers = {
        outlet: on_small_appliance_circuit(outlet, edition="2023").holds
        for outlet in ("countertop receptacle", "gas range receptacle", "hood", "light", "make-up air unit")
    }
    assert answers == {
        "countertop receptacle": True,
        "gas range receptacle": True,
        "hood": False,
        "light": False,
        "make-up air unit": False,
    }


def test_breakers() -> None:
    # 240.15(B), 210.4(B).
    assert breaker(legs=1, multiwire=False, shunt_trip=False, edition="2023").features == ()
    two = breaker(legs=2, multiwire=True, shunt_trip=True, edition="2023")
    assert two.poles == 2
    assert two.features == (
        "opens both legs together",
        "common trip for the legs that share the neutral",
        "with shunt trip, which the breaker's maker must offer for this frame",
    )
    # A handle tie opens both by hand; only a common trip lets the coil open both.
    by_hand = breaker(legs=2, multiwire=True, shunt_trip=False, edition="2023").features
    assert by_hand[1].endswith("or two one-pole breakers with an identified handle tie")
    for legs, multiwire in ((1, True), (3, False), (0, False)):
        with pytest.raises(ValueError, match="one leg, or two"):
            breaker(legs=legs, multiwire=multiwire, shunt_trip=False, edition="2023")
