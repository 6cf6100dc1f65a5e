"""A local amendment stands in for the code's number wherever that is used, and is shown there.

The amendments are invented; the code's own numbers beside them are those of NEC 210.19, 210.20, 300.4 and IRC R602.6.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from schedules.findings import Severity
from schedules.rows.every import SCHEDULES
from schedules.tables import Adopted, Amendment, has_rule, rule
from schedules.workings import workings
from schedules.writers.text import working_lines
from tests.kitchen_sheet import found, planned

if TYPE_CHECKING:
    from schedules.working import Working

CITY = "City ordinance 12-340"


def amended(name: str, number: float, unit: str) -> dict[str, Any]:
    return {"rule": name, "number": number, "unit": unit, "source": CITY}


def as_told(working: Working) -> str:
    return "\n".join(working_lines(working, 200))


def test_an_amended_rule_gives_the_locals_number_and_tells_both() -> None:
    here = Adopted("2023", (Amendment("range_circuit_min", 50, "A", CITY),))
    assert rule("range_circuit_min", here).number == 50
    source = rule("range_circuit_min", here).source
    assert str(source) == f"NEC 2023 210.19(C), amended locally: 50 A instead of 40 A by {CITY}"
    assert rule("range_circuit_min", "2023").number == 40
    assert rule("free_conductor", here) == rule("free_conductor", "2023")


def test_editions_and_amendments_are_arguments_never_a_setting() -> None:
    """Asking with an amendment leaves every other question as it was."""
    before = rule("device_continuous", "2023")
    rule("device_continuous", Adopted("2023", (Amendment("device_continuous", 150, "percent", CITY),)))
    assert rule("device_continuous", "2023") == before
    assert rule("device_continuous", Adopted("2023")) == before
    assert has_rule("box_terminal_block", Adopted("2023"))
    assert not has_rule("box_terminal_block", Adopted("2020"))


def test_the_last_of_two_amendments_of_one_rule_stands() -> None:
    twice = (Amendment("range_circuit_min", 50, "A", "old"), Amendment("range_circuit_min", 60, "A", "new"))
    assert rule("range_circuit_min", Adopted("2023", twice)).number == 60


def test_an_amended_least_range_circuit_changes_the_plan_and_shows() -> None:
    plan = planned(
        {"device.X2.element.elements.power": "10 kW"}, amendment=(amended("range_circuit_min", 50, "A"),)
    )
    row = next(item for item in SCHEDULES["circuits"](plan).rows if item.circuit == "Q2")
    assert row.needed_a == 50
    (note,) = found(plan, "amendment")
    assert note.severity is Severity.NOTE
    assert "50 A instead of 40 A" in note.says
    told = [as_told(item.working) for item in workings(plan) if item.subject == "Q2"]
    assert any(f"amended locally: 50 A instead of 40 A by {CITY}" in text for text in told)


def test_a_finding_that_an_amendment_caused_says_so() -> None:
    small = {"circuit.Q2.rating": "40 A", "circuit.Q2.receptacle": "40 A"}
    assert not found(planned(small), "circuit-overloaded")
    plan = planned(small, amendment=(amended("range_circuit_min", 50, "A"),))
    (finding,) = found(plan, "circuit-overloaded")
    assert finding.source.amended == (f"50 A instead of 40 A by {CITY}",)


def test_only_what_rests_on_the_amended_rule_says_so() -> None:
    plan = planned(amendment=(amended("range_circuit_min", 50, "A"),))
    touched = {item.subject for item in workings(plan) if "amended locally" in as_told(item.working)}
    assert touched == {"Q2"}


def test_rules_for_boxes_raceways_and_framing_may_be_amended_too() -> None:
    job = {"job.residential_code": 2018}
    framing = ({"tag": "F1", "cable": "W1", "member": "stud", "lumber": "2x4", "bearing": True},)
    # 1.5 in of wood are left in the middle of a 2x4: enough by the code, too little by the ordinance.
    assert not found(planned(None, job, framing=framing), "steel-plate")
    plan = planned(None, job, framing=framing, amendment=(amended("bored_hole_edge", 1.75, "in"),))
    assert found(plan, "steel-plate")[0].source.amended
    holes = planned(None, job, framing=framing, amendment=(amended("stud_hole_bearing", 10, "%"),))
    assert found(holes, "framing-cut")[0].source.amended
    boxes = planned(amendment=(amended("box_yoke", 4, "allowances"),))
    (row,) = [item for item in SCHEDULES["boxes"](boxes).rows if item.enclosure == "RR"]
    # Three 6 AWG at 5 cu in, a yoke of two gangs at 4 x 5 each, one ground at 2.5 cu in.
    assert row.needs_cu_in == pytest.approx(15 + 40 + 2.5)
    raceway = ({"tag": "R1", "kind": "EMT", "cables": ("W1",), "bend": ({"angle": "90 deg"},) * 3},)
    assert not found(planned(raceway=raceway), "raceway-bends")
    bent = planned(raceway=raceway, amendment=(amended("bends_between_pulls", 180, "degrees"),))
    assert found(bent, "raceway-bends")[0].source.amended


@pytest.mark.parametrize(
    ("amendment", "says"),
    [
        (amended("range_circuit_mim", 50, "A"), "did you mean range_circuit_min?"),
        (amended("range_circuit_min", 50, "kW"), "the rule's unit is A"),
        (amended("afci_kitchen", 20, "A"), "gives 3 numbers"),
        (amended("single_receptacle", 20, "A"), "gives 0 numbers"),
    ],
)
def test_an_amendment_that_fits_no_rule_is_refused_and_changes_nothing(
    amendment: dict[str, Any], says: str
) -> None:
    plan = planned(amendment=(amendment,))
    (finding,) = found(plan, "amendment-refused")
    assert finding.severity is Severity.FIX
    assert says in finding.says
    assert SCHEDULES["circuits"](plan).rows == SCHEDULES["circuits"](planned()).rows
    assert not any("amended locally" in as_told(item.working) for item in workings(plan))


def test_the_network_of_confidence_stays_honest() -> None:
    """An amended number is the job's word; what else a number rests on keeps its own caveat."""
    plan = planned(amendment=(amended("range_circuit_min", 50, "A"),))
    working = next(item.working for item in workings(plan) if item.working.name == "range branch circuit")
    assert working.source.amended
    assert working.source.confidence.caveat
