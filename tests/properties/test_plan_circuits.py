"""Mistakes in the circuits of a whole plan: what each is found by, and what cures it; by construction, one of each."""

from __future__ import annotations

from typing import Any

import pytest

from schedules.findings import Severity
from tests.kitchen_sheet import branch, codes, found, planned, remedied, row, words

CORD = {"length": "36 in", "instructions_allow": True, "grounding_plug": True}


@pytest.mark.parametrize(
    ("changes", "code", "severity"),
    [
        ({"circuit.Q1.rating": "17 A"}, "breaker-not-standard", Severity.FIX),
        ({"circuit.Q1.multiwire": True}, "multiwire-disconnect", Severity.STOP),
        ({"circuit.Q1.largest_device": "10 A"}, "device-above-marking", Severity.STOP),
        ({"circuit.Q1.least_circuit": "18 A"}, "circuit-overloaded", Severity.STOP),
        ({"circuit.Q1.small_appliance": True}, "small-appliance-rating", Severity.STOP),
        ({"circuit.Q1.small_appliance": True}, "small-appliance-other", Severity.STOP),
        ({"circuit.Q2.receptacle": "30 A"}, "receptacle-rating", Severity.FIX),
        ({"circuit.Q2.receptacle": None}, "receptacle-open", Severity.CHECK),
        ({"circuit.Q2.receptacle": None, "circuit.Q2.connection": None}, "connection-open", Severity.CHECK),
        ({"circuit.Q1.individual": False}, "company-open", Severity.CHECK),
        (
            {"circuit.Q3.individual": False, "circuit.Q3.shares_with": "small-appliance receptacles"},
            "company-not-allowed",
            Severity.STOP,
        ),
        ({"circuit.Q1.connection": "cord", "circuit.Q1.receptacle": "15 A"}, "cord-open", Severity.CHECK),
        (
            {"circuit.Q2.shunt_trip": {"rated": "120 V", "burden": "60 VA", "drives": "tripped"}},
            "shunt-trip-breaker",
            Severity.CHECK,
        ),
        ({"device.K1.element.fan.rated": "5 A"}, "contact-overloaded", Severity.STOP),
        ({"device.K1.element.fan.rated": "5 A"}, "contact-not-for-motor", Severity.STOP),
        ({"device.K1.element.fan.rated_for": "resistive"}, "contact-not-for-motor", Severity.STOP),
        ({"device.K1.element.fan.rated_for": "general use"}, "contact-left-to-judgement", Severity.CHECK),
        ({"device.K1.element.fan.rated_for": None}, "contact-rating-open", Severity.CHECK),
        ({"device.S1.element.loop.listed": None}, "class-source-open", Severity.CHECK),
        ({"device.S1.element.loop.listed": "fire-alarm"}, "class-not-listed", Severity.STOP),
    ],
)
def test_each_mistake_is_found(changes: dict[str, Any], code: str, severity: Severity) -> None:
    assert code not in codes(planned())
    signals = (
        {"id": "fan-key", "name": "fan key", "set_by": "outside"},
        {"id": "fire", "name": "fire", "set_by": "outside", "fire": True},
        {"id": "tripped", "name": "tripped", "set_by": "coil"},
    )
    plan = planned(changes | {"signal": signals} if "tripped" in str(changes) else changes)
    assert severity in {item.severity for item in found(plan, code)}


def test_a_hood_with_a_cord_keeps_to_its_conditions() -> None:
    base = {
        "circuit.Q1.connection": "cord",
        "circuit.Q1.receptacle": "15 A",
        "circuit.Q1.receptacle_accessible": True,
        "circuit.Q1.cord_protected": True,
    }
    allowed = planned(base | {"circuit.Q1.cord": CORD})
    assert not {"cord-open", "cord-not-allowed"} & codes(allowed)
    # 422.16(B)(4): 18 to 48 in.
    (finding,) = found(planned(base | {"circuit.Q1.cord": CORD | {"length": "60 in"}}), "cord-not-allowed")
    assert "60 in is longer than 48 in" in finding.says
    shared = base | {"circuit.Q1.cord": CORD, "circuit.Q1.individual": False}
    assert found(planned(shared), "cord-not-allowed")


def test_a_hood_beside_lights_takes_up_to_half_of_the_circuit() -> None:
    # 210.23: 6 A of fan on a 15 A circuit, 7.5 A allowed; 9 A is not.
    shared = {"circuit.Q3.individual": False, "circuit.Q3.shares_with": "lights or portable loads"}
    assert not found(planned(shared), "company-not-allowed")
    more = shared | {"device.M1.element.motor.current": "9 A"}
    assert found(planned(more), "company-not-allowed")


