"""What is wired in or plugged in can be cut off where somebody works on it, NEC 422.31 and 422.33."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.circuits.disconnects import Sight, by_plug, wired_in
from schedules.findings import Edit, Severity
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from schedules.remedies import with_remedies
from schedules.rows.every import SCHEDULES
from schedules.workings import workings

if TYPE_CHECKING:
    from schedules.findings import Finding
    from schedules.job.draft import Draft
    from schedules.job.electrical import Means
    from schedules.sheet.sheet import Sheet

CORNER = Path(__file__).parents[2] / "samples" / "jobs" / "corner-electric.toml"
NEAR = Sight(same_room=True, distance_in=240.0)


@cache
def corner() -> tuple[Draft, Sheet]:
    draft = read_draft(CORNER)
    return draft, read_sheet_of(draft)


def found(*edits: Edit) -> list[Finding]:
    draft, sheet = corner()
    spoilt = draft.edited(edits)
    plan = with_remedies(sheet, spoilt, plan_job(sheet, spoilt.job))
    return [item for item in plan.findings if item.code.startswith("disconnect-")]


@pytest.mark.parametrize(
    ("means", "sight", "holds"),
    [
        ("lockable breaker", Sight(same_room=False, distance_in=None), True),
        ("switch in sight", Sight(same_room=False, distance_in=None), True),
        ("breaker in sight", NEAR, True),
        ("breaker in sight", Sight(same_room=True, distance_in=600.0), True),
        ("breaker in sight", Sight(same_room=True, distance_in=601.0), False),
        ("breaker in sight", Sight(same_room=False, distance_in=100.0), False),
        ("breaker in sight", Sight(same_room=True, distance_in=None), True),
    ],
)
def test_a_breaker_serves_in_sight_or_locked(*, means: Means, sight: Sight, holds: bool) -> None:
    """In sight: seen, and within 50 ft."""
    verdict = wired_in(load_va=1000.0, motor=False, means=means, sight=sight, edition="2023")
    assert verdict.holds is holds


@pytest.mark.parametrize(
    ("load_va", "motor", "section"),
    [(300.0, False, "422.31(A)"), (300.1, False, "422.31(B)"), (500.0, True, "422.31(C)")],
)
def test_the_rule_goes_by_the_load(*, load_va: float, motor: bool, section: str) -> None:
    verdict = wired_in(load_va=load_va, motor=motor, means="lockable breaker", sight=NEAR, edition="2023")
    assert section in str(verdict.working.source)


def test_a_plug_disconnects_where_a_hand_reaches_it() -> None:
    assert by_plug(reachable=True, range_plug=False, edition="2023").holds
    behind = by_plug(reachable=False, range_plug=True, edition="2023")
    assert not behind.holds
    assert "422.33(B)" in str(behind.working.source)


def test_a_negative_load_is_refused() -> None:
    with pytest.raises(ValueError, match="a load is 0 or more, not -1 VA"):
        wired_in(load_va=-1.0, motor=False, means="lockable breaker", sight=NEAR, edition="2023")


def test_circuits_that_nobody_speaks_of_are_asked_about_at_once() -> None:
    assert found() == []
    (asked,) = found(Edit("circuit", "Q1", "disconnect", None), Edit("circuit", "Q2", "disconnect", None))
    assert (asked.code, asked.severity, asked.subject) == ("disconnect-open", Severity.CHECK, "PB")
    assert asked.answer == ("circuit", "Q1", "disconnect")
    (remedy,) = asked.remedies
    assert [(edit.row, edit.value) for edit in remedy.edits] == [
        ("Q1", "lockable breaker"),
        ("Q2", "lockable breaker"),
    ]


def test_a_breaker_in_another_room_is_not_in_sight() -> None:
    hidden = found(
        Edit("circuit", "Q2", "disconnect", "breaker in sight"), Edit("place", "PB", "stands", "elsewhere")
    )
    assert [(item.code, item.subject) for item in hidden] == [("disconnect-out-of-sight", "Q2")]
    assert hidden[0].says.endswith("but the panel stands in another room")
    assert [edit.value for edit in hidden[0].remedies[0].edits] == ["lockable breaker"]


def test_a_range_s_plug_that_no_hand_reaches_is_told() -> None:
    plugged = found(
        Edit("circuit", "Q4", "connection", "cord"),
        Edit("circuit", "Q4", "receptacle_accessible", value=False),
    )
    assert [(item.code, item.subject) for item in plugged] == [("disconnect-plug", "Q4")]
    assert plugged[0].remedies[0].edits


def test_what_disconnects_stands_in_the_circuits_schedule() -> None:
    draft, sheet = corner()
    shown = {row.circuit: row.disconnect for row in SCHEDULES["circuits"](plan_job(sheet, draft.job)).rows}
    assert shown["Q1"] == shown["Q2"] == "lockable breaker"


def test_how_a_disconnect_was_judged_is_explained() -> None:
    """The corner's two circuits lock open at the breaker: the job says so, 422.31 decides."""
    draft, sheet = corner()
    told = {
        item.subject: item.working
        for item in workings(plan_job(sheet, draft.job))
        if item.working.name == "disconnecting means"
    }
    assert {subject: working.result for subject, working in told.items()} == {
        "Q1": "lockable breaker",
        "Q2": "lockable breaker",
    }
    assert all("422.31" in str(working.source) for working in told.values())
