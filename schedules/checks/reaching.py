"""Does every factory cable reach, and is every way measured?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Severity
from schedules.quantities.lengths import format_length
from schedules.site.chance import in_percent
from schedules.site.reach import Verdict
from schedules.site.routes import Unmeasured
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.site.reach import CableLength

_SITE = Source("sheet's cable length, site's measurements", Confidence.JOB)


def check_reaching(derived: Derived) -> Iterator[Finding]:
    """Report what is unmeasured, short or tight. Remedies that lengthen or move are proposed elsewhere."""
    for length in derived.lengths:
        if isinstance(length.route, Unmeasured):
            yield Finding(
                code="not-measured",
                severity=Severity.FIX,
                subject=length.cable,
                says=f"the way of {length.cable} is not known: {length.route.in_words()} is missing",
                rule="a length is measured or asked for, never assumed",
                source=_SITE,
                answer=length.route.missing[0],
            )
        elif length.verdict in (Verdict.SHORT, Verdict.TIGHT):
            yield _too_short(length)


def _too_short(length: CableLength) -> Finding:
    required, supplied = length.required_in or 0.0, length.supplied_in or 0.0
    margin, worst = length.margin_in or 0.0, length.worst_in or 0.0
    short = length.verdict is Verdict.SHORT
    if short:
        says = f"{length.cable} is {format_length(-margin)} short"
    else:
        says = (
            f"{length.cable} reaches by {format_length(margin)}, less than the measurements may be off: "
            f"the chance that it reaches is {in_percent(length.chance or 0.0)}"
        )
    return Finding(
        code="cable-short" if short else "cable-tight",
        severity=Severity.STOP if short else Severity.FIX,
        subject=length.cable,
        says=says,
        rule="a factory cable gets no joint: it reaches as supplied, with every measurement at its worst",
        source=_SITE,
        numbers=(
            Input("required", format_length(required), "plan"),
            Input("supplied", format_length(supplied), "sheet"),
            Input("margin", format_length(margin), "plan"),
            Input("worst case", format_length(worst), "plan"),
            Input("chance that it reaches", in_percent(length.chance or 0.0), "plan"),
        ),
        answer=("run", length.cable, "route"),
    )
