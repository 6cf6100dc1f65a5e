"""What a person waits for, as ratios to something measured in the same run.

Left out of the usual run. To measure:
`pytest -o addopts=--import-mode=importlib tests/benchmarks --benchmark-only`

Each limit is the budget, on two quiet cores of 2025, divided by what the baseline takes there: bare interpreter with
argparse 25 ms, interpreter with the libraries of a plan 170 ms, one sheet read 27 ms.
"""

from __future__ import annotations

import itertools
import os
import resource
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.connections.options import combinations
from schedules.derived import Premises
from schedules.files.condition import Condition
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import plan_file, read_sheet_of
from schedules.sheet.choices import Group
from schedules.teaching.combos import plan_every, plan_with
from schedules.teaching.tally import Tally
from schedules.teaching.wiring import wiring_of
from tests.small_sheets import device, load, small_job, small_sheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet

    Python = Callable[..., Callable[[], object]]

TOP = Path(__file__).parents[2]
LARGEST = TOP / "samples" / "jobs" / "training-room.toml"
ROUNDS = 9

HELP_LIMIT = 6.0
"""150 ms for `--help`."""
CHECK_LIMIT = 2.95
"""500 ms for `check` of the largest sample."""
PLAN_LIMIT = 1.85
"""50 ms for one plan of the largest sample."""
COMBINATION_LIMIT = 0.74
"""1,000 combinations in 10 s by two processes: 20 ms for each plan and the count of its wiring."""
JOB_LIMIT = 4.4
"""1,000 jobs checked in 60 s by two processes: 120 ms to read, plan and cure each."""
MOST_GROWTH = 1.02
"""Memory after all of them to memory after the first tenth."""


def least(run: Callable[[], object]) -> float:
    """The shortest of several runs [s]: what it takes when nothing else is in the way."""
    run()
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return min(taken)


