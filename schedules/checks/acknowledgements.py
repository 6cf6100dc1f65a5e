"""Which findings are acknowledged, and which acknowledgements count no more."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.findings import Acknowledgement, Finding, Remedy, Severity
from schedules.job.acknowledging import OPEN_TO_DECISION, name_of, stands, take_back
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.job.acknowledging import Acknowledged
    from schedules.job.records import Job

_JOB = Source("the job's own record", Confidence.JOB)


def with_acknowledgements(findings: tuple[Finding, ...], job: Job) -> tuple[Finding, ...]:
    """Put each entry of the job under its finding; tell of those whose finding is gone.

    No entry changes how serious a finding is: whoever reads the plan sees both.
    """
    if not job.acknowledged:
        return findings
    entries = {entry.finding: entry for entry in job.acknowledged}
    named = tuple(
        finding
        if (entry := entries.get(name_of(finding))) is None
        else replace(finding, acknowledgement=_held_against(entry, finding))
        for finding in findings
    )
    there = {name_of(finding) for finding in findings}
    return (*named, *_without_finding(tuple(item for item in job.acknowledged if item.finding not in there)))


def _held_against(entry: Acknowledged, finding: Finding) -> Acknowledgement:
    return Acknowledgement(
        entry.initials, entry.date, entry.reason, entry.decided_by or "", _void(entry, finding)
    )


def _void(entry: Acknowledged, finding: Finding) -> str:
    """Why an entry doesn't count for what the finding says now."""
    if finding.severity not in OPEN_TO_DECISION:
        return "a finding that stops the work is cured, not acknowledged"
    if entry.stood != stands(finding):
        return f"it was given when this finding said {entry.stood}"
    if finding.severity is Severity.FIX and entry.decided_by is None:
        return "who decided is missing"
    return ""


def _without_finding(entries: tuple[Acknowledged, ...]) -> Iterator[Finding]:
    for entry in entries:
        yield Finding(
            code="acknowledged-gone",
            severity=Severity.NOTE,
            subject=entry.finding,
            says=f"{entry.initials} acknowledged on {entry.date} what is no finding any more: {entry.stood}",
            rule="an acknowledgement belongs to one finding as it stood; without it there is nothing to answer for",
            source=_JOB,
            remedies=(Remedy("take the acknowledgement out", take_back(entry.finding)),),
        )
