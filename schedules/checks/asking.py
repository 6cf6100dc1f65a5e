"""Ask for what a computation needs and the job doesn't say: never guessed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Severity
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from schedules.site.routes import Answer

_SITE = Source("measured on site", Confidence.JOB)


def ask(code: str, subject: str, missing: tuple[Answer, ...], *, given: bool, what: str) -> Finding:
    """A finding that names every missing answer.

    given: the job began to answer; then the rest is put right before cover, else a person decides whether to.
    """
    names = ", ".join(dict.fromkeys(field.replace("_", " ") for _, _, field in missing))
    says = (
        f"{what} can't be worked out whole: {names} missing" if given else f"{what} is not answered: {names}"
    )
    return Finding(
        code=code,
        severity=Severity.FIX if given else Severity.CHECK,
        subject=subject,
        says=says,
        rule="a number is measured, read off or asked for, never assumed",
        source=_SITE,
        answer=missing[0],
    )
