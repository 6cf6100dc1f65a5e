"""Does the job speak of steps that the order of work has, with durations that can be?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived

_JOB = Source("the job's own durations", Confidence.JOB)


def check_work(derived: Derived) -> Iterator[Finding]:
    """Report durations of steps that aren't there, or that fall from shortest to longest."""
    # Deferred: a job without durations of its own needs no order of work to be checked.
    if not derived.job.step:
        return
    from schedules.work.order_of_work import usual_steps  # noqa: PLC0415
    from schedules.work.site_work import brought  # noqa: PLC0415

    known = [step.id for step in usual_steps(brought(derived.selection))]
    for item in derived.job.step:
        if item.step not in known:
            away = Remedy(f"leave {item.step} out", (Edit("step", item.step, "", None),))
            yield _finding(item.step, f"no step {item.step}; there are: {', '.join(known)}", away)
        elif not item.low <= item.likely <= item.high:
            usual = Remedy(
                f"go by the trade's own durations of {item.step}", (Edit("step", item.step, "", None),)
            )
            yield _finding(item.step, f"{item.step}: shortest, likely and longest duration fall", usual)


def _finding(step: str, says: str, remedy: Remedy) -> Finding:
    return Finding(
        code="step-unfit",
        severity=Severity.FIX,
        subject=step,
        says=says,
        rule="a duration belongs to a step of the order of work, shortest to longest",
        source=_JOB,
        answer=("step", step, "likely"),
        remedies=(remedy,),
    )
