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
    Step("mounting", "Mounting"),
    Step("air", "Air and gas"),
    Step("findings", "Findings"),
    Step("schedules", "Schedules"),
    Step("diagram", "Diagram"),
)

_TABLES: dict[StepId, tuple[str, ...]] = {
    "equipment": ("job", "amendment"),
    "options": ("",),
    "room": ("site", "wall", "cabinet", "keep_out", "cooking_range", "routing"),
    "places": ("place", "box"),
    "routes": ("run", "raceway", "bundle", "framing", "stock", "as_built"),
    "circuits": ("circuit", "nameplate"),
    "mounting": ("mounting", "stud", "space", "work", "step"),
    "air": ("duct", "fitting", "air", "gas"),
}
_STEP_OF_TABLE = {table: step for step, tables in _TABLES.items() for table in tables}


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
    here = [finding for finding in findings if finding.answer is not None and step_of(finding.answer) == step]
    blocking = [finding for finding in here if finding.severity.blocks]
    wrong = [finding for finding in blocking if _is_answered(finding, snapshot)]
    if wrong:
        return Standing(State.TROUBLE, f"{len(wrong)} wrong")
    asked = {question.answer for group in groups for question in group.questions if question.missing}
    # A finding may ask for an answer that has no row yet, as a raceway that nobody has planned.
    missing = sum(group.missing for group in groups) + len({finding.answer for finding in blocking} - asked)
    answered = any(group.answered for group in groups)
    if missing and answered:
        return Standing(State.PARTIAL, f"{missing} missing")
    if missing:
        return Standing(State.UNTOUCHED, f"untouched: {missing}")
    checks = sum(1 for finding in here if finding.severity is Severity.CHECK)
    if checks:
        return Standing(State.COMPLETE, f"{checks} to check")
    return Standing(State.COMPLETE, "complete" if answered else "nothing asked")


def _is_answered(finding: Finding, snapshot: Snapshot) -> bool:
    """Whether the finding is about an answer that was given; else it asks for one, which is no trouble yet."""
    if finding.code == "choice-open":
        return False
    return finding.answer is not None and snapshot.written(*finding.answer) not in (None, [])


def _of_findings(findings: tuple[Finding, ...]) -> Standing:
    stop = sum(1 for finding in findings if finding.severity is Severity.STOP)
    fix = sum(1 for finding in findings if finding.severity is Severity.FIX)
    if not stop and not fix:
        check = sum(1 for finding in findings if finding.severity is Severity.CHECK)
        return Standing(State.COMPLETE, f"{check} to check" if check else "none open")
    words = ", ".join(f"{number} {word}" for number, word in ((stop, "stop"), (fix, "fix")) if number)
    return Standing(State.TROUBLE, words)
