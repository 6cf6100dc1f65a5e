"""What each landed end should read: held against the meter of the whole model, and changed by a swap."""

from __future__ import annotations

from pathlib import Path

import pytest

from schedules.behaviour.end_readings import EndReading, When, end_readings
from schedules.behaviour.states import at_rest, cases_of, cast_of, in_use, solve_cases
from schedules.network.meter import Meter
from schedules.planned import plan_file
from schedules.rows.terminations import terminations

JOBS = sorted((Path(__file__).parents[2] / "samples" / "jobs").glob("*.toml"))


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_every_end_has_a_reading_that_a_meter_confirms_or_a_reason_for_none(job: Path) -> None:
    plan = plan_file(job, remedies=False).plan
    derived, connections = plan.derived, plan.derived.connections
    found = end_readings(derived)
    assert set(found) == {end for item in connections.conductors.values() for end in (item.a, item.b)}
    cases, cast = cases_of(derived), cast_of(derived)
    solved = {item.case.id: item for item in solve_cases(derived, derived.network, cases)}
    meters = {
        When.IDLE: Meter(solved[at_rest(cases, cast).id].situation),
        When.IN_USE: Meter(solved[in_use(cases, cast).id].situation),
    }
    for point, item in found.items():
        if isinstance(item, str):
            assert item
        elif item.volts is not None:
            volts = meters[item.when].volts(point, item.reference)
            assert item.volts.ac == pytest.approx(volts.ac, rel=1e-3, abs=0.05), point
            assert item.volts.dc == pytest.approx(volts.dc, rel=1e-3, abs=0.05), point
    live = [item for item in found.values() if isinstance(item, EndReading) and item.volts is not None]
    assert len(live) > len(found) / 4
    for row in terminations(plan).rows:
        assert bool(row.reading) is not bool(row.no_reading)


def test_the_words_tell_how_much_to_what_and_when() -> None:
    rows = terminations(plan_file(JOBS[0].with_name("training-room.toml"), remedies=False).plan).rows
    said = {(row.enclosure, row.terminal): row.reading or row.no_reading for row in rows}
    assert said["H", "X1:1L"] == "120 V to X1:1N, idle"
    assert said["H", "X1:1N"] == "under 2 V to X1:1PE, in use"
    assert said["H", "X1:1PE"] == "under 1 ohm to MAINS:PE, dead"
    assert said["H", "X2:Y"] == "24 V to X2:C, in use"
    assert said["H", "X2:C"] == "others are read to it"
    assert said["PB", "Q1:PE"] == "the bar itself"
    assert said["RB", "X20:1"] == "inside a plug"
