"""What the solved states tell only because one breaker feeds another: told once, under its cause."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.checks.behaviour import check_behaviour
from schedules.derived import derive
from schedules.working import Input

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.findings import Finding
    from schedules.job.records import Job

_CAUSE = "controls-cut-by-fire"
_FOLLOWING = ("controls-die", "promise-broken")


def told_once(derived: Derived, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Put what follows from the controls' supply into the finding that tells of it.

    What follows is computed: the job is solved again with that circuit on a breaker of its own, and what is then no
    longer found followed from it. What is found all the same stays a finding of its own.
    """
    cause = next((item for item in findings if item.code == _CAUSE and item.answer is not None), None)
    suspected = [item for item in findings if item.code in _FOLLOWING]
    if cause is None or cause.answer is None or not suspected:
        return findings
    apart = derive(derived.sheet, _on_its_own(derived.job, cause.answer[1]))
    still = {(item.code, item.subject) for item in check_behaviour(apart)}
    following = [item for item in suspected if (item.code, item.subject) not in still]
    if not following:
        return findings
    whole = replace(
        cause,
        says=f"{cause.says}; solved, {len(following)} more follow from it",
        numbers=(
            *cause.numbers,
            # A semicolon parts a finding's numbers, so none stands within one.
            *(
                Input("follows", item.says.replace("; ", ", "), "solved with and without it")
                for item in following
            ),
        ),
    )
    return tuple(whole if item is cause else item for item in findings if item not in following)


def _on_its_own(job: Job, circuit: str | None) -> Job:
    """The job with this circuit taken from a breaker of its own."""
    return job.model_copy(
        update={
            "circuit": tuple(
                item.model_copy(update={"downstream_of": None}) if item.circuit == circuit else item
                for item in job.circuit
            )
        }
    )
