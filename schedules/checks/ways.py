"""Is each way free, and what lies together on it?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.checks.separation import is_limited
from schedules.findings import Finding, Severity
from schedules.quantities.lengths import format_length
from schedules.site.routes import Unmeasured
from schedules.site.shared_ways import pieces, shared_lengths
from schedules.tables import rule
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.site.legs import Leg
    from schedules.site.room import PlacedWall
    from schedules.site.routes import Route

_SITE = Source("measured on site", Confidence.JOB)


def check_ways(derived: Derived) -> Iterator[Finding]:
    """Report ways through what is barred, runs that leave the cabinets, and cables that share a way."""
    routes = {item.cable: item.route for item in derived.lengths if not isinstance(item.route, Unmeasured)}
    for cable, route in routes.items():
        yield from _barred(cable, route)
        yield from _outside_cabinets(derived, cable, route)
    # Without measured walls nobody knows whose way goes where.
    if derived.room is not None:
        yield from _together(derived, routes)


def _barred(cable: str, route: Route) -> Iterator[Finding]:
    if route.through:
        yield Finding(
            code="way-barred",
            severity=Severity.STOP,
            subject=cable,
            says=f"no way of this kind is free: the shortest one of {cable} passes {', '.join(route.through)}",
            rule="a cable goes through nothing that is barred to it",
            source=_SITE,
            answer=("run", cable, "route"),
        )


def _outside_cabinets(derived: Derived, cable: str, route: Route) -> Iterator[Finding]:
    room = derived.room
    if room is None or not any(wall.cabinets for wall in room.walls):
        return
    open_in = 0.0
    for wall in room.walls:
        legs = [leg for leg in route.legs if leg.medium == "in cabinets" and leg.wall == wall.tag]
        open_in += sum(_uncovered(wall, leg) for leg in legs)
    if open_in > derived.job.site.tolerance:
        yield Finding(
            code="outside-cabinets",
            severity=Severity.CHECK,
            subject=cable,
            says=f"{format_length(open_in)} of the way of {cable} through cabinets lies in no measured cabinet",
            rule="what is said to run in cabinets lies in them, else it is to be protected in another way",
            source=_SITE,
            answer=("run", cable, "route"),
        )


def _uncovered(wall: PlacedWall, leg: Leg) -> float:
    """How much of a level leg no cabinet covers [in]."""
    if leg.upright:
        return 0.0
    start, end = sorted((wall.local(leg.start)[0], wall.local(leg.end)[0]))
    height = leg.start[2]
    covered = 0.0
    reached = start
    for cabinet in sorted(wall.cabinets, key=lambda item: item.zone.left):
        if cabinet.carries and cabinet.zone.bottom <= height <= cabinet.zone.top:
            left, right = max(reached, cabinet.zone.left), min(end, cabinet.zone.right)
            covered += max(0.0, right - left)
            reached = max(reached, right)
    return end - start - covered


def _together(derived: Derived, routes: dict[str, Route]) -> Iterator[Finding]:
    """Cables on one way: power-limited ones keep apart from power, power ones warm each other if they lie together."""
    limited = {cable.tag for cable in derived.selection.cables if is_limited(cable.circuit_class)}
    lengths = shared_lengths(pieces({cable: route.legs for cable, route in routes.items()}))
    mixed = {
        cables: length
        for cables, length in lengths.items()
        if 0 < sum(tag in limited for tag in cables) < len(cables)
    }
    if mixed:
        gap = rule("class_2_elsewhere_gap", derived.job.adopted)
        yield _shared(
            "classes-on-one-way",
            f"power-limited and power cables go the same way; where neither is in a raceway or a cable of its own they "
            f"keep {gap.number:g} {gap.unit} apart",
            mixed,
            gap.source,
        )
    apart = rule("bundling_length", derived.job.adopted)
    declared = [set(bundle.cables) for bundle in derived.job.bundle]
    warm = {
        power: length
        for cables, length in lengths.items()
        if len(power := tuple(tag for tag in cables if tag not in limited)) > 1
        and length > apart.number
        and not any(set(power) <= bundle for bundle in declared)
    }
    if warm:
        yield _shared(
            "power-on-one-way",
            "power cables go the same way: fasten them with air between them, or say that they lie bundled",
            warm,
            apart.source,
        )


def _shared(code: str, says: str, lengths: dict[tuple[str, ...], float], source: Source) -> Finding:
    return Finding(
        code=code,
        severity=Severity.NOTE,
        subject="ways",
        says=says,
        rule="what lies together is judged together",
        source=source,
        numbers=tuple(
            Input(", ".join(cables), f"{format_length(length)} together", "plan")
            for cables, length in lengths.items()
        ),
    )
