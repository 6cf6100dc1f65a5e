"""How long a package takes, as a ratio to something measured in the same run.

Left out of the usual run. To measure:
`pytest -o addopts=--import-mode=importlib tests/benchmarks --benchmark-only`

The limit is the budget of 3 s, on two quiet cores of 2025, divided by what the baseline takes there: an interpreter
with the libraries of a plan, 170 ms.
"""

from __future__ import annotations

import itertools
import os
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    import pytest

TOP = Path(__file__).parents[2]
LARGEST = TOP / "samples" / "jobs" / "training-room.toml"
ROUNDS = 5
LIMIT = 17.6
LIBRARIES = "import argparse, tomllib, pydantic, networkx"


def least(run: Callable[[], object]) -> float:
    """The shortest of several runs [s]."""
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return min(taken)


def test_the_whole_package_of_the_largest_sample(
    benchmark: Any, tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    settings = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    settings["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("compiled"))
    folders = (tmp_path / str(number) for number in itertools.count())

    def run(*words: str | Path) -> None:
        command = [sys.executable, *map(str, words)]
        subprocess.run(command, cwd=TOP, env=settings, capture_output=True, check=True)

    baseline_s = least(lambda: run("-c", LIBRARIES))
    benchmark.pedantic(
        lambda: run("-m", "wizard", "pack", LARGEST, "-o", next(folders)), rounds=ROUNDS, warmup_rounds=1
    )
    ratio = benchmark.stats.stats.min / baseline_s
    print(f"\npack: {ratio:.1f} times the baseline of {baseline_s * 1000:.0f} ms, at most {LIMIT}")
    assert ratio <= LIMIT
