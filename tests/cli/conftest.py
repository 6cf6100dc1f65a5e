"""Run the program as a person does: a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    Run = Callable[..., subprocess.CompletedProcess[bytes]]

TOP = Path(__file__).parents[2]


@pytest.fixture
def hoodwright(tmp_path: Path) -> Run:
    """The program, in an empty folder, with nothing of this terminal's settings."""

    def run(*words: str | Path, **environment: str) -> subprocess.CompletedProcess[bytes]:
        settings = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "LINES")}
        settings |= {"PYTHONPATH": str(TOP), "PYTHONIOENCODING": "utf-8"} | environment
        return subprocess.run(
            [sys.executable, "-m", "wizard", *map(str, words)],
            cwd=tmp_path,
            env=settings,
            capture_output=True,
            stdin=subprocess.DEVNULL,
            timeout=120,
            check=False,
        )

    return run
