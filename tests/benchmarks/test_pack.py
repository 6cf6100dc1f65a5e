"""How long a package takes and how much memory, as ratios to something measured in the same run.

Left out of the usual run. To measure:
`pytest -o addopts=--import-mode=importlib tests/benchmarks --benchmark-only`

The limit is the budget of 3 s, on two quiet cores of 2025, divided by what the baseline takes there: an interpreter
with the libraries of a plan, 170 ms. In memory, that interpreter takes 48 MB at its most, a package 490 MB.
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
MEMORY_LIMIT = 12.0
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


def test_the_memory_of_a_package(tmp_path: Path) -> None:
    def peak_kb(*words: str | Path) -> int:
        process = subprocess.Popen(
            [sys.executable, *map(str, words)], cwd=TOP, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        assert process.returncode == 0
        return usage.ru_maxrss

    baseline = peak_kb("-c", LIBRARIES)
    most = peak_kb("-m", "wizard", "pack", LARGEST, "-o", tmp_path / "out")
    print(
        f"\npack: {most / 1024:.0f} MB, {most / baseline:.1f} times the baseline of {baseline / 1024:.0f} MB"
    )
    assert most <= MEMORY_LIMIT * baseline
