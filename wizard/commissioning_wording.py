"""Words for commissioning: one test as a line, and all that somebody needs who takes it."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from textual.content import Content

from schedules.behaviour.commissioning import Verdict, value_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.behaviour.commissioning import Test
    from schedules.derived import Derived
    from schedules.job.testing import Tested

_STYLES = {
    Verdict.PASSED: "$text-success",
    Verdict.FAILED: "bold $text-error",
    Verdict.ACCEPTED: "$text-warning",
    Verdict.OUTDATED: "bold $text-warning",
}
_MARK = 11
_SHARES = (0.42, 0.32)
_WIDEST = 44
"""Of the line, after the mark: where the probes stand, what passes, in bounds; what was found has the rest."""


def line_content(test: Test, came_to: Verdict | None, record: Tested | None, width: int) -> Content:
    """One test in a line."""
    leads, passes = (min(int((width - _MARK) * share), _WIDEST) for share in _SHARES)
    mark = "" if came_to is None else str(came_to)
    found = "" if record is None else f"{record.found}  {record.initials}"
    return Content.assemble(
        (f"{mark:<{_MARK}}", "" if came_to is None else _STYLES[came_to]),
        f"{_short(leads_words(test), leads):<{leads}}{_short(test.passes, passes):<{passes}}",
        found,
    )


def _short(text: str, width: int) -> str:
    return textwrap.shorten(text, max(width - 1, 8), placeholder="…")


def leads_words(test: Test) -> str:
    """Where the probes stand, or what is done where there are none."""
    reading = test.reading
    if reading is None:
        return test.how
    suffix = f" {test.state.partition(',')[0].partition(':')[0]}" if reading.step == "contacts" else ""
    return f"{reading.start} → {reading.end}{suffix}"


def step_line(order: int, title: str, good: int, number: int) -> Content:
    """The head of one step's tests."""
    return Content.assemble((f"{order}  {title}", "bold"), f"   {good} of {number}")


def details_content(
    test: Test,
    derived: Derived,
    cautions: tuple[str, ...],
    *,
    held: str,
    came_to: Verdict | None,
    record: Tested | None,
) -> Content:
    """All that somebody needs who takes a test: what holds it up and the cautions come first."""
    lines = [Content.assemble((test.title, "bold"), f"   {leads_words(test) if test.reading else ''}")]
    if held:
        lines.append(Content.styled(f"NOT YET: {held}", "bold $text-error"))
    lines += (Content.styled(f"CAUTION: {caution}", "bold $text-warning") for caution in cautions)
    lines += (Content.assemble((f"{head:<8}", "bold"), words) for head, words in _told(test, derived))
    if record is not None and came_to is not None:
        said = f"{record.found}: {came_to}, {record.initials}, {record.date}"
        said += f". Accepted because: {record.reason}" if came_to is Verdict.ACCEPTED else ""
        lines.append(Content.assemble(("Found   ", "bold"), (said, _STYLES[came_to])))
    if came_to is Verdict.FAILED:
        lines.append(Content("⏎ takes it again, a accepts it with a reason, D looks for the fault."))
    return Content("\n").join(lines)


def _told(test: Test, derived: Derived) -> Iterable[tuple[str, str]]:
    yield "Do", test.how
    yield "State", test.state
    reading = test.reading
    if reading is not None:
        landings = derived.connections.landings
        ends = (f"{point} in {landings[point].enclosure}" for point in (reading.start, reading.end))
        yield "Probes", " and ".join(ends)
        expected = value_words(reading.expected, reading.function)
        yield "Meter", f"{reading.function}, expected {expected}, passes {test.passes}"
    else:
        yield "Passes", test.passes
    if test.note:
        yield "Note", test.note


def head_content(good: int, failed: int, number: int) -> Content:
    """How far commissioning is."""
    counts = f"   {good} of {number} tests good"
    return Content.assemble(
        ("Commissioning", "bold"),
        counts,
        (f", {failed} FAILED" if failed else "", "bold $text-error"),
    )
