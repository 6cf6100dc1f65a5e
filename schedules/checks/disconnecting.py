"""Can whatever is wired in or plugged in be disconnected where somebody works on it?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.circuits.disconnecting import Disconnect
    from schedules.derived import Derived
    from schedules.sheet.wiring import Circuit

_RULE = "an appliance is disconnected by a plug in reach, a breaker that locks open, or a breaker or switch in sight"


def check_disconnecting(derived: Derived) -> Iterator[Finding]:
    """Report what can't be disconnected so, and ask once for all circuits that nobody speaks of."""
    for item in derived.disconnects:
        if item.verdict is not None and not item.verdict.holds:
            yield (
                _plugged(item.circuit, item.verdict)
                if item.plug
                else _wired(derived, item.circuit, item.verdict)
            )
    silent = [item for item in derived.disconnects if item.verdict is None]
    if silent:
        yield _asked(derived, silent)


def _plugged(circuit: Circuit, verdict: Verdict) -> Finding:
    return Finding(
        code="disconnect-plug",
        severity=Severity.FIX,
        subject=circuit.tag,
        says=f"the plug on {circuit.tag} ({circuit.name}) can't be reached, so it disconnects nothing",
        rule=_RULE,
        source=verdict.working.source,
        numbers=verdict.working.inputs,
        answer=("circuit", circuit.tag, "receptacle_accessible"),
        remedies=(
            Remedy(
                "set the receptacle where the plug is reached, for a range by taking out its drawer",
                (Edit("circuit", circuit.tag, "receptacle_accessible", value=True),),
            ),
        ),
    )


def _wired(derived: Derived, circuit: Circuit, verdict: Verdict) -> Finding:
    means = next(change.disconnect for change in derived.job.circuit if change.circuit == circuit.tag)
    return Finding(
        code="disconnect-out-of-sight",
        severity=Severity.FIX,
        subject=circuit.tag,
        says=f"{circuit.tag} ({circuit.name}) counts on a {means}, but {'; '.join(verdict.reasons)}",
        rule=_RULE,
        source=verdict.working.source,
        numbers=verdict.working.inputs,
        answer=("circuit", circuit.tag, "disconnect"),
        remedies=(_lock((circuit.tag,)),),
    )


def _asked(derived: Derived, silent: list[Disconnect]) -> Finding:
    """One question for all of them: they end at one panel."""
    tags = tuple(item.circuit.tag for item in silent)
    panel = next((item.tag for item in derived.selection.enclosures if item.kind == "panel"), "panel")
    large = rule("disconnect_large", derived.job.adopted)
    return Finding(
        code="disconnect-open",
        severity=Severity.CHECK,
        subject=panel,
        says=f"nobody says what disconnects what is wired in on {', '.join(tags)}; the electrician decides",
        rule=_RULE,
        source=large.source,
        numbers=tuple(Input(item.circuit.tag, f"{item.load_va:.0f} VA", "plan") for item in silent),
        answer=("circuit", tags[0], "disconnect"),
        remedies=(_lock(tags),),
    )


def _lock(tags: tuple[str, ...]) -> Remedy:
    words = f"fit {'locks' if len(tags) > 1 else 'a lock'} that stay on the breaker for {', '.join(tags)}"
    return Remedy(words, tuple(Edit("circuit", tag, "disconnect", "lockable breaker") for tag in tags))
