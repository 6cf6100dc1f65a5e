"""`reach`, `explain` and `compare` as whole processes: an answer first, its rule, inputs and source."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.command_line import TEMPLATE_JOB, lines, says

if TYPE_CHECKING:
    from pathlib import Path

    from tests.command_line import Run


def test_reach_answers_in_its_first_line(hoodwright: Run) -> None:
    done = hoodwright("reach", TEMPLATE_JOB, "W3")
    printed = lines(done)
    assert done.returncode == 0
    # Taped 7' 2"; entries 10" and 2", service loop 12": 9' 2" needed of 10'. Tolerance 1/2".
    assert printed[0] == 'W3 reaches: 10" to spare, 9-1/2" if every measurement is off.'
    assert "rule: margin" in says(printed)


def test_reach_of_a_short_cable_gives_its_cure(hoodwright: Run, tmp_path: Path) -> None:
    job = tmp_path / "far.toml"
    text = TEMPLATE_JOB.read_text().replace('taped = "7\' 2\\""', 'taped = "9\' 2\\""')
    sheet = TEMPLATE_JOB.with_name("sheet.toml")
    job.write_text(text.replace('sheet = "sheet.toml"', f'sheet = "{sheet.as_posix()}"'))
    done = hoodwright("reach", job, "W3")
    printed = lines(done)
    assert done.returncode == 1
    # 2 ft further than above: 14" short.
    assert printed[0] == "W3 is SHORT by 1' 2\"."


def test_reach_of_all_cables(hoodwright: Run) -> None:
    done = hoodwright("reach", TEMPLATE_JOB)
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0].startswith("Every factory cable reaches")
    assert {line.split()[0] for line in printed if line.startswith("W")} == {"W1", "W2", "W3", "W4"}


def test_explain_lists_what_can_be_explained(hoodwright: Run) -> None:
    printed = lines(hoodwright("explain", TEMPLATE_JOB))
    assert {line.split()[0] for line in printed} >= {"W1", "W3", "R1", "Q1"}


@pytest.mark.parametrize(
    ("item", "heading"),
    [
        ("W3", "reach of W3 = "),
        ("w1", "cut length of W1 = "),
        ("Q1", "load of Q1 = "),
        ("R1", "trade size of "),
    ],
)
def test_explain_gives_rule_inputs_and_source(hoodwright: Run, item: str, heading: str) -> None:
    done = hoodwright("explain", TEMPLATE_JOB, item)
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0].startswith(heading)
    assert any(line.startswith("  rule: ") for line in printed)
    assert any(line.startswith("  source: ") for line in printed)


def test_explain_takes_a_number_by_its_name(hoodwright: Run) -> None:
    assert lines(hoodwright("explain", TEMPLATE_JOB, "cut", "length", "of", "W1"))[0].startswith(
        "cut length of W1"
    )


def test_compare_two_jobs(hoodwright: Run, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    sheet = TEMPLATE_JOB.with_name("sheet.toml")
    text = TEMPLATE_JOB.read_text().replace(
        'choices = ["gas-valve", "pull-remote"]', 'choices = ["gas-valve"]'
    )
    other.write_text(text.replace('sheet = "sheet.toml"', f'sheet = "{sheet.as_posix()}"'))
    done = hoodwright("compare", TEMPLATE_JOB, other)
    printed = lines(done)
    assert done.returncode == 0
    assert "- W4: Pull station cable" in printed
    same = hoodwright("compare", TEMPLATE_JOB, TEMPLATE_JOB, "-o", "differs")
    assert same.stdout.decode().splitlines() == ["Nothing differs."]
    assert "no conductor differs, so nothing is drawn" in same.stderr.decode()
    assert same.returncode == 0
    assert not (tmp_path / "differs").exists()
