"""The hood's circuit and cord, and a fan by others, edition by edition, each against the section it comes from."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.circuits.fan_contact import RATED_FOR, fan_contact
from schedules.circuits.hood_supply import HoodCord, hood_circuit, hood_cord

EDITIONS = ("2020", "2023", "2026")


def cord(**changed: object) -> HoodCord:
    good: dict[str, object] = {
        "length_in": 36.0,
        "instructions_allow": True,
        "grounding_plug": True,
        "double_insulated": False,
        "receptacle_accessible": True,
        "cord_kept_from_damage": True,
        "individual_circuit": True,
    }
    return HoodCord(**(good | changed))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changed", "breach"),
    [
        # 422.16(B)(4).
        ({"length_in": 17.9}, "shorter than 18 in"),
        ({"length_in": 48.1}, "longer than 48 in"),
        ({"instructions_allow": False}, "instructions don't allow"),
        ({"grounding_plug": False}, "no grounding plug"),
        ({"receptacle_accessible": False}, "not accessible"),
        ({"cord_kept_from_damage": False}, "can be damaged"),
        ({"individual_circuit": False}, "not on an individual branch circuit"),
    ],
)
def test_each_breach_of_the_cord_rule_is_named(changed: dict[str, object], breach: str) -> None:
    for edition in EDITIONS:
        verdict = hood_cord(cord(**changed), edition=edition)
        assert not verdict.holds
        assert len(verdict.reasons) == 1
        assert breach in verdict.reasons[0]


def test_a_cord_that_keeps_every_condition_is_allowed() -> None:
    for length_in in (18, 48):
        assert hood_cord(cord(length_in=length_in), edition="2023").holds
    assert hood_cord(cord(grounding_plug=False, double_insulated=True), edition="2023").holds
    with pytest.raises(ValueError, match="above 0 in"):
        hood_cord(cord(length_in=0), edition="2023")


def test_all_breaches_of_the_cord_rule_at_once() -> None:
    bad = HoodCord(
        length_in=60,
        instructions_allow=False,
        grounding_plug=False,
        double_insulated=False,
        receptacle_accessible=False,
        cord_kept_from_damage=False,
        individual_circuit=False,
    )
    assert len(hood_cord(bad, edition="2023").reasons) == 6


@pytest.mark.parametrize(
    ("hood_a", "circuit_a", "connection", "shares_with", "holds"),
    [
        (5, 15, "hardwired", "nothing", True),
        (15.1, 15, "hardwired", "nothing", False),
        (7.5, 15, "hardwired", "lights or portable loads", True),
        (7.6, 15, "hardwired", "lights or portable loads", False),
        (1, 20, "hardwired", "small-appliance receptacles", False),
        (5, 15, "cord", "nothing", True),
        (5, 15, "cord", "lights or portable loads", False),
        (5, 15, "cord", "small-appliance receptacles", False),
    ],
)
def test_the_hoods_circuit(
    hood_a: float, circuit_a: float, connection: str, shares_with: str, holds: bool
) -> None:
    verdict = hood_circuit(
        hood_a=hood_a, circuit_a=circuit_a, connection=connection, shares_with=shares_with, edition="2023"
    )
    assert verdict.holds is holds
    assert bool(verdict.reasons) is not holds
    assert [judgement.who_decides for judgement in verdict.judgements] == [
        "installer, from the maker's instructions"
    ]


def test_other_words_for_the_hoods_circuit_are_refused() -> None:
    with pytest.raises(ValueError, match="connection is one of cord, hardwired"):
        hood_circuit(hood_a=3, circuit_a=15, connection="plug", shares_with="nothing", edition="2023")


@given(st.floats(0.1, 30), st.floats(0.1, 30), st.sampled_from(RATED_FOR), st.sampled_from([120, 240]))
def test_a_contact_never_switches_more_than_its_marking(
    full_load_a: float, contact_a: float, rated_for: str, fan_v: float
) -> None:
    verdict = fan_contact(
        full_load_a=full_load_a,
        contact_a=contact_a,
        rated_for=rated_for,
        fan_v=fan_v,
        contact_v=120,
        edition="2023",
    )
    if verdict.holds:
        assert full_load_a <= contact_a + 1e-6
        assert fan_v <= 120
        assert rated_for in {"motor", "general use"}
    assert bool(verdict.reasons) is not verdict.holds


def test_who_decides_about_a_contact() -> None:
    decided = {
        rated_for: [
            judgement.who_decides
            for judgement in fan_contact(
                full_load_a=4, contact_a=10, rated_for=rated_for, fan_v=120, contact_v=120, edition="2023"
            ).judgements
        ]
        for rated_for in RATED_FOR
    }
    assert decided == {
        "motor": [],
        "general use": ["maker of the contact"],
        "resistive": ["electrician"],
        "pilot duty": ["electrician"],
    }
    with pytest.raises(ValueError, match="rated_for is one of motor"):
        fan_contact(full_load_a=4, contact_a=10, rated_for="lamp", fan_v=120, contact_v=120, edition="2023")