def test_a_loop_that_shuts_off_the_heat_is_left_to_the_authority() -> None:
    assert not found(planned(), "safety-control-class")
    loop = (
        {"kind": "resistor", "id": "end-of-line", "between": ("1", "2"), "ohms": "4.7 kohm"},
        {
            "kind": "load",
            "id": "valve",
            "between": ("1", "2"),
            "rated": "24 V",
            "power": "5 W",
            "effect": "heat",
        },
    )
    third = (
        {
            "id": "1",
            "potential": "loop +",
            "carries": "signal",
            "clamp": "any",
            "land": "optional",
            "class": "class-2",
        },
        {
            "id": "2",
            "potential": "loop -",
            "carries": "signal",
            "clamp": "any",
            "land": "optional",
            "class": "class-2",
        },
        {
            "id": "3",
            "potential": "valve",
            "carries": "signal",
            "clamp": "any",
            "land": "optional",
            "class": "class-2",
        },
    )
    # Straight on the supply's two poles the wires are the supply's; behind a contact one of them is the valve's.
    assert not found(planned({"device.S2.element": loop}), "safety-control-class")
    source = (
        {
            "kind": "supply",
            "id": "loop",
            "between": ("1", "2"),
            "volts": "24 V",
            "current": "dc",
            "listed": "class-2",
        },
        {
            "kind": "contact",
            "id": "valve-contact",
            "between": ("1", "3"),
            "form": "NC",
            "operates": {"all": ("fire",)},
        },
    )
    switched = planned(
        {
            "device.S1.terminal": third,
            "device.S1.element": source,
            "device.S2.terminal": third,
            "device.S2.element": (
                {
                    "kind": "load",
                    "id": "valve",
                    "between": ("3", "2"),
                    "rated": "24 V",
                    "power": "5 W",
                    "effect": "heat",
                },
            ),
            "cable.5.core": (
                {"id": "1", "colour": "RD", "size": "18 AWG", "from": "S1:3", "to": "S2:3"},
                {"id": "2", "colour": "BK", "size": "18 AWG", "from": "S1:2", "to": "S2:2"},
            ),
        }
    )
    (finding,) = found(switched, "safety-control-class")
    assert "Decided by: authority having jurisdiction" in finding.says


def test_a_circuit_nobody_knows_the_load_of() -> None:
    plan = planned({"device.X1.element": ()})
    assert found(plan, "circuit-load-unknown")
    assert row(plan, "Q1").needed_a is None
    assert row(plan, "Q1").needed_conductor == "14 AWG"


@pytest.mark.parametrize(
    ("changes", "code", "remedy"),
    [
        ({"circuit.Q2.receptacle": "30 A"}, "receptacle-rating", "set receptacles of 50 A on Q2"),
        (
            {"circuit.Q3.individual": False, "circuit.Q3.shares_with": "small-appliance receptacles"},
            "company-not-allowed",
            "let nothing else be on Q3",
        ),
        (
            {
                "circuit.Q1.connection": "cord",
                "circuit.Q1.receptacle": "15 A",
                "circuit.Q1.receptacle_accessible": True,
                "circuit.Q1.cord_protected": True,
                "circuit.Q1.cord": CORD | {"length": "60 in"},
            },
            "cord-not-allowed",
            "wire the hood in, without cord and plug",
        ),
    ],
)
def test_remedies_are_planned_again_and_kept(changes: dict[str, Any], code: str, remedy: str) -> None:
    assert words(remedied(changes), code) == [remedy]


@pytest.mark.parametrize(("edition", "least"), [(2020, 15), (2023, 10)])
def test_a_circuit_with_a_receptacle_is_never_one_of_10_a(edition: int, least: int) -> None:
    # 210.18 of 2020 starts at 15 A; 210.23(A)(2) of 2023 keeps receptacles off the new 10 A circuits.
    in_job = {"job.code": edition}
    hardwired = branch(planned(None, in_job), "Q3").rating
    plugged = branch(planned({"circuit.Q3.receptacle": "15 A"}, in_job), "Q3").rating
    assert hardwired is not None
    assert plugged is not None
    assert (hardwired.rating_a, plugged.rating_a) == (least, 15)


@pytest.mark.parametrize(
    ("changes", "code", "words"),
    [
        ({"circuit.Q1.rating": "17 A"}, "breaker-not-standard", "a breaker of 15 A, if it carries the load"),
        ({"circuit.Q1.largest_device": "10 A"}, "device-above-marking", "a breaker of 10 A"),
        ({"circuit.Q1.least_circuit": "18 A"}, "circuit-overloaded", "a 20 A circuit with conductors for it"),
        ({"circuit.Q1.small_appliance": True}, "small-appliance-rating", "a 20 A circuit"),
        ({"circuit.Q1.small_appliance": True}, "small-appliance-other", "from another circuit"),
        ({"circuit.Q1.multiwire": True}, "multiwire-disconnect", "an identified handle tie"),
    ],
)
def test_what_no_edit_of_the_job_cures_is_said_with_its_number(
    changes: dict[str, Any], code: str, words: str
) -> None:
    finding, *_ = found(planned(changes), code)
    assert words in finding.remedies[0].words
    assert finding.remedies[0].edits == ()
