"""`hoodwright diagnose --ask`: one reading after the other, typed on standard input."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).parents[2]
JOB = TOP / "samples" / "jobs" / "galley-gas.toml"


def dialogue(*typed: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "wizard", "diagnose", str(JOB), "--ask", "--width", "100"],
        input="".join(f"{line}\n" for line in typed),
        capture_output=True,
        text=True,
        cwd=TOP,
        check=True,
    )


def test_a_fault_is_found_by_answering() -> None:
    done = dialogue("exhaust off")
    assert done.stdout.splitlines()[-1] == "Found: load M1.motor is open."
    assert done.stderr == ""


def test_a_slip_is_told_and_asked_again_and_a_step_can_be_taken_back() -> None:
    done = dialogue(
        "exhaust off, light off, counter-receptacle off, gas off", "pairs", "back", "skip", "quit"
    )
    assert "No single fault explains all that was found." in done.stdout
    proposals = [line for line in done.stdout.splitlines() if line.startswith("Next: ")]
    assert proposals[0] == "Next: put up the state “Cooking, fan and light on”: what is not as it should be?"
    assert proposals[-1] != proposals[0]
    assert done.stderr == ""


def test_the_end_of_input_ends_the_dialogue() -> None:
    assert "Next: " in dialogue().stdout
