"""What an answer in the wizard costs before it is painted, beside what planning alone takes in the same run.

Run with: pytest tests/benchmarks/test_wizard_answers.py --benchmark-only. Budget: 100 ms to a repainted screen, of
which the framework's own painting of 160×50 takes 20 to 40 ms.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from tests.stage import sample_job
from wizard.questions import groups_of
from wizard.session import Session
from wizard.steps import STEPS, standing
from wizard.wording import effect_content

if TYPE_CHECKING:
    from pathlib import Path

    from pytest_benchmark.fixture import BenchmarkFixture


def largest(folder: Path) -> Session:
    draft = read_draft(folder / sample_job("training-room", folder))
    session = Session(draft, read_sheet_of(draft))
    session.plan_now()
    return session


def test_planning_alone(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    now = largest(tmp_path).now
    benchmark(plan_job, now.sheet, now.draft.job)


def test_an_answer_with_its_plan_its_effect_and_every_step_s_state(
    benchmark: BenchmarkFixture, tmp_path: Path
) -> None:
    session = largest(tmp_path)
    heights = itertools.cycle(["9 ft", "10 ft"])

    def answer() -> None:
        height = next(heights)
        session.answer((Edit("site", None, "ceiling", height),), f"Ceiling height: {height}")
        session.plan_now()
        effect_content(session.now)
        for step in STEPS:
            standing(step.id, session.now)
        groups_of("room", session.now, None)

    benchmark(answer)
