"""Findings that somebody answers for: how the job records it, and the edits that do so or take it back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from schedules.files.records import Line, Paragraph, Record
from schedules.findings import Edit, Severity

if TYPE_CHECKING:
    from schedules.findings import Finding

OPEN_TO_DECISION = (Severity.FIX, Severity.CHECK, Severity.NOTE)
"""What a person may answer for. A stop is cured: no signature makes the work safe."""


class Acknowledged(Record):
    """One finding that somebody has seen and answers for.

    finding: which one, by its check and its thing. stood: what it said and its numbers when it was acknowledged; as
    soon as either differs, the entry counts no more. decided_by: whose decision it was, without which a finding that
    is to be put right before cover can't be acknowledged.
    """

    finding: Line
    stood: Paragraph
    reason: Paragraph
    decided_by: Line | None = None
    initials: Annotated[str, Field(min_length=1, max_length=6)]
    date: Line


def name_of(finding: Finding) -> str:
    """What tells a finding from the others: its check and its thing."""
    return f"{finding.code} {finding.subject}"


def stands(finding: Finding) -> str:
    """What a finding says, in one line: how far it stands in the way, its sentence and its numbers."""
    numbers = "; ".join(f"{item.name} {item.value}" for item in finding.numbers)
    return f"{finding.severity}: {finding.says}{f' [{numbers}]' if numbers else ''}"


def acknowledge(
    finding: Finding, *, initials: str, reason: str, date: str, decided_by: str | None = None
) -> tuple[Edit, ...]:
    """The edits that record a finding as acknowledged.

    Raises ValueError for a finding that stops the work, and for one to be put right before cover without the name of
    who decided.
    """
    if finding.severity not in OPEN_TO_DECISION:
        raise ValueError(f"{finding.subject}: a finding that stops the work is cured, not acknowledged")
    if finding.severity is Severity.FIX and decided_by is None:
        raise ValueError(f"{finding.subject}: who decided is missing")
    name = name_of(finding)
    values = {
        "stood": stands(finding),
        "reason": reason,
        "decided_by": decided_by,
        "initials": initials,
        "date": date,
    }
    return tuple(Edit("acknowledged", name, key, value) for key, value in values.items())


def take_back(name: str) -> tuple[Edit, ...]:
    """The edit that removes an acknowledgement."""
    return (Edit("acknowledged", name, "", None),)
