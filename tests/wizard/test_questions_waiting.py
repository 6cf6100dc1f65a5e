"""What a step says while it has no questions yet."""

from __future__ import annotations

from threading import Event
from typing import TYPE_CHECKING

from tests.stage import NARROW, Stage, sample_job, staged
from wizard.app import Wizard
from wizard.messages import PlanFailed
from wizard.planning import plan_and_cure
from wizard.screens import job_screen

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    import pytest

    from wizard.messages import Planned
    from wizard.session import Snapshot


async def test_before_the_first_plan_a_step_says_that_it_plans(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is asked yet, but it is not said that nothing is to ask."""
    path = sample_job("galley-gas", site)
    may_plan = Event()

    def planned_late(snapshot: Snapshot, stopped: Callable[[], bool]) -> Iterator[Planned | PlanFailed]:
        may_plan.wait()
        yield from plan_and_cure(snapshot, stopped)

    monkeypatch.setattr(job_screen, "plan_and_cure", planned_late)
    app = Wizard(path)
    async with app.run_test(size=NARROW) as pilot:
        stage = Stage(app, pilot)
        try:
            await stage.shows("Planning…")
            assert "Nothing to ask" not in stage.text
        finally:
            may_plan.set()
        await stage.settled()
        await stage.shows("Equipment and job")
        assert "Planning…" not in stage.text


async def test_a_job_that_can_not_be_planned_does_not_say_that_it_plans(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def failing(snapshot: Snapshot, _: Callable[[], bool]) -> Iterator[Planned | PlanFailed]:
        yield PlanFailed(snapshot.version, "no way")

    monkeypatch.setattr(job_screen, "plan_and_cure", failing)
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.shows("No plan", "could not be planned")
        assert "Planning…" not in stage.text
