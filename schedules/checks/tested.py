"""Is what commissioning recorded good, in order and complete?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Remedy, Severity
from schedules.job.testing import forget_test
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.commissioning import Commissioning, Test, Verdict
    from schedules.derived import Derived
    from schedules.job.testing import Tested

COMMON_PRACTICE = Source("commissioning tests", Confidence.COMMON_PRACTICE)
_ORDER = "dead tests before live ones, each live step after the one before it"


def check_tested(derived: Derived) -> Iterator[Finding]:
    """Every recorded test, and how many are still to be taken. Nothing is said before the first is recorded."""
    # Deferred: a job without a record needs no commissioning to be checked.
    if not derived.job.tested:
        return
    from schedules.behaviour.commissioning import commissioning  # noqa: PLC0415

    whole = commissioning(derived)
    verdicts = whole.verdicts(derived.job)
    for record in derived.job.tested:
        test = whole.by_id.get(record.test)
        if test is None:
            yield _unknown(record)
        else:
            yield from _judged(derived, whole, test, record, verdicts[test.id])
    left = len(whole.tests) - len(verdicts)
    if left:
        yield Finding(
            code="tests-open",
            severity=Severity.NOTE,
            subject="commissioning",
            says=f"{left} of {len(whole.tests)} tests are not recorded yet",
            rule="every test of the commissioning record is taken before the installation is handed over",
            source=COMMON_PRACTICE,
            numbers=(Input("tests", str(len(whole.tests))), Input("not recorded", str(left))),
        )


def _judged(
    derived: Derived, whole: Commissioning, test: Test, record: Tested, came_to: Verdict
) -> Iterator[Finding]:
    from schedules.behaviour.commissioning import Verdict  # noqa: PLC0415

    if came_to is Verdict.FAILED:
        yield _about(record, "test-failed", Severity.STOP, f"found {record.found}, passes {test.passes}")
    elif came_to is Verdict.OUTDATED:
        says = f"taken when {record.expected} passed, now {test.passes}: take it again"
        yield _about(record, "test-outdated", Severity.FIX, says)
    held = whole.held_by(test, derived.job)
    if held:
        yield _about(record, "test-early", Severity.CHECK, f"recorded, but {held}", rule=_ORDER)


def _about(record: Tested, code: str, severity: Severity, says: str, *, rule: str = "") -> Finding:
    return Finding(
        code=code,
        severity=severity,
        subject=record.test,
        says=says,
        rule=rule or "what is found lies in the band that the plan expects, or somebody says why not",
        source=COMMON_PRACTICE,
        answer=("tested", record.test, "found"),
    )


def _unknown(record: Tested) -> Finding:
    return Finding(
        code="test-gone",
        severity=Severity.NOTE,
        subject=record.test,
        says=f"found {record.found} on {record.date}, but this installation has no such test",
        rule="a recorded test belongs to terminals that are there",
        source=COMMON_PRACTICE,
        answer=("tested", record.test, "test"),
        remedies=(Remedy("take it out of the record", forget_test(record.test)),),
    )
