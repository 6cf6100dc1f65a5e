"""What each circuit of a whole plan must carry.

Expected numbers are worked by hand from NEC Table 220.55, each beside its check.
"""

from __future__ import annotations

import pytest

from schedules.findings import Severity
from tests.kitchen_sheet import branch, codes, found, planned, row

RANGE = "device.X2.element.elements"
COOKTOP_AND_OVENS = (
    {"kind": "load", "id": "cooktop", "between": ("X", "Y"), "rated": "240 V", "power": "6 kW"},
    {"kind": "load", "id": "oven-1", "between": ("X", "Y"), "rated": "240 V", "power": "4 kW"},
    {"kind": "load", "id": "oven-2", "between": ("X", "Y"), "rated": "240 V", "power": "4 kW"},
)


def test_the_kitchen_is_sound() -> None:
    plan = planned()
    assert plan.sound
    assert codes(plan) == {"left-to-judgement", "disconnect-open"}


@pytest.mark.parametrize(
    ("power", "demand_kw", "least_a"),
    [
        # Table 220.55 column C: 8 kW, 33.3 A; 210.19(C): from 8.75 kW not below 40 A.
        ("12 kW", 8.0, 40),
        # Note 1: four kW above 12 raise 8 kW by 20 %: 9.6 kW, 40 A.
        ("16 kW", 9.6, 40),
        # Note 1: 8 kW raised by 50 %: 12 kW, 50 A.
        ("22 kW", 12.0, 50),
        # Note 3: column B for one, 80 % of 8.4 kW: 6.72 kW, 28 A, and below 8.75 kW no least circuit.
        ("8.4 kW", 6.72, 30),
    ],
)
def test_a_range_counts_by_the_table(power: str, demand_kw: float, least_a: int) -> None:
    plan = planned({f"{RANGE}.power": power})
    cooking = branch(plan, "Q2").cooking
    assert cooking is not None
    assert cooking.demand is not None
    assert cooking.demand.demand_kw == pytest.approx(demand_kw)
    assert row(plan, "Q2").needed_a == least_a


def test_a_range_too_large_for_its_circuit_stops_the_work() -> None:
    plan = planned({f"{RANGE}.power": "24 kW", "circuit.Q2.receptacle": "60 A"})
    # 8 kW raised by 60 %: 12.8 kW, 53.3 A, next standard rating 60 A.
    (finding,) = found(plan, "circuit-overloaded")
    assert finding.severity is Severity.STOP
    assert "needs a circuit of 60 A" in finding.says


def test_a_cooktop_with_two_ovens_counts_as_one_range() -> None:
    names = ("cooktop", "wall oven", "wall oven")
    elements = tuple(
        item | {"effect": "heat", "appliance": name}
        for item, name in zip(COOKTOP_AND_OVENS, names, strict=True)
    )
    plan = planned({"device.X2.element": elements})
    cooking = branch(plan, "Q2").cooking
    assert cooking is not None
    assert cooking.demand is not None
    # 14 kW as one range: 8 kW raised by 10 % (Table 220.55 notes on branch circuits, and Note 1).
    assert cooking.demand.demand_kw == pytest.approx(8.8)
    three = (*elements, elements[1] | {"id": "oven-3"})
    assert codes(planned({"device.X2.element": three})) >= {"cooking-company"}


def test_the_kitchens_appliances_count_together() -> None:
    plan = planned()
    assert plan.derived.kitchen is not None
    assert plan.derived.kitchen.demand_kw == pytest.approx(8.0)


def test_an_appliance_that_nobody_names_is_asked_for() -> None:
    plan = planned({f"{RANGE}.appliance": None})
    (finding,) = found(plan, "appliance-open")
    assert finding.severity is Severity.CHECK
    assert finding.answer == ("nameplate", "X2.elements", "appliance")
    # The job's own word answers it, and its nameplate stands in place of the sheet's figure.
    named = planned(
        {f"{RANGE}.appliance": None},
        nameplate=({"load": "X2.elements", "power": "16 kW", "appliance": "electric range"},),
    )
    assert not found(named, "appliance-open")
    assert named.derived.kitchen is not None
    assert named.derived.kitchen.demand_kw == pytest.approx(9.6)
