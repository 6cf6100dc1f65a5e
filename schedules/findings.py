"""Findings: checked statements about a plan, each with its numbers, its rule and what would cure it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.working import Input, Source


class Severity(StrEnum):
    """How far a finding stands in the way, most serious first."""

    STOP = "stop"
    FIX = "fix"
    CHECK = "check"
    NOTE = "note"

    @property
    def meaning(self) -> str:
        """What a person does about it."""
        return _MEANINGS[self]

    @property
    def blocks(self) -> bool:
        """Whether the work may not go on, or be covered, before it is cured."""
        return self in (Severity.STOP, Severity.FIX)


_MEANINGS = {
    Severity.STOP: "must not proceed",
    Severity.FIX: "put right before cover",
    Severity.CHECK: "a licensed person decides",
    Severity.NOTE: "for information",
}


@dataclass(frozen=True, slots=True)
class Edit:
    """One change to a job, in the words of its file.

    table: `job`, `site`, `place`, `run`, …, or empty for the top. row: which entry of a repeated table, by its tag
    (`run` by its cable, `place` by its enclosure). value: as the file writes it; None removes the key, and with an
    empty field the whole entry.
    """

    table: str
    row: str | None
    field: str
    value: object


@dataclass(frozen=True, slots=True)
class Remedy:
    """What would cure a finding, in words; the edits to the job that do it, empty where only hands can."""

    words: str
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True, slots=True)
class Acknowledgement:
    """What somebody wrote under a finding. void: why it doesn't count, in words; empty where it does."""

    initials: str
    date: str
    reason: str
    decided_by: str = ""
    void: str = ""

    def __str__(self) -> str:
        decided = f", decided by {self.decided_by}" if self.decided_by else ""
        signed = f"{self.initials}, {self.date}{decided}: {self.reason}"
        return f"DOES NOT COUNT, {self.void} ({signed})" if self.void else f"acknowledged by {signed}"


@dataclass(frozen=True, slots=True)
class Finding:
    """One checked statement.

    code: which check, e.g. `cable-short`. subject: the tag of the thing (`W4`, `X1:L`). says: one sentence.
    numbers: what was compared. rule: what is required, in our own words. answer: the job's answer that bears on it,
    as (table, row, field), None where none does. acknowledgement: what the job records under it.
    """

    code: str
    severity: Severity
    subject: str
    says: str
    rule: str
    source: Source
    numbers: tuple[Input, ...] = ()
    answer: tuple[str, str | None, str] | None = None
    remedies: tuple[Remedy, ...] = ()
    acknowledgement: Acknowledgement | None = None

    @property
    def acknowledged(self) -> bool:
        """Whether somebody answers for it as it stands now."""
        return self.acknowledgement is not None and not self.acknowledgement.void


CAUSES = (
    "choice-open",
    "choice-conflict",
    "wall-unknown",
    "walls-do-not-close",
    "conductor-without-end",
    "terminal-full",
    "terminal-reserved",
    "terminal-empty",
    "potentials-joined",
    "potential-parted",
    "controls-cut-by-fire",
    "contact-shared",
)
"""Findings from which others follow: told first, in this order, since curing one may cure those."""

_ORDER = {severity: rank for rank, severity in enumerate(Severity)}
_RANK = {code: rank for rank, code in enumerate(CAUSES)}


def in_order(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Sort findings: most serious first, then causes before what follows from them, then by check and subject."""

    def place(item: Finding) -> tuple[int, int, str, str, str]:
        return (
            _ORDER[item.severity],
            _RANK.get(item.code, len(CAUSES)),
            item.code,
            item.subject,
            item.says,
        )

    return tuple(sorted(findings, key=place))
