"""The answers that a job asks of whoever takes a commissioning test."""

from __future__ import annotations

from schedules.questions.field import Field

TESTED = (
    Field(
        "tested",
        "found",
        "Found",
        "line",
        "What the meter showed, with its unit; yes or no where eyes judge.",
        "119.8 V",
        required=True,
    ),
    Field(
        "tested",
        "initials",
        "Initials",
        "initials",
        "Who took the test. They are printed beside what was found.",
        "AB",
        longest=6,
        required=True,
    ),
    Field(
        "tested",
        "reason",
        "Reason",
        "paragraph",
        "Why a test that doesn't pass is accepted all the same. The record prints it.",
        "Stray voltage: 0 V with the meter's low impedance.",
        longest=2000,
    ),
    Field("tested", "date", "Date", "line", "When the test was taken.", "2026-04-12", required=True),
    Field(
        "tested",
        "expected",
        "What would have passed",
        "paragraph",
        "What was expected then. When the plan expects something else, the test is taken again.",
        "114 to 126 V ac",
        longest=2000,
        required=True,
    ),
)
