"""Wires and grounds of a whole plan's circuits: heat, bundles, insulation, voltage drop.

Expected numbers are worked by hand from NEC Tables 310.16, 310.15(B)(1), 310.15(C)(1), 250.122 and Chapter 9 Tables 8
and 9, each beside its check.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.findings import Severity
from tests.kitchen_sheet import branch, found, planned, remedied, row, words

if TYPE_CHECKING:
    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.plan import Plan


@pytest.mark.parametrize(
    ("cable", "changes", "hottest_c"),
    [
        # 6 AWG: 75 A x 0.65 = 48.75 A at 65 C, next standard 50 A; x 0.58 = 43.5 A at 70 C allows 45 A.
        ("W2", {}, 65),
        # 14 AWG, 90 C: 25 A x 0.58 = 14.5 A at 70 C, next 15 A; x 0.50 = 12.5 A at 75 C, next 15 A;
        # x 0.41 = 10.25 A at 80 C, next 15 A; x 0.29 = 7.25 A at 85 C, next 10 A.
        ("W1", {}, 80),
    ],
)
def test_how_hot_it_may_get(cable: str, changes: dict[str, Any], hottest_c: float) -> None:
    plan = planned(changes)
    wires = next(item for planned in plan.derived.branches for item in planned.wires if item.cable == cable)
    assert wires.hottest_c == hottest_c


def test_bundles_and_heat_ask_for_a_thicker_wire_and_the_remedy_is_proved() -> None:
    # Three cables of two: 6 current-carrying conductors, 80 %. 25 A x 0.41 x 0.8 = 8.2 A at 80 C, next standard 10 A.
    # 12 AWG: 30 A x 0.41 x 0.8 = 9.84 A: 10 A. 10 AWG: 40 A x 0.41 x 0.8 = 13.1 A: 15 A.
    bundle = ({"tag": "B1", "cables": ("W1", "W3", "W4"), "length": "10 ft"},)
    plan = remedied(None, {"run.W1.ambient": "80 C"}, bundle=bundle)
    (finding,) = found(plan, "conductor-thin")
    assert finding.subject == "W1"
    assert "in bundle B1" in finding.says
    # Enlarged for heat alone, so that its ground stays (250.122(B)).
    assert words(plan, "conductor-thin") == ["buy W1 with 10 AWG, 14 AWG to ground"]
    short = ({"tag": "B1", "cables": ("W1", "W3", "W4"), "length": "20 in"},)
    assert not found(planned(None, {"run.W1.ambient": "80 C"}, bundle=short), "conductor-thin")


def test_a_raceway_puts_its_cables_together() -> None:
    raceway = ({"tag": "R1", "kind": "EMT", "cables": ("W1", "W3", "W4"), "trade_size": "2"},)
    plan = planned(None, None, raceway=raceway)
    wires = next(item for item in branch(plan, "Q1").wires if item.cable == "W1")
    assert (wires.together.where, wires.together.current_carrying) == ("in raceway R1", 6)
    # The range's neutral carries only the difference of the legs (310.15(E)): its cable counts two.
    own = next(item for item in branch(plan, "Q2").wires)
    assert own.together.current_carrying == 2


def test_terminals_marked_75_let_a_thinner_wire_be_enough() -> None:
    thhn = {"cable.2.type": "THHN singles"}
    assert row(planned(thhn), "Q2").needed_conductor == "6 AWG"
    # Table 310.16: 8 AWG copper carries 50 A at 75 C.
    assert (
        row(planned(thhn, circuit=({"circuit": "Q2", "marked_terminals": 75},)), "Q2").needed_conductor
        == "8 AWG"
    )
    # NM cable keeps its 60 C column (334.80).
    assert (
        row(planned(None, circuit=({"circuit": "Q2", "marked_terminals": 75},)), "Q2").needed_conductor
        == "6 AWG"
    )


def test_an_unknown_cable_type_takes_the_least_favourable_insulation() -> None:
    plan = planned({"cable.1.type": "XYZ 14/2"})
    assert found(plan, "cable-type-unknown")
    assert row(plan, "Q1").needed_conductor == "14 AWG"


def test_the_ground_grows_with_the_conductors_and_the_remedy_is_proved() -> None:
    # 250.122(B): 14 AWG (4110 cmil) x 10380 / 4110 = 10380 cmil: 10 AWG.
    plan = remedied(None, {"run.W1.size": "10 AWG"})
    (finding,) = found(plan, "ground-thin")
    assert "needs 10 AWG" in finding.says
    # Rules told in words have no number to print.
    assert finding.numbers
    assert all(item.value for item in finding.numbers)
    assert words(plan, "ground-thin") == ["buy W1 with 10 AWG to ground"]
    assert not found(planned(None, {"run.W1.size": "10 AWG", "run.W1.ground": "10 AWG"}), "ground-thin")


def test_a_thicker_cable_is_named_so_and_lands_as_such() -> None:
    plan = planned(None, {"run.W1.size": "12 AWG", "run.W1.ground": "12 AWG"})
    cable = next(item for item in plan.derived.selection.cables if item.tag == "W1")
    assert cable.type == "NM-B 12/2 G"
    assert {
        str(item.size) for item in plan.derived.connections.conductors.values() if item.cable == "W1"
    } == {"12 AWG"}


def test_the_ranges_neutral_may_be_reduced_so_far() -> None:
    def with_neutral(size: str) -> Plan:
        cores = (
            {"id": "1", "colour": "BK", "size": "6 AWG", "from": "Q2:L1", "to": "X2:X"},
            {"id": "2", "colour": "RD", "size": "6 AWG", "from": "Q2:L2", "to": "X2:Y"},
            {"id": "3", "colour": "WH", "size": size, "from": "Q2:N", "to": "X2:W"},
            {"id": "4", "colour": "bare", "size": "10 AWG", "from": "Q2:PE", "to": "X2:G"},
        )
        return planned({"cable.2.core": cores})

    # 210.19 exception 2: 70 % of 50 A is 35 A; 8 AWG copper carries 40 A at 60 C, 10 AWG 30 A.
    assert not found(with_neutral("8 AWG"), "neutral-thin")
    assert found(with_neutral("10 AWG"), "neutral-thin")


def test_voltage_drop_by_both_tables_and_solved() -> None:
    plan = planned(None, {"run.W3.taped": "40 ft", "run.W4.taped": "60 ft"})
    drop = branch(plan, "Q3").drop
    assert drop is not None
    # 100 ft of way and 6 in of free conductor at the panel (300.14). Table 8: 14 AWG solid 3.07 ohm/kft:
    # 2 x 6 A x 3.07 x 0.1005 kft = 3.702 V. Table 9 in PVC: R 3.1, power factor 1: 3.739 V.
    assert drop.by_resistance.drop_v == pytest.approx(3.702, abs=5e-4)
    assert drop.by_impedance.drop_v == pytest.approx(3.739, abs=5e-4)
    assert drop.solved_percent == pytest.approx(drop.by_resistance.percent, rel=0.05)
    assert found(plan, "voltage-drop")[0].severity is Severity.NOTE
    assert row(plan, "Q3").drop_8_percent == pytest.approx(3.085, abs=5e-4)


def test_a_way_that_is_not_measured_has_no_drop() -> None:
    plan = planned(None, {"run.W4.taped": None})
    assert branch(plan, "Q3").drop is None


def test_the_feeders_drop_counts_towards_the_whole() -> None:
    # 30 ft and 30 ft: 2 x 6 A x 3.1 x 0.06 kft = 2.23 V, 1.86 %; with 3.5 % before the panel above the advised 5 %.
    near = {"site.feeder_drop": "3.5 %"}
    assert not found(planned(), "voltage-drop")
    assert found(planned(None, near), "voltage-drop")


@settings(max_examples=40)
@given(
    feet=st.tuples(st.integers(1, 300), st.integers(1, 300)),
    more=st.integers(0, 200),
    size=st.sampled_from(["14 AWG", "12 AWG", "10 AWG", "8 AWG"]),
    power_factor=st.sampled_from([0.7, 0.85, 1.0]),
)
def test_a_longer_way_never_drops_less_and_the_solved_network_agrees(
    feet: tuple[int, int], more: int, size: str, power_factor: float
) -> None:
    """Oracle: nodal analysis of the same graph, which knows nothing of these formulas."""

    def drop(first: int) -> CircuitPlan:
        changes = {
            "run.W3.taped": f"{first} ft",
            "run.W4.taped": f"{feet[1]} ft",
            "run.W3.size": size,
            "run.W4.size": size,
        }
        plan = planned({"device.M1.element.motor.power_factor": power_factor}, changes)
        return branch(plan, "Q3")

    near, far = drop(feet[0]).drop, drop(feet[0] + more).drop
    assert near is not None
    assert far is not None
    assert far.by_resistance.drop_v >= near.by_resistance.drop_v - 1e-9
    assert far.by_impedance.drop_v >= near.by_impedance.drop_v - 1e-9
    # A constant impedance draws less as its voltage falls, and resistance alone is below the magnitude only by the
    # power factor: the formula is the upper of the two.
    assert near.solved_percent is not None
    real = near.by_resistance.percent * power_factor
    assert near.solved_percent <= near.by_resistance.percent + 0.2
    assert near.solved_percent >= real / (1 + near.by_resistance.percent / 100) - 0.2


def test_the_drops_remedy_is_the_thinnest_wire_that_keeps_to_the_advice() -> None:
    plan = remedied(None, {"run.W3.taped": "60 ft", "run.W4.taped": "60 ft"})
    # 2 x 6 A x 0.1205 kft: 14 AWG 3.1 ohm/kft loses 4.48 V, 3.7 %; 12 AWG 2.0 ohm/kft 2.89 V, 2.4 %.
    assert words(plan, "voltage-drop") == ["buy W3, W4 with 12 AWG, and a ground as thick"]
    far = remedied(None, {"run.W3.taped": "300 ft", "run.W4.taped": "60 ft"})
    # 12 AWG loses 7.2 %, 10 AWG at 1.2 ohm/kft 4.3 %, 8 AWG at 0.78 ohm/kft 2.8 %.
    assert words(far, "voltage-drop") == ["buy W3, W4 with 8 AWG, and a ground as thick"]


def test_an_attic_without_a_temperature_is_asked_for() -> None:
    attic = {
        "site.ambient": None,
        "site.above": "attic",
        "site.ceiling": "8 ft",
        "run.W1.route": "overhead",
        "run.W1.taped": None,
    }
    (finding,) = found(planned(None, attic), "ambient-open")
    assert finding.answer == ("site", None, "ambient")
    assert "W1 run through the attic" in finding.says
    assert not found(planned(None, attic | {"site.ambient": "50 C"}), "ambient-open")
