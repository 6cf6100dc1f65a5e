"""The answers that a job asks of whoever acknowledges a finding."""

from __future__ import annotations

from schedules.questions.field import Field

ACKNOWLEDGED = (
    Field(
        "acknowledged",
        "initials",
        "Initials",
        "initials",
        "Who has seen the finding and answers for it.",
        "RA",
        longest=6,
        required=True,
    ),
    Field(
        "acknowledged",
        "decided_by",
        "Who decided",
        "line",
        "Name and office of who may decide it, such as the inspector. Without it a finding at fix stays open.",
        "J. Marsh, county inspector",
    ),
    Field(
        "acknowledged",
        "reason",
        "Reason",
        "paragraph",
        "Why it may stay as it is. The package prints it under the finding.",
        "The duct stays: the fan was measured at 610 cfm.",
        longest=2000,
        required=True,
    ),
    Field(
        "acknowledged",
        "date",
        "Date",
        "line",
        "When it was acknowledged.",
        "2026-03-20",
        required=True,
    ),
    Field(
        "acknowledged",
        "stood",
        "What the finding said",
        "paragraph",
        "The finding and its numbers then. When it says something else, this entry counts no more.",
        "check: W4 has 1 in to spare [margin 1 in]",
        longest=2000,
        required=True,
    ),
)
