"""What would cure each finding: proposed, planned again with it, and kept only if the finding is gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.checks.circuit_remedies import drop_remedies
from schedules.checks.framing_remedies import framing_remedies
from schedules.checks.reach_remedies import place_remedies, reach_remedies, route_remedies
from schedules.checks.site import MISPLACED
from schedules.errors import InputError
from schedules.plan import Plan, plan_job

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.findings import Finding, Remedy
    from schedules.job.draft import Draft
    from schedules.sheet.sheet import Sheet


def with_remedies(sheet: Sheet, draft: Draft, plan: Plan) -> Plan:
    """Give each finding the remedies that were planned again and cure it without raising another one that blocks."""
    return replace(
        plan,
        findings=tuple(
            replace(finding, remedies=tuple(_kept(sheet, draft, plan, finding))) for finding in plan.findings
        ),
    )


def _kept(sheet: Sheet, draft: Draft, plan: Plan, finding: Finding) -> Iterator[Remedy]:
    for remedy in (*finding.remedies, *_proposed(plan, finding)):
        if not remedy.edits or cures(sheet, draft, plan, finding, remedy):
            yield remedy


def cures(sheet: Sheet, draft: Draft, plan: Plan, finding: Finding, remedy: Remedy) -> bool:
    """Plan the job again with the remedy's edits: the finding is gone and nothing new blocks."""
    try:
        after = plan_job(sheet, draft.edited(remedy.edits).job)
    except InputError:
        return False
    before = {_identity(item) for item in plan.findings}
    left = {_identity(item): item for item in after.findings}
    return _identity(finding) not in left and not any(
        item.severity.blocks for key, item in left.items() if key not in before
    )


def _identity(finding: Finding) -> tuple[str, str]:
    return finding.code, finding.subject


def _proposed(plan: Plan, finding: Finding) -> Iterator[Remedy]:
    if finding.code in ("cable-short", "cable-tight"):
        yield from reach_remedies(plan.derived, finding.subject)
    if finding.code in ("way-barred", "hole-not-allowed"):
        yield from route_remedies(plan.derived, finding.subject)
    if finding.code in MISPLACED:
        yield from place_remedies(plan.derived, finding.subject)
    if finding.code == "framing-cut":
        yield from framing_remedies(plan.derived, finding.subject)
    if finding.code == "voltage-drop":
        yield from drop_remedies(plan.derived, finding.subject)
