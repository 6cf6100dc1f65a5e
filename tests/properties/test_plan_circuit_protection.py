"""Ground-fault and arc-fault protection of a whole plan's circuits, after 210.8 and 210.12 of each edition."""

from __future__ import annotations

import pytest

from schedules.rows.every import SCHEDULES
from tests.kitchen_sheet import branch, found, planned, remedied, row, words


def test_the_columns_replace_the_note() -> None:
    plan = planned()
    shown = {item.key for item in SCHEDULES["circuits"](plan).columns}
    assert shown >= {
        "protection",
        "needed_conductor",
        "needed_ground",
        "needed",
        "drop_8",
        "drop_9",
        "drop_solved",
    }
    assert "follow the adopted code" not in SCHEDULES["circuits"](plan).note
    assert row(plan, "Q1").protection == "AFCI"


@pytest.mark.parametrize(
    ("code", "protection"),
    [
        # 2020: 210.8(D) lists no range and 210.8(A)(6) means countertops; since 2023 the range and every receptacle.
        (2020, "standard"),
        (2023, "GFCI"),
        (2026, "GFCI"),
    ],
)
def test_protection_of_a_range_by_edition(code: int, protection: str) -> None:
    plan = planned({"circuit.Q2.to_sink": "9 ft"}, {"job.code": code})
    assert row(plan, "Q2").protection == protection


def test_the_2020_edition_asks_where_the_sink_is() -> None:
    plan = planned(None, {"job.code": 2020})
    (finding,) = found(plan, "protection-open")
    assert finding.answer == ("circuit", "Q2", "to_sink")
    near = planned({"circuit.Q2.to_sink": "5 ft"}, {"job.code": 2020})
    assert row(near, "Q2").protection == "GFCI"


def test_the_2026_edition_names_who_decides() -> None:
    plan = planned(None, {"job.code": 2026})
    says = [item.says for item in found(plan, "left-to-judgement")]
    assert any("Decided by: authority having jurisdiction" in item for item in says)
    assert "standing in for 2026" in str(branch(plan, "Q1").rating.working.source)  # type: ignore[union-attr]


@pytest.mark.parametrize("code", [2020, 2023, 2026])
def test_every_edition_plans_the_kitchen(code: int) -> None:
    plan = planned({"circuit.Q2.to_sink": "9 ft"}, {"job.code": code})
    assert plan.sound
    assert {
        str(item.circuit.tag): row(plan, item.circuit.tag).needed_conductor for item in plan.derived.branches
    } == {
        "Q1": "14 AWG",
        "Q2": "6 AWG",
        "Q3": "14 AWG",
    }


def test_a_breaker_that_leaves_out_what_is_needed_and_the_remedy() -> None:
    plan = remedied(None, None, circuit=[{"circuit": "Q1", "breaker_type": "standard"}])
    assert words(plan, "breaker-type") == ["take a breaker of type AFCI for Q1"]
    assert not found(planned(circuit=({"circuit": "Q1", "breaker_type": "AFCI and GFCI"},)), "breaker-type")


def test_a_ground_fault_receptacle_serves_in_place_of_the_breaker() -> None:
    standard = {"circuit": "Q2", "breaker_type": "standard"}
    assert found(planned(circuit=(standard,)), "breaker-type")
    served = planned(circuit=(standard | {"gfci_receptacle": True},))
    assert not found(served, "breaker-type")
    assert not found(served, "left-to-judgement")


def test_a_short_extension_needs_no_arc_fault_breaker() -> None:
    assert row(planned(circuit=({"circuit": "Q1", "extends": "5 ft"},)), "Q1").protection == "standard"
    assert row(planned(circuit=({"circuit": "Q1", "extends": "7 ft"},)), "Q1").protection == "AFCI"
