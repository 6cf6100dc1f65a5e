"""The steps of a job, how each stands, and where an answer is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.checks.behaviour import CODES
from schedules.findings import Severity
from wizard.questions import groups_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from schedules.findings import Finding
    from schedules.plan import Plan
    from wizard.question import Answer, StepId
    from wizard.session import Snapshot


class State(StrEnum):
    """How a step stands. The word is what the screen shows."""

    UNTOUCHED = "untouched"
    PARTIAL = "partial"
    COMPLETE = "complete"
    TROUBLE = "trouble"


@dataclass(frozen=True, slots=True)
class Standing:
    """How one step stands: the state, and a few words for the list."""

    state: State
    words: str


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the list.

    stands: how it stands in a snapshot that is planned. tables: those of the job whose answers it asks for.
    """

    id: StepId
    title: str
    stands: Callable[[Step, Snapshot, Plan], Standing]
    tables: tuple[str, ...] = ()


def step_of(answer: Answer) -> StepId:
    """The step that asks for an answer."""
    return _STEP_OF_TABLE[answer[0]]


def standing(step: StepId, snapshot: Snapshot) -> Standing:
    """How a step stands in this snapshot."""
    if snapshot.plan is None:
        return Standing(State.UNTOUCHED, "…")
    row = _BY_ID[step]
    return row.stands(row, snapshot, snapshot.plan)


def _of_questions(step: Step, snapshot: Snapshot, plan: Plan) -> Standing:
    groups = groups_of(step.id, snapshot, None)
    here = [item for item in plan.findings if item.answer is not None and item.answer[0] in step.tables]
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
    checks = _undecided(here)
    if checks:
        return Standing(State.COMPLETE, f"{checks} to check")
    return Standing(State.COMPLETE, "complete" if answered else "nothing asked")


def _is_answered(finding: Finding, snapshot: Snapshot) -> bool:
    """Whether the finding is about an answer that was given; else it asks for one, which is no trouble yet."""
    if finding.code == "choice-open":
        return False
    return finding.answer is not None and snapshot.written(*finding.answer) not in (None, [])


def _undecided(findings: Iterable[Finding]) -> int:
    """How many findings wait for a licensed person: those that nobody has acknowledged."""
    return sum(1 for item in findings if item.severity is Severity.CHECK and not item.acknowledged)


def _of_findings(_step: Step, _snapshot: Snapshot, plan: Plan) -> Standing:
    findings = plan.findings
    stop = sum(1 for finding in findings if finding.severity is Severity.STOP)
    fix = sum(1 for finding in findings if finding.severity is Severity.FIX)
    if not stop and not fix:
        check = _undecided(findings)
        return Standing(State.COMPLETE, f"{check} to check" if check else "none open")
    words = ", ".join(f"{number} {word}" for number, word in ((stop, "stop"), (fix, "fix")) if number)
    return Standing(State.TROUBLE, words)


def _of_paper(_step: Step, _snapshot: Snapshot, plan: Plan) -> Standing:
    if plan.sound:
        return Standing(State.COMPLETE, "ready")
    return Standing(State.PARTIAL, "provisional")


def _of_interlocks(_step: Step, _snapshot: Snapshot, plan: Plan) -> Standing:
    wrong = sum(1 for item in plan.findings if item.code in CODES and item.severity.blocks)
    if wrong:
        return Standing(State.TROUBLE, f"{wrong} wrong")
    return _of_paper(_step, _snapshot, plan)


def _of_commissioning(_step: Step, snapshot: Snapshot, plan: Plan) -> Standing:
    taken = len(snapshot.draft.job.tested)
    if not taken:
        return Standing(State.UNTOUCHED, "untouched")
    codes = [item.code for item in plan.findings]
    wrong = sum(1 for code in codes if code in ("test-failed", "test-outdated"))
    if wrong:
        return Standing(State.TROUBLE, f"{wrong} not good")
    return (
        Standing(State.PARTIAL, f"{taken} taken")
        if "tests-open" in codes
        else Standing(State.COMPLETE, "complete")
    )


STEPS = (
    Step("equipment", "Equipment", _of_questions, ("job", "amendment")),
    Step("options", "Options", _of_questions, ("",)),
    Step(
        "room",
        "Room",
        _of_questions,
        ("site", "wall", "cabinet", "keep_out", "cooking_range", "routing"),
    ),
    Step("places", "Places", _of_questions, ("place", "box")),
    Step(
        "routes",
        "Routes",
        _of_questions,
        ("run", "raceway", "bundle", "framing", "stock", "as_built"),
    ),
    Step("circuits", "Circuits", _of_questions, ("circuit", "nameplate")),
    Step("mounting", "Mounting", _of_questions, ("mounting", "stud", "space", "work", "step")),
    Step("air", "Air and gas", _of_questions, ("duct", "fitting", "air", "gas")),
    Step("findings", "Findings", _of_findings, ("acknowledged",)),
    Step("schedules", "Schedules", _of_paper),
    Step("diagram", "Diagram", _of_paper),
    Step("interlocks", "Interlocks", _of_interlocks),
    Step("commissioning", "Commissioning", _of_commissioning, ("tested",)),
    Step("print", "Print", _of_paper),
)
"""Every step in its order; what one shows instead of asking stands in `wizard.widgets.step_panels.PANELS`."""

_BY_ID = {step.id: step for step in STEPS}
_STEP_OF_TABLE = {table: step.id for step in STEPS for table in step.tables}
