"""Words for fault finding: what was found, which faults explain it, what to find out next, where to look at the end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from schedules.behaviour.failed_tests import STRAY_SUPPLY
from schedules.behaviour.found import effects_seen, outcome_words, show_value
from schedules.behaviour.probes import ProbeKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.behaviour.diagnose import Proposal
    from schedules.behaviour.failed_tests import FailedTest
    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.probes import Probe
    from wizard.fault_finding import Search

_OUTCOMES = 4
"""So many likely outcomes of a reading are named."""

_HANDS = {
    ProbeKind.SEE: "by eye",
    ProbeKind.STATE: "by eye",
    ProbeKind.LOOK: "by eye",
    ProbeKind.OHMS: "meter, dead",
    ProbeKind.VOLTS: "meter, LIVE",
}


def found_content(search: Search) -> Content:
    """Everything that was entered, in order."""
    if not search.found and not search.apart:
        return Content("nothing yet")
    lines = [_apart_content(item) for item in search.apart]
    for item in search.found:
        probe = search.finder.probe(item.probe)
        if probe is not None:
            lines.append(Content.assemble(f"{probe.says}  ", (show_value(probe, item.value), "bold")))
    return Content("\n").join(lines)


def _apart_content(item: FailedTest) -> Content:
    """A failed test that no fault explains, and what it says by itself."""
    reading = item.test.reading
    leads = f", {reading.start} to {reading.end}" if reading is not None else ""
    return Content.assemble(f"{item.test.title}{leads}  ", (item.shown, "bold"), f"  {item.by_itself}")


def suspects_content(search: Search, room: int) -> Content:
    """The faults that explain what was found, likeliest first, as many as there is room for."""
    suspects = search.suspects
    if not suspects:
        return Content.styled("No single fault explains all that was found.", "bold $text-error")
    if not search.found:
        return Content(f"{len(suspects)} faults are possible: nothing was entered yet.")
    lines = [Content(f"{len(suspects)} of {len(search.finder.hypotheses)} explain what was found:")]
    shown = suspects if len(suspects) <= room else suspects[: room - 1]
    lines += (Content.assemble((f"{item.share:4.0%}  ", "bold"), item.says) for item in shown)
    if len(suspects) > len(shown):
        lines.append(Content(f"      and {len(suspects) - len(shown)} more"))
    return Content("\n").join(lines)


def next_content(search: Search, proposal: Proposal | None) -> Content:
    """What to find out next, cautions first; or that nothing tells any more, and what to inspect."""
    if proposal is None:
        stray = tuple(_stray_supplies(search))
        return Content("\n").join(stray or _end_lines(search))
    probe = proposal.probe
    lines = [Content.styled(f"CAUTION: {caution}", "bold $text-warning") for caution in proposal.cautions]
    lines.append(Content.styled(f"NEXT: {probe.says}", "bold"))
    lines.append(Content(effort_words(probe, proposal.gain_bits)))
    likely = "; ".join(
        f"{outcome_words(probe, value)} ({share:.0%})" for value, share in proposal.outcomes[:_OUTCOMES]
    )
    more = len(proposal.outcomes) - _OUTCOMES
    lines.append(Content(f"May show: {likely}" + (f"; or {more} other" if more > 0 else "")))
    return Content("\n").join(lines)


def _stray_supplies(search: Search) -> Iterator[Content]:
    """What to do where something was live with every breaker off: it comes before any other reading."""
    live = [item.test.reading for item in search.stray]
    leads = [f"{reading.start} to {reading.end}" for reading in live if reading is not None]
    if leads:
        more = f" and {len(leads) - 1} more" if len(leads) > 1 else ""
        yield Content.styled(f"LIVE WITH EVERY BREAKER OFF: {leads[0]}{more}.", "bold $text-error")
        yield Content.styled(f"{STRAY_SUPPLY.capitalize()}.", "bold $text-error")
        yield Content(
            "Take that test again once it is dead, then look for the fault. tab: enter what was seen."
        )


def effort_words(probe: Probe, gain_bits: float) -> str:
    """How it is taken, what that takes, what it tells."""
    how = _HANDS.get(probe.kind, "meter, dead, wires lifted")
    return f"How: {how}. Effort and hazard {probe.cost:g}, tells {gain_bits:.1f} bit."


def _end_lines(search: Search) -> Iterator[Content]:
    suspects = search.suspects
    if len(suspects) == 1:
        yield Content.styled(f"FOUND: {suspects[0].says}.", "bold $text-success")
    elif suspects:
        yield Content.styled("No reading tells these apart. Inspect them:", "bold")
        yield from (Content(f"  {suspect.says}") for suspect in suspects)
    else:
        yield Content("Take the readings again (↑ takes the last back), or p looks for two faults together.")
    places = dict.fromkeys(
        tag for suspect in suspects if suspect.fault is not None for tag in suspect.fault.enclosures
    )
    if places:
        yield Content.assemble(("Look in ", "bold"), ", ".join(places))
        yield Content(
            "Switch off, lock and prove dead before a wire is touched; test anew after it is mended."
        )


def pairs_content(pairs: Iterable[tuple[Fault, Fault]]) -> Content:
    """Two faults together that explain what was found."""
    lines = [Content(f"  {one.says}; and {two.says}") for one, two in pairs]
    head = "Two faults together that explain it:" if lines else "No two faults explain it either."
    return Content("\n").join((Content.styled(head, "bold"), *lines))


def allowed_words(search: Search, probe: Probe) -> str:
    """What may be typed for a probe."""
    match probe.kind:
        case ProbeKind.SEE:
            return "on, part or off"
        case ProbeKind.LOOK:
            return "yes or no"
        case ProbeKind.VOLTS:
            return "volts, such as 118 V"
        case ProbeKind.OHMS | ProbeKind.ELEMENT | ProbeKind.LOOP:
            return "ohms, such as 0.3 or 4.7 kohm, or OL"
    if probe.kind is ProbeKind.STATE:
        effects = effects_seen(search.finder, probe.case)
        return f"all right, or what is wrong, such as {effects[0]} off. Effects: {', '.join(effects)}"
    possible = [show_value(probe, value) for value in search.finder.possible(probe)]
    other = next((words for words in possible if words != "all right"), "")
    return f"all right, or what is wrong, such as: {other}" if other else "all right"
