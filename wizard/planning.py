"""Plan one version of a job, then what would cure its findings: as messages, so that a newer version can stop it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.plan import plan_job
from schedules.remedies import with_remedies
from wizard.messages import PlanFailed, Planned

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from wizard.session import Snapshot


def plan_and_cure(snapshot: Snapshot, stopped: Callable[[], bool]) -> Iterator[Planned | PlanFailed]:
    """The plan as soon as it is there, then the same with remedies; nothing more once it is stopped."""
    try:
        plan = plan_job(snapshot.sheet, snapshot.draft.job)
        if stopped():
            return
        yield Planned(snapshot.version, plan)
        cured = with_remedies(snapshot.sheet, snapshot.draft, plan)
    # Whatever goes wrong here, the answers are saved and the person is told; a traceback would help nobody.
    except Exception as error:
        yield PlanFailed(snapshot.version, f"{type(error).__name__}: {error}")
        return
    if not stopped():
        yield Planned(snapshot.version, cured)
