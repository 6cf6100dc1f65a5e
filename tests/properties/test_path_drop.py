"""Drop on a way of several cables: one cable there and back is the single-phase formula; ways add up.

Formulas of NEC Chapter 9 Tables 8 and 9; the hand-worked way follows the notes to those tables.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.circuits.path_drop import Leg, path_drop_by_impedance, path_drop_by_resistance
from schedules.circuits.voltage_drop import drop_by_impedance, drop_by_resistance, printed_temperature
from schedules.quantities.sizes import WireSize

SIZES = tuple(WireSize(gauge=gauge) for gauge in (14, 12, 10, 8, 6))
amperes = st.floats(0.1, 50)
inches = st.floats(1, 6_000)
legs = st.tuples(st.sampled_from(SIZES), inches, amperes)
factor = st.sampled_from([0.7, 0.8, 0.85, 0.9, 1.0])


def leg(size: WireSize, length_in: float, load_a: float, count: int = 2) -> Leg:
    return Leg("W1", size, "stranded", "pvc", count, length_in, load_a)


@given(size=st.sampled_from(SIZES), length_in=inches, load_a=amperes, power_factor=factor)
def test_one_cable_there_and_back_is_the_single_phase_formula(
    size: WireSize, length_in: float, load_a: float, power_factor: float
) -> None:
    way = [leg(size, length_in, load_a)]
    by_8 = path_drop_by_resistance(way, material="copper", supply_v=120, temperature_c=75, edition="2023")
    alone_8 = drop_by_resistance(
        size,
        material="copper",
        stranding="stranded",
        load_a=load_a,
        length_in=length_in,
        supply_v=120,
        temperature_c=75,
        edition="2023",
    )
    assert by_8.drop_v == pytest.approx(alone_8.drop_v)
    assert by_8.percent == pytest.approx(alone_8.percent)
    by_9 = path_drop_by_impedance(
        way, material="copper", power_factor=power_factor, supply_v=120, edition="2023"
    )
    alone_9 = drop_by_impedance(
        size,
        material="copper",
        conduit="pvc",
        power_factor=power_factor,
        load_a=load_a,
        length_in=length_in,
        supply_v=120,
        edition="2023",
    )
    assert by_9.drop_v == pytest.approx(alone_9.drop_v)


@given(
    first=st.tuples(st.sampled_from(SIZES), inches, amperes),
    second=st.tuples(st.sampled_from(SIZES), inches, amperes),
)
def test_legs_add_up_in_any_order(
    first: tuple[WireSize, float, float], second: tuple[WireSize, float, float]
) -> None:
    def drop(*legs: Leg) -> float:
        return path_drop_by_resistance(
            legs, material="copper", supply_v=120, temperature_c=75, edition="2023"
        ).drop_v

    one, two = leg(*first), leg(*second)
    assert drop(one, two) == pytest.approx(drop(one) + drop(two))
    assert drop(one, two) == pytest.approx(drop(two, one))
    assert drop(one, two) > max(drop(one), drop(two))


def test_a_switch_loop_worked_by_hand() -> None:
    """12 AWG solid, 1.93 ohm/kft: 100 ft of supply and a loop of 40 ft out and 40 ft back, 10 A at 120 V."""
    way = [
        Leg("W16", WireSize(gauge=12), "solid", "pvc", 2, 1_200, 10),
        Leg("W17", WireSize(gauge=12), "solid", "pvc", 2, 480, 10),
    ]
    drop = path_drop_by_resistance(way, material="copper", supply_v=120, temperature_c=75, edition="2023")
    # 2 x 10 A x 1.93 x 0.1 kft = 3.86 V; 2 x 10 A x 1.93 x 0.04 kft = 1.544 V.
    assert drop.drop_v == pytest.approx(5.404)
    assert drop.working.result == "5.40 V, 4.50 percent"
    assert [item.name.split(":")[0] for item in drop.working.inputs] == ["W16", "W17", "supply"]


def test_the_tables_hold_at_75_c() -> None:
    assert printed_temperature("2023") == 75


@pytest.mark.parametrize(
    ("legs", "supply_v"),
    [
        ([], 120.0),
        ([leg(SIZES[0], 100, 1)], 0.0),
        ([leg(SIZES[0], -1, 1)], 120.0),
        ([leg(SIZES[0], 1, 1, 0)], 120.0),
    ],
)
def test_a_way_that_cannot_be_is_refused(legs: list[Leg], supply_v: float) -> None:
    with pytest.raises(ValueError, match="need conductors"):
        path_drop_by_resistance(legs, material="copper", supply_v=supply_v, temperature_c=75, edition="2023")
