"""Work in a second process: what it makes, what it raises, and that it ends with the one that waits."""

from __future__ import annotations

import subprocess
import sys

import pytest

_SCRIPT = """
import os
from schedules.drawings.errors import EngineError
from schedules.package.beside import beside

def unproved():
    raise EngineError(("one", "two"))

def ended():
    os._exit(3)

with beside(os.getpid, lambda: "second") as (first, second):
    print(first() == os.getpid(), second())
for work in (unproved, ended):
    try:
        with beside(work, work) as (first, _):
            first()
    except (EngineError, ChildProcessError) as error:
        print(getattr(error, "failures", error))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the work is done in a thread")
@pytest.mark.parametrize("cores", [1, 2])
def test_what_is_made_and_raised_passes_between_processes(cores: int) -> None:
    """With one core there is one process, and nothing else differs."""
    alone = f"import os; os.sched_getaffinity = lambda _: set(range({cores}))\n"
    works = _SCRIPT if cores > 1 else _SCRIPT.replace("(unproved, ended)", "(unproved,)")
    said = subprocess.run(
        [sys.executable, "-c", alone + works], capture_output=True, text=True, check=True, timeout=60
    )
    expected = [f"{cores == 1} second", "('one', 'two')", "the process that made the drawings was ended"]
    assert said.stdout.splitlines() == expected[: 2 if cores == 1 else 3]
    assert said.stderr == ""
