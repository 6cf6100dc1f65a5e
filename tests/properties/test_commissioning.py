"""Commissioning: what passes, what holds a test up, what the job's record of it says."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.behaviour.commissioning import Verdict, commissioning
from schedules.behaviour.readings import Function
from schedules.checks.tested import check_tested
from schedules.job import testing
from schedules.job.draft import read_draft
from schedules.job.records import AsBuilt
from schedules.job.testing import forget_test, record_test
from schedules.planned import plan_file
from schedules.quantities.numerals import UnitError
from schedules.rows.readings import readings
from schedules.rows.terminations import terminations

if TYPE_CHECKING:
    from schedules.behaviour.commissioning import Commissioning, Test
    from schedules.findings import Finding
    from schedules.job.records import Job
    from schedules.plan import Plan

JOB = Path(__file__).parents[2] / "samples" / "jobs" / "galley-gas.toml"


@cache
def plan() -> Plan:
    return plan_file(JOB, remedies=False).plan


@cache
def whole() -> Commissioning:
    return commissioning(plan().derived)


def first(step: str) -> Test:
    return next(test for test in whole().tests if test.step == step)


def passing(test: Test) -> str:
    """Something that passes: the middle of the band, over limit, yes."""
    reading = test.reading
    if reading is None:
        return "yes"
    if reading.low is None or reading.high is None:
        return "OL"
    return f"{(reading.low + reading.high) / 2:.3f} {test.unit}"


def record(test: Test, found: str | None = None, reason: str | None = None) -> testing.Tested:
    found = passing(test) if found is None else found
    return testing.Tested(
        test=test.id, found=found, expected=test.passes, initials="RA", date="2026-04-12", reason=reason
    )


def job_with(*records: testing.Tested, landed: bool = False) -> Job:
    ends: dict[str, tuple[str, ...]] = {}
    for cable, terminal in whole().ends if landed else ():
        ends[cable] = (*ends.get(cable, ()), terminal)
    built = tuple(
        AsBuilt(cable=cable, landed=terminals, initials="RA", date="2026-04-10")
        for cable, terminals in ends.items()
    )
    return plan().derived.job.model_copy(update={"tested": records, "as_built": built})


def dead() -> tuple[testing.Tested, ...]:
    return tuple(record(test) for test in whole().tests if test.dead)


def test_each_test_has_an_id_of_its_own_and_dead_ones_come_first() -> None:
    tests = whole().tests
    assert len({test.id for test in tests}) == len(tests)
    assert [test.dead for test in tests] == sorted((test.dead for test in tests), reverse=True)


def test_every_end_that_holds_a_live_test_up_can_be_marked() -> None:
    assert set(whole().ends) == {(row.cable, row.terminal) for row in terminations(plan()).rows}


def test_what_lies_in_the_band_passes_and_nothing_else() -> None:
    for test in whole().tests:
        assert test.passed(passing(test)), test.id
    polarity = first("polarity")
    assert [polarity.passed(text) for text in ("113.9 V", "114 V", "126 V", "126.1 V")] == [
        False,
        True,
        True,
        False,
    ]
    assert not first("prove-dead").passed("0.3 V")
    assert not first("continuity").passed("OL")


@pytest.mark.parametrize(
    ("step", "typed", "written"),
    [
        ("polarity", " 119.8 ", "119.8 V"),
        ("polarity", "119.8 V", "119.8 V"),
        ("continuity", "open", "OL"),
        ("continuity", "0.3", "0.3 ohm"),
        ("gfci", "YES", "yes"),
    ],
)
def test_what_a_person_types_is_written_with_its_unit(step: str, typed: str, written: str) -> None:
    assert first(step).read(typed) == written


@pytest.mark.parametrize(
    ("step", "typed", "allowed"),
    [
        ("polarity", "OL", "a voltage such as"),
        ("polarity", "3 ohm", "a voltage such as"),
        ("gfci", "maybe", "yes or no"),
    ],
)
def test_what_can_not_be_read_is_refused(step: str, typed: str, allowed: str) -> None:
    with pytest.raises(UnitError, match=allowed):
        first(step).read(typed)


def test_dead_is_proved_before_ohms_are_measured() -> None:
    test = first("continuity")
    assert "prove-dead" in whole().held_by(test, job_with())
    proved = [record(item) for item in whole().tests if item.step == "prove-dead"]
    assert whole().held_by(test, job_with(*proved)) == ""
    assert whole().held_by(first("prove-dead"), job_with()) == ""


def test_ohms_at_a_terminal_that_another_supply_keeps_live_carry_a_caution() -> None:
    live = [
        item.reading
        for item in whole().tests
        if item.step == "prove-dead" and item.reading and item.reading.note
    ]
    points = {reading.start for reading in live}
    assert points
    for test in whole().tests:
        if test.reading is not None and test.reading.function is Function.OHMS:
            said = any("stays live" in caution for caution in whole().cautions(test))
            assert said == (not points.isdisjoint((test.reading.start, test.reading.end))), test.id


def test_no_live_test_before_every_dead_one_and_every_end() -> None:
    test = first("polarity")
    assert "first the dead tests" in whole().held_by(test, job_with(*dead()[:-1], landed=True))
    assert "mark them as landed" in whole().held_by(test, job_with(*dead()))
    assert whole().held_by(test, job_with(*dead(), landed=True)) == ""
    assert "first the tests before it" in whole().held_by(first("loaded"), job_with(*dead(), landed=True))


def test_a_failed_test_holds_up_until_it_is_accepted_with_a_reason() -> None:
    wrong = first("prove-dead")
    others = tuple(item for item in dead() if item.test != wrong.id)
    live = first("polarity")
    failed = job_with(record(wrong, "48 V"), *others, landed=True)
    assert whole().verdicts(failed)[wrong.id] is Verdict.FAILED
    assert wrong.id in whole().held_by(live, failed)
    accepted = job_with(record(wrong, "0.3 V", "stray"), *others, landed=True)
    assert whole().verdicts(accepted)[wrong.id] is Verdict.ACCEPTED
    assert whole().held_by(live, accepted) == ""


def test_a_record_counts_no_more_when_something_else_is_expected() -> None:
    test = first("prove-dead")
    old = record(test).model_copy(update={"expected": "12.0 V dc"})
    assert whole().verdicts(job_with(old))[test.id] is Verdict.OUTDATED


def findings(*records: testing.Tested, landed: bool = False) -> dict[str, Finding]:
    derived = replace(plan().derived, job=job_with(*records, landed=landed))
    return {finding.code: finding for finding in check_tested(derived)}


def test_findings_tell_what_failed_what_is_early_what_is_gone_and_how_much_is_left() -> None:
    assert findings() == {}
    gone = testing.Tested(
        test="polarity Z9:1 Z9:2", found="1 V", expected="2 V", initials="RA", date="2026-04-12"
    )
    found = findings(record(first("polarity"), "2 V"), gone)
    assert set(found) == {"test-failed", "test-early", "test-gone", "tests-open"}
    assert found["test-failed"].severity.blocks
    assert found["test-gone"].remedies[0].edits == forget_test(gone.test)
    every = tuple(record(test) for test in whole().tests)
    assert findings(*every, landed=True) == {}


def test_the_job_keeps_a_test_and_the_schedule_prints_what_was_found() -> None:
    test = first("prove-dead")
    edits = record_test(test.id, found="0 V", expected=test.passes, initials="RA", date="2026-04-12")
    draft = read_draft(JOB).edited(edits)
    assert draft.job.tested == (record(test, "0 V"),)
    derived = replace(plan().derived, job=draft.job)
    schedule = readings(replace(plan(), derived=derived))
    cells = dict(
        zip((column.key for column in schedule.columns), schedule.cells(schedule.rows[0]), strict=True)
    )
    assert (cells["found"], cells["initials"]) == ("0 V: pass", "RA 2026-04-12")
    assert draft.edited(forget_test(test.id)).job.tested == ()