@pytest.fixture(scope="module")
def python(tmp_path_factory: pytest.TempPathFactory) -> Python:
    """Make a run of an interpreter with some words; its modules are compiled, as those of an installed program."""
    settings = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    settings["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("compiled"))

    def make(*words: str | Path) -> Callable[[], object]:
        command = [sys.executable, *map(str, words)]
        return lambda: subprocess.run(command, cwd=TOP, env=settings, capture_output=True, check=True)

    return make


def hold(benchmark: Any, run: Callable[[], object], baseline_s: float, limit: float) -> None:
    """Measure a run and hold its ratio to the baseline against the limit."""
    benchmark.pedantic(run, rounds=ROUNDS, warmup_rounds=1)
    ratio = benchmark.stats.stats.min / baseline_s
    benchmark.extra_info |= {"baseline_s": round(baseline_s, 4), "ratio": round(ratio, 2), "limit": limit}
    print(
        f"\n{benchmark.name}: {ratio:.2f} times the baseline of {baseline_s * 1000:.1f} ms, at most {limit}"
    )
    assert ratio <= limit


@pytest.fixture(scope="module")
def kitchen() -> tuple[Sheet, Job]:
    """The largest sample, read."""
    draft = read_draft(LARGEST)
    return read_sheet_of(draft), draft.job


@pytest.fixture(scope="module")
def sheet_read_s() -> float:
    """The time to read the largest sample's sheet [s]."""
    draft = read_draft(LARGEST)
    return least(lambda: read_sheet_of(draft))


def test_help(benchmark: Any, python: Python) -> None:
    baseline = least(python("-c", "import argparse, dataclasses, pathlib"))
    hold(benchmark, python("-m", "wizard", "--help"), baseline, HELP_LIMIT)


def test_check_of_the_largest_sample(benchmark: Any, python: Python) -> None:
    baseline = least(python("-c", "import networkx, pydantic, tomlkit"))
    hold(benchmark, python("-m", "wizard", "check", LARGEST), baseline, CHECK_LIMIT)


def test_one_plan(benchmark: Any, kitchen: tuple[Sheet, Job], sheet_read_s: float) -> None:
    hold(benchmark, lambda: plan_job(*kitchen), sheet_read_s, PLAN_LIMIT)


def test_a_thousand_combinations(benchmark: Any, kitchen: tuple[Sheet, Job], sheet_read_s: float) -> None:
    """Every combination of the sheet, again from the start until there are a thousand."""
    sheet, job = kitchen
    chosen = [tuple(sorted(choices)) for choices in combinations(sheet)]
    thousand = list(itertools.islice(itertools.cycle(chosen), 1000))

    def plan_all() -> None:
        premises = Premises(sheet, job)
        for choices in thousand:
            wiring_of(plan_with(sheet, job, choices, premises))

    benchmark.pedantic(plan_all, rounds=1, warmup_rounds=0)
    ratio = benchmark.stats.stats.min / 1000 / sheet_read_s
    benchmark.extra_info |= {"ratio": round(ratio, 2), "limit": COMBINATION_LIMIT}
    print(f"\n{benchmark.name}: a plan takes {ratio:.2f} of reading its sheet, at most {COMBINATION_LIMIT}")
    assert ratio <= COMBINATION_LIMIT


def test_memory_of_many_combinations(benchmark: Any) -> None:
    """Twelve lamps, each of one kind or the other: memory after 4,000 of the 4,096 combinations is that after 400."""
    sheet, job = lamps_of_two_kinds(12), small_job()
    peak_after: list[int] = []

    def take_all() -> None:
        tally = Tally(sheet)
        for place, _ in enumerate(tally.through(plan_every(sheet, job)), start=1):
            if place in (400, 1000, 4000):
                peak_after.append(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)

    benchmark.pedantic(take_all, rounds=1, warmup_rounds=0)
    growth = peak_after[-1] / peak_after[0]
    benchmark.extra_info |= {"growth": round(growth, 3)}
    print(f"\n{benchmark.name}: memory {growth:.3f}")
    assert growth <= MOST_GROWTH


def lamps_of_two_kinds(count: int) -> Sheet:
    """A small sheet of so many groups of two choices, each of which brings a lamp and its two wires."""
    names = [(f"a{place}", f"b{place}") for place in range(count)]
    every = [name for pair in names for name in pair]
    lamps = [
        device(name.upper(), "L N", load("lamp", "L", "N", "lamp")) | {"when": {"all": (name,)}}
        for name in every
    ]
    wires = "\n".join(f"Q1:{end} {name.upper()}:{end}" for name in every for end in "LN")
    sheet = small_sheet(lamps, wires)
    groups = tuple(
        Group.model_validate(
            {
                "id": f"lamp-{place}",
                "title": f"lamp {place}",
                "why": "to have many combinations",
                "pick": "one",
                "choice": tuple({"id": name, "title": name} for name in pair),
            }
        )
        for place, pair in enumerate(names)
    )
    cables = tuple(
        cable.model_copy(update={"when": Condition(all=(every[place // 2],))})
        for place, cable in enumerate(sheet.cable)
    )
    return sheet.model_copy(update={"group": groups, "cable": cables})


def test_a_thousand_jobs(benchmark: Any, sheet_read_s: float) -> None:
    """The sound samples read, planned and cured over and over; memory stays where it was after the first hundred."""
    sound = [path for path in sorted(LARGEST.parent.glob("*.toml")) if not path.stem.startswith("must-fail")]
    peak_after: list[int] = []

    def check_all() -> None:
        for place, path in enumerate(itertools.islice(itertools.cycle(sound), 1000), start=1):
            plan_file(path)
            if place in (100, 1000):
                peak_after.append(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)

    benchmark.pedantic(check_all, rounds=1, warmup_rounds=0)
    ratio, growth = benchmark.stats.stats.min / 1000 / sheet_read_s, peak_after[1] / peak_after[0]
    benchmark.extra_info |= {"ratio": round(ratio, 2), "limit": JOB_LIMIT, "growth": round(growth, 3)}
    print(
        f"\n{benchmark.name}: a job takes {ratio:.2f} of reading its sheet, at most {JOB_LIMIT}; memory {growth:.3f}"
    )
    assert ratio <= JOB_LIMIT
    assert growth <= MOST_GROWTH
