"""The steps of a job, how each stands, and where an answer is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.findings import Severity
from wizard.questions import groups_of

if TYPE_CHECKING:
    from schedules.findings import Finding
    from wizard.question import Answer, StepId
    from wizard.session import Snapshot


class State(StrEnum):
    """How a step stands. The word is what the screen shows."""

    UNTOUCHED = "untouched"
    PARTIAL = "partial"
    COMPLETE = "complete"
    TROUBLE = "trouble"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the list."""

    id: StepId
    title: str


STEPS = (
    Step("equipment", "Equipment"),
    Step("options", "Options"),
    Step("room", "Room"),
    Step("places", "Places"),
    Step("routes", "Routes"),
    Step("circuits", "Circuits"),
    Step("findings", "Findings"),
    Step("schedules", "Schedules"),
    Step("diagram", "Diagram"),
)

_STEP_OF_TABLE: dict[str, StepId] = {
    "job": "equipment",
    "": "options",
    "site": "room",
    "wall": "room",
    "cabinet": "room",
    "keep_out": "room",
    "stud": "room",
    "cooking_range": "room",
    "routing": "room",
    "place": "places",
    "run": "routes",
    "raceway": "routes",
    "as_built": "routes",
    "circuit": "circuits",
}

# These say that an answer is missing, which is no trouble, only unfinished.
_UNFINISHED = frozenset({"not-measured", "choice-open"})


@dataclass(frozen=True, slots=True)
class Standing:
    """How one step stands: the state, and a few words for the list."""

    state: State
    words: str


def step_of(answer: Answer) -> StepId:
    """The step that asks for an answer."""
    return _STEP_OF_TABLE[answer[0]]


def standing(step: StepId, snapshot: Snapshot) -> Standing:
    """How a step stands in this snapshot."""
    if snapshot.plan is None:
        return Standing(State.UNTOUCHED, "…")
    if step == "findings":
        return _of_findings(snapshot.plan.findings)
    if step in ("schedules", "diagram"):
        sound = snapshot.plan.sound
        return Standing(State.COMPLETE if sound else State.PARTIAL, "ready" if sound else "provisional")
    return _of_questions(step, snapshot, snapshot.plan.findings)


def _of_questions(step: StepId, snapshot: Snapshot, findings: tuple[Finding, ...]) -> Standing:
    groups = groups_of(step, snapshot, None)
    missing = sum(group.missing for group in groups)
    answered = sum(group.answered for group in groups)
    troubles = sum(1 for finding in findings if _troubles(finding, step))
    if troubles:
        return Standing(State.TROUBLE, f"{troubles} wrong")
    if not missing:
        return Standing(State.COMPLETE, "complete")
    if not answered:
        return Standing(State.UNTOUCHED, f"untouched: {missing}")
    return Standing(State.PARTIAL, f"{missing} missing")


def _troubles(finding: Finding, step: StepId) -> bool:
    return (
        finding.severity.blocks
        and finding.code not in _UNFINISHED
        and finding.answer is not None
        and step_of(finding.answer) == step
    )


def _of_findings(findings: tuple[Finding, ...]) -> Standing:
    stop = sum(1 for finding in findings if finding.severity is Severity.STOP)
    fix = sum(1 for finding in findings if finding.severity is Severity.FIX)
    if not stop and not fix:
        check = sum(1 for finding in findings if finding.severity is Severity.CHECK)
        return Standing(State.COMPLETE, f"{check} to check" if check else "none open")
    words = ", ".join(f"{number} {word}" for number, word in ((stop, "stop"), (fix, "fix")) if number)
    return Standing(State.TROUBLE, words)
