"""The command line as tests run it: sample files, and what a process printed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TOP = Path(__file__).parents[1]
JOBS = TOP / "samples" / "jobs"
SHEETS = TOP / "samples" / "sheets"
SOUND = sorted(path for path in JOBS.glob("*.toml") if not path.stem.startswith("must-fail"))
FAILING = JOBS / "must-fail.toml"
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"


def lines(done: CompletedProcess[bytes]) -> list[str]:
    """What a command printed, after seeing that it complained of nothing."""
    assert done.stderr == b""
    return done.stdout.decode().splitlines()


def says(printed: list[str]) -> str:
    """A listing as one text, however it was wrapped."""
    return " ".join(" ".join(printed).split())
