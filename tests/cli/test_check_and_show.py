"""`check` and `show` as whole processes: findings, cautions, schedules on a narrow and a wide page, JSON."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from schedules.cautions import CAUTION
from schedules.rows.every import SCHEDULES
from tests.command_line import FAILING, JOBS, SOUND, TEMPLATE_JOB, lines, says

if TYPE_CHECKING:
    from pathlib import Path

    from tests.command_line import Run


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_check_of_a_sound_kitchen(hoodwright: Run, job: Path) -> None:
    done = hoodwright("check", job)
    printed = lines(done)
    assert done.returncode == 0
    assert "SOUND: nothing stops the work" in says(printed)
    assert re.search(r"Not tried here: [1-9]\d* single faults", says(printed))
    assert max(map(len, printed)) <= 80


def test_check_of_the_failing_kitchen(hoodwright: Run) -> None:
    done = hoodwright("check", FAILING)
    printed = lines(done)
    assert done.returncode == 1
    assert "NOT SOUND:" in says(printed)
    assert any(line.startswith("STOP") for line in printed)
    assert "planned again and cured" in says(printed)


@pytest.mark.parametrize("command", ["check", "show"])
def test_cautions_stand_first_and_last(hoodwright: Run, command: str) -> None:
    printed = says(lines(hoodwright(command, TEMPLATE_JOB)))
    assert printed.startswith(CAUTION)
    assert printed.endswith(CAUTION)


def test_show_prints_every_schedule_within_80_columns(hoodwright: Run) -> None:
    done = hoodwright("show", TEMPLATE_JOB)
    printed = lines(done)
    assert done.returncode == 0
    for title in ("Terminations by enclosure", "Conductors, both ends", "Cables", "Circuits", "Openings"):
        assert title in printed
    assert max(map(len, printed)) <= 80


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_no_schedule_of_a_sample_is_wider_than_80_columns(hoodwright: Run, job: Path) -> None:
    assert [line for line in lines(hoodwright("show", job)) if len(line) > 80] == []


def test_a_table_that_is_too_wide_is_listed_row_by_row(hoodwright: Run) -> None:
    words = ("show", JOBS / "training-room.toml", "interlocks")
    assert "  Exhaust fan runs: " in "\n".join(lines(hoodwright(*words, "--width", "80")))
    assert "  Exhaust fan runs: " not in "\n".join(lines(hoodwright(*words, "--width", "400")))


def test_the_single_faults_are_printed_when_asked_for(hoodwright: Run) -> None:
    assert "Single faults" not in lines(hoodwright("show", TEMPLATE_JOB))
    assert "Single faults" in lines(hoodwright("show", TEMPLATE_JOB, "faults"))


def test_show_has_room_for_more_columns_when_asked(hoodwright: Run) -> None:
    narrow = lines(hoodwright("show", TEMPLATE_JOB, "terminations", "--width", "80"))
    wide = lines(hoodwright("show", TEMPLATE_JOB, "terminations", "--width", "200"))
    assert not any("Label text" in line for line in narrow)
    assert any("Label text" in line for line in wide)
    assert max(map(len, wide)) <= 200


def test_show_of_one_enclosure_holds_its_rows_only(hoodwright: Run) -> None:
    done = hoodwright("show", TEMPLATE_JOB, "terminations", "--enclosure", "V")
    printed = lines(done)
    assert "V  Gas valve" in printed
    assert not any(line.startswith("H ") for line in printed)
    # Cable 3 of the template sheet ends on the valve's three pins.
    assert [line.split()[:2] for line in printed if line.startswith("Y1:")] == [
        ["Y1:1", "301"],
        ["Y1:2", "302"],
        ["Y1:3", "303"],
    ]


def test_show_of_an_enclosure_leaves_out_what_no_enclosure_divides(hoodwright: Run) -> None:
    printed = lines(hoodwright("show", TEMPLATE_JOB, "--enclosure", "H"))
    assert "Terminations by enclosure" in printed
    assert "Circuits" not in printed


def test_show_json_is_one_document(hoodwright: Run) -> None:
    done = hoodwright("show", FAILING, "--json")
    document = json.loads(done.stdout)
    assert (done.returncode, done.stderr) == (1, b"")
    assert (document["format"], document["version"], document["sound"]) == ("hoodwright-plan", 1, False)
    assert set(document["schedules"]) == set(SCHEDULES)
    assert any(finding["remedies"] for finding in document["findings"])


def test_show_json_of_chosen_schedules(hoodwright: Run) -> None:
    document = json.loads(hoodwright("show", TEMPLATE_JOB, "cables", "--enclosure", "PS", "--json").stdout)
    assert [row["cable"] for row in document["schedules"]["cables"]["rows"]] == ["W4"]
