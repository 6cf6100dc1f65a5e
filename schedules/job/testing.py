"""Commissioning tests that were taken: how the job records one, and the edits that do so or take it back."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from schedules.files.records import Line, Paragraph, Record
from schedules.findings import Edit


class Tested(Record):
    """One commissioning test as it was taken.

    test: which one, by its step and its terminals. found: what the meter showed, or yes or no where eyes judge.
    expected: what would have passed then; when the plan expects something else, the test counts no more. reason: why
    it is accepted although it doesn't pass.
    """

    test: Line
    found: Line
    expected: Paragraph
    initials: Annotated[str, Field(min_length=1, max_length=6)]
    date: Line
    reason: Paragraph | None = None


def record_test(
    test: str, *, found: str, expected: str, initials: str, date: str, reason: str | None = None
) -> tuple[Edit, ...]:
    """The edits that record a test as taken; one that was taken before is overwritten."""
    values = {
        "found": found,
        "expected": expected,
        "reason": reason,
        "initials": initials,
        "date": date,
    }
    return tuple(Edit("tested", test, key, value) for key, value in values.items())


def forget_test(test: str) -> tuple[Edit, ...]:
    """The edit that removes a test from the record."""
    return (Edit("tested", test, "", None),)
