"""`faults`, `what-if` and `diagnose` as whole processes: what may fail, what would come of it, what it is."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.command_line import JOBS, SOUND, TEMPLATE_JOB, lines, says

if TYPE_CHECKING:
    from pathlib import Path

    from tests.command_line import Run


@pytest.mark.parametrize("job", SOUND, ids=lambda path: path.stem)
def test_faults_of_a_sound_kitchen(hoodwright: Run, job: Path) -> None:
    done = hoodwright("faults", job, "--hidden")
    printed = lines(done)
    assert done.returncode == 0
    counted = re.search(r"(\d+) single faults tried: (\d+) are dangerous, (\d+) of these", says(printed))
    assert counted is not None
    tried, dangerous, hidden = map(int, counted.groups())
    assert tried > dangerous > hidden > 0
    assert "Dangerous and not noticed in use" in says(printed)
    assert "Not dangerous" not in says(printed)
    assert max(map(len, printed)) <= 80


def test_faults_at_an_unknown_enclosure(hoodwright: Run) -> None:
    done = hoodwright("faults", SOUND[0], "--enclosure", "ZZ")
    assert done.returncode == 2
    assert done.stdout == b""
    assert b'--enclosure: found "ZZ"; allowed: ' in done.stderr


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--break", "1304"), "Danger: Electric range heats in a fire"),
        (("--swap", "102@X1:1N", "103@X1:1PE"), "Danger: grounding conductor carries current: 103"),
        (("--join", "X1:1L", "X1:1N"), "Q1 trips"),
        (("--swap", "101@Q1:L", "101@X1:1L"), "Danger: none Noticed: nobody, short of a meter"),
    ],
)
def test_what_if(hoodwright: Run, words: tuple[str, ...], told: str) -> None:
    printed = lines(hoodwright("what-if", JOBS / "galley-gas.toml", *words))
    assert told in says(printed)
    assert max(map(len, printed)) <= 80


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--break", "9999"), "no wire 9999 with these choices"),
        (("--swap", "101@X1:2L", "102@X1:1N"), "wire 101 is on Q1:L and X1:1L, not on X1:2L"),
        (("--join", "X1:1L", "nowhere"), "no terminal nowhere: with these choices"),
    ],
)
def test_what_if_of_what_is_not_there(hoodwright: Run, words: tuple[str, ...], told: str) -> None:
    done = hoodwright("what-if", JOBS / "galley-gas.toml", *words)
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.decode() == f"hoodwright what-if: {told}\n"


def test_diagnose_proposes_what_to_look_at_first(hoodwright: Run) -> None:
    printed = lines(hoodwright("diagnose", JOBS / "galley-gas.toml"))
    assert printed[0].startswith("CAUTION: ")
    assert any(line.startswith("Next: ") for line in printed)
    assert max(map(len, printed)) <= 80


def test_diagnose_begins_with_the_failed_tests_of_the_job(hoodwright: Run, tmp_path: Path) -> None:
    def failing(test: str, found: str, expected: str) -> str:
        table = {"test": test, "found": found, "expected": expected, "initials": "RA", "date": "2026-04-12"}
        return "\n".join(("[[tested]]", *(f'{key} = "{value}"' for key, value in table.items()), ""))

    for name in ("job.toml", "sheet.toml"):
        (tmp_path / name).write_bytes(TEMPLATE_JOB.with_name(name).read_bytes())
    job = tmp_path / "job.toml"
    sound = job.read_text(encoding="utf-8")
    open_wire = failing("continuity Q1:L X1:1L 101", "OL", "under 1.00 ohm")
    job.write_text(f"{sound}\n{open_wire}", encoding="utf-8")
    printed = says(lines(hoodwright("diagnose", job)))
    assert printed.startswith(
        "Failed in commissioning: Conductor and grounding continuity, Q1:L to X1:1L: OL "
    )
    assert printed.endswith("Found: wire 101 of W1 is open.")
    stray = failing("prove-dead X1:1L X1:1N", "118 V", "0.0 V ac")
    job.write_text(f"{sound}\n{open_wire}\n{stray}", encoding="utf-8")
    printed = says(lines(hoodwright("diagnose", job, "--ask")))
    assert "X1:1L to X1:1N: 118 V. stop: find what feeds it and lock that" in printed
    assert "LIVE WITH EVERY BREAKER OFF" in printed
    assert "Next: " not in printed


def test_diagnose_names_the_fault(hoodwright: Run) -> None:
    job = JOBS / "galley-gas.toml"
    printed = lines(hoodwright("diagnose", job, "--found", "state cooking = exhaust off"))
    assert says(printed).endswith("Found: load M1.motor is open.")


def test_diagnose_refuses_what_can_not_have_been_found(hoodwright: Run) -> None:
    words = ("--found", "look Q1 = perhaps", "--found", "nonsense", "--without", "nothing")
    done = hoodwright("diagnose", TEMPLATE_JOB, *words)
    assert done.returncode == 2
    assert done.stdout == b""
    assert b'--without: found "nothing"; allowed: a probe' in done.stderr
    done = hoodwright("diagnose", TEMPLATE_JOB, *words[:4])
    assert done.stderr.decode().splitlines() == [
        'hoodwright diagnose: --found: found "perhaps"; allowed: no or yes',
        'hoodwright diagnose: --found: found "nonsense"; allowed: '
        "PROBE = VALUE, such as state cooking = all right",
    ]


def test_diagnose_lists_its_probes_and_proves_itself(hoodwright: Run) -> None:
    job = TEMPLATE_JOB
    probes = lines(hoodwright("diagnose", job, "--probes"))
    assert any(line.startswith("ring W1: ") for line in probes)
    proved = says(lines(hoodwright("diagnose", job, "--prove")))
    counted = re.search(r"(\d+) single faults planted, .*: (\d+)\. Readings: ([\d.]+) on average", proved)
    assert counted is not None
    assert counted[1] == counted[2]
