"""Listings of single faults and of fault finding for a terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from schedules.cautions import CAUTION
from schedules.rows.faults import fault_table
from schedules.text import for_terminal
from schedules.writers.text import finding_lines, schedule_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.faults import Outcome
    from schedules.findings import Finding


def fault_lines(
    outcomes: tuple[Outcome, ...], shown: tuple[Outcome, ...], findings: Iterable[Finding], width: int
) -> Iterator[str]:
    """List faults: how many there are and how many are hidden, those shown, what exposes or cures the hidden ones."""
    yield from _wrapped(CAUTION, width)
    yield ""
    yield from _wrapped(_counted(outcomes), width)
    yield ""
    yield from schedule_lines(fault_table(shown), width)
    lines = list(finding_lines(findings, width))
    if lines:
        yield ""
        yield "Hidden dangers, and what shows or cures them"
        yield ""
        yield from lines


def _counted(outcomes: tuple[Outcome, ...]) -> str:
    dangerous = [outcome for outcome in outcomes if not outcome.safe]
    hidden = sum(1 for outcome in dangerous if outcome.hidden)
    return (
        f"{len(outcomes)} single faults tried: {len(dangerous)} are dangerous, "
        f"{hidden} of these are not noticed in use."
    )


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(for_terminal(text), width)
