"""Listings of single faults and of fault finding for a terminal."""

from __future__ import annotations

import itertools
import textwrap
from typing import TYPE_CHECKING

from schedules.behaviour.found import outcome_words, show_value
from schedules.cautions import CAUTION
from schedules.rows.faults import fault_table
from schedules.text import for_terminal
from schedules.writers.text import finding_lines, schedule_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from schedules.behaviour.diagnose import Finder, Found, Proposal
    from schedules.behaviour.failed_tests import FailedTest
    from schedules.behaviour.faults import Outcome
    from schedules.behaviour.planted import Score
    from schedules.findings import Finding

_LISTED = 12
"""So many suspects are named; the rest are counted."""

_OUTCOMES = 6
"""So many likely outcomes of a reading are named."""


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


def outcome_lines(outcome: Outcome, width: int) -> Iterator[str]:
    """Tell one fault: what is different, state by state, what of it is dangerous, who notices."""
    yield from _wrapped(CAUTION, width)
    yield ""
    yield from _wrapped(f"If {outcome.fault.says}:", width)
    by_state: dict[str, list[str]] = {}
    for deviation in outcome.deviations:
        by_state.setdefault(deviation.state, []).append(deviation.says)
    for state, lines in by_state.items():
        yield ""
        yield from _wrapped(f"“{state}”", width)
        for line in lines:
            yield from _wrapped(f"  {line}", width)
    if not by_state:
        yield from _wrapped("  no state changes in anything that is seen or live", width)
    yield ""
    yield from _wrapped(f"Danger: {'; '.join(outcome.dangers) or 'none'}", width)
    yield from _wrapped(f"Noticed: {outcome.notice}", width)


def _counted(outcomes: tuple[Outcome, ...]) -> str:
    dangerous = [outcome for outcome in outcomes if not outcome.safe]
    hidden = sum(1 for outcome in dangerous if outcome.hidden)
    return (
        f"{len(outcomes)} single faults tried: {len(dangerous)} are dangerous, "
        f"{hidden} of these are not noticed in use."
    )


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(for_terminal(text), width)


def failed_lines(failed: Sequence[FailedTest], width: int) -> Iterator[str]:
    """List the commissioning tests that failed, with which the search begins, and what to do about a stray supply."""
    if not failed:
        return
    yield "Failed in commissioning:"
    for item in failed:
        reading = item.test.reading
        leads = f", {reading.start} to {reading.end}" if reading is not None else ""
        by_itself = f". {item.by_itself}" if item.by_itself else ""
        yield from _wrapped(f"  {item.test.title}{leads}: {item.shown}{by_itself}", width)
    yield ""
    if any(item.stray_supply for item in failed):
        yield from _wrapped(
            "LIVE WITH EVERY BREAKER OFF. Take that test again once it is dead, then look for the fault.",
            width,
        )


def suspect_lines(finder: Finder, found: Sequence[Found], width: int, *, pairs: bool) -> Iterator[str]:
    """List the faults that explain what was found, likeliest first; pairs of faults where they are asked for."""
    suspects = finder.suspects(found)
    if not suspects:
        yield from _wrapped("No single fault explains all that was found.", width)
    elif found:
        yield from _wrapped(
            f"{len(suspects)} of {len(finder.hypotheses)} faults explain what was found:", width
        )
        for suspect in suspects[:_LISTED]:
            yield from _wrapped(f"  {suspect.share:4.0%}  {suspect.says}", width)
        if len(suspects) > _LISTED:
            yield f"        and {len(suspects) - _LISTED} more"
    if pairs:
        together = tuple(itertools.islice(finder.pairs(found), _LISTED))
        yield ""
        yield from _wrapped(
            "Two faults together that explain it:" if together else "No two faults explain it.", width
        )
        for one, two in together:
            yield from _wrapped(f"  {one.says}; {two.says}", width)


def proposal_lines(
    finder: Finder, found: Sequence[Found], proposal: Proposal | None, width: int
) -> Iterator[str]:
    """Say what to find out next with its cautions, or that nothing tells any more and what to inspect."""
    if proposal is None:
        yield from _end_lines(finder, found, width)
        return
    probe = proposal.probe
    for caution in proposal.cautions:
        yield from _wrapped(f"CAUTION: {caution}", width)
    yield from _wrapped(f"Next: {probe.says}", width)
    likely = "; ".join(
        f"{outcome_words(probe, value)} ({share:.0%})" for value, share in proposal.outcomes[:_OUTCOMES]
    )
    more = len(proposal.outcomes) - _OUTCOMES
    yield from _wrapped(f"May show: {likely}" + (f"; or {more} other" if more > 0 else ""), width)
    yield from _wrapped(f'Enter it as: "{probe.id} = {show_value(probe, proposal.outcomes[0][0])}"', width)


def _end_lines(finder: Finder, found: Sequence[Found], width: int) -> Iterator[str]:
    suspects = finder.suspects(found)
    if len(suspects) == 1:
        yield from _wrapped(f"Found: {suspects[0].says}.", width)
    elif suspects:
        where = dict.fromkeys(
            tag for suspect in suspects if suspect.fault is not None for tag in suspect.fault.enclosures
        )
        yield from _wrapped("No reading tells these apart. Inspect them:", width)
        for suspect in suspects:
            yield from _wrapped(f"  {suspect.says}", width)
        yield from _wrapped(f"Look in {', '.join(where)}.", width)
    else:
        yield from _wrapped("Take the readings again, or ask for pairs of faults.", width)


def score_lines(score: Score, width: int) -> Iterator[str]:
    """Say how well fault finding does when every single fault is planted in turn."""
    yield from _wrapped(
        f"{score.faults} single faults planted, in {score.classes} classes that some reading tells apart "
        f"(log2 {score.bits:.1f}). Named, or narrowed to their class: {score.faults - len(score.missed)}. "
        f"Readings: {score.mean_readings:.1f} on average, {score.most_readings} at most. Looking at everything in one "
        "state, ringing one cable through, or trying one strip's neighbours counts as one reading.",
        width,
    )
    for name in score.missed:
        yield from _wrapped(f"missed: {name}", width)
