"""Can whatever is wired in or plugged in be disconnected where somebody works on it?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.circuits.disconnects import Sight, by_plug, wired_in
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.sheet.hardware import Load
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.derived import Derived
    from schedules.job.electrical import CircuitChange
    from schedules.job.records import Place

_RULE = "an appliance is disconnected by a plug in reach, a breaker that locks open, or a breaker or switch in sight"


def check_disconnecting(derived: Derived) -> Iterator[Finding]:
    """Report what can't be disconnected so, and ask once for all circuits that nobody speaks of."""
    changes = {item.circuit: item for item in derived.job.circuit}
    silent = []
    for planned in derived.branches:
        if not (planned.hood or planned.circuit.serves == "cooking") or planned.need.drawn_a <= 0:
            continue
        change = changes.get(planned.circuit.tag)
        if planned.circuit.connection == "cord":
            yield from _plugged(derived, planned)
        elif change is None or change.disconnect is None:
            # A cooking circuit of which nobody says how it ends is asked about that first.
            if planned.hood or planned.circuit.connection is not None:
                silent.append(planned)
        else:
            yield from _wired(derived, planned, change)
    if silent:
        yield _asked(derived, silent)


def _plugged(derived: Derived, planned: CircuitPlan) -> Iterator[Finding]:
    """A hood's plug that can't be reached is told by the check on its cord."""
    circuit, edition = planned.circuit, derived.job.adopted
    if planned.hood or circuit.receptacle_accessible is not False:
        return
    verdict = by_plug(reachable=False, range_plug=circuit.serves == "cooking", edition=edition)
    yield Finding(
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


def _wired(derived: Derived, planned: CircuitPlan, change: CircuitChange) -> Iterator[Finding]:
    if change.disconnect is None:
        return
    circuit = planned.circuit
    verdict = wired_in(
        load_va=_load_va(planned),
        motor=_motor(derived, planned),
        means=change.disconnect,
        sight=_sight(derived, planned),
        edition=derived.job.adopted,
    )
    if not verdict.holds:
        yield Finding(
            code="disconnect-out-of-sight",
            severity=Severity.FIX,
            subject=circuit.tag,
            says=f"{circuit.tag} ({circuit.name}) counts on a {change.disconnect}, but {'; '.join(verdict.reasons)}",
            rule=_RULE,
            source=verdict.working.source,
            numbers=verdict.working.inputs,
            answer=("circuit", circuit.tag, "disconnect"),
            remedies=(_lock((circuit.tag,)),),
        )


def _asked(derived: Derived, silent: list[CircuitPlan]) -> Finding:
    """One question for all of them: they end at one panel."""
    tags = tuple(planned.circuit.tag for planned in silent)
    panel = next((item.tag for item in derived.selection.enclosures if item.kind == "panel"), "panel")
    large = rule("disconnect_large", derived.job.adopted)
    return Finding(
        code="disconnect-open",
        severity=Severity.CHECK,
        subject=panel,
        says=f"nobody says what disconnects what is wired in on {', '.join(tags)}; the electrician decides",
        rule=_RULE,
        source=large.source,
        numbers=tuple(
            Input(planned.circuit.tag, f"{_load_va(planned):.0f} VA", "plan") for planned in silent
        ),
        answer=("circuit", tags[0], "disconnect"),
        remedies=(_lock(tags),),
    )


def _lock(tags: tuple[str, ...]) -> Remedy:
    words = f"fit {'locks' if len(tags) > 1 else 'a lock'} that stay on the breaker for {', '.join(tags)}"
    return Remedy(words, tuple(Edit("circuit", tag, "disconnect", "lockable breaker") for tag in tags))


def _load_va(planned: CircuitPlan) -> float:
    return planned.need.drawn_a * planned.need.volts


def _motor(derived: Derived, planned: CircuitPlan) -> bool:
    specs = (derived.connections.inside[key].spec for key in planned.need.feeds)
    return any(isinstance(spec, Load) and spec.motor for spec in specs)


def _sight(derived: Derived, planned: CircuitPlan) -> Sight:
    """From the panel to the nearest thing that the circuit feeds, as far as both are measured along one wall."""
    places = {place.enclosure: place for place in derived.job.place}
    panel = next((item.tag for item in derived.selection.enclosures if item.kind == "panel"), None)
    here = places.get(panel) if panel is not None else None
    if here is None:
        return Sight(same_room=True, distance_in=None)
    landings, inside = derived.connections.landings, derived.connections.inside
    fed = {landings[inside[key].a].enclosure for key in planned.need.feeds}
    away = [
        distance
        for tag in sorted(fed)
        if tag in places and (distance := _distance_in(here, places[tag])) is not None
    ]
    return Sight(here.stands in ("wall", "free"), max(away, default=None))


def _distance_in(one: Place, other: Place) -> float | None:
    if one.wall != other.wall:
        return None
    here, there = (one.along, one.out, one.up), (other.along, other.out, other.up)
    if None in here or None in there:
        return None
    return math.dist([value or 0.0 for value in here], [value or 0.0 for value in there])
