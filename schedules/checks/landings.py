"""Does every conductor have two ends where it belongs, and every terminal what it may hold?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.checks.landing_remedies import (
    CHOOSE_FIRST,
    bridge,
    clear,
    end_it,
    land,
    refit,
    rejoin,
    spread,
)
from schedules.connections.incidence import conducting, nets
from schedules.findings import Finding, Severity
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.points import Conductor, Landing, Point
    from schedules.derived import Derived
    from schedules.findings import Remedy

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_landings(derived: Derived) -> Iterator[Finding]:
    """Check ends, terminal capacity, wire size, needed terminals and what each conductor joins."""
    connections = derived.connections
    yield from _refused(derived)
    for conductor in connections.conductors.values():
        yield from _joined(derived, conductor)
    for landing in connections.landings.values():
        yield from _terminal(derived, landing)
    yield from _parted(derived)


def _refused(derived: Derived) -> Iterator[Finding]:
    for refusal in derived.connections.refusals:
        yield Finding(
            code="conductor-without-end",
            severity=Severity.STOP,
            subject=refusal.key,
            says=f"conductor {refusal.key} can't be landed: {refusal.reason}",
            rule="every conductor has two ends on terminals that exist",
            source=_SHEET,
            answer=("", None, "choices"),
            remedies=(_wanting(derived, end_it(refusal)),),
        )


def _joined(derived: Derived, conductor: Conductor) -> Iterator[Finding]:
    connections = derived.connections
    a, b = connections.landings[conductor.a], connections.landings[conductor.b]
    if a.potential != b.potential:
        yield Finding(
            code="potentials-joined",
            severity=Severity.STOP,
            subject=conductor.number,
            says=(
                f"conductor {conductor.number} joins {a.point} ({a.potential}) "
                f"to {b.point} ({b.potential}), which are different potentials"
            ),
            rule="a conductor joins two terminals of one potential",
            source=_SHEET,
            numbers=(Input(str(a.point), a.potential, "sheet"), Input(str(b.point), b.potential, "sheet")),
            remedies=(rejoin(connections, conductor),),
        )
    for landing in (a, b):
        clamp = landing.clamp
        if clamp is not None and not clamp.smallest <= conductor.size <= clamp.largest:
            yield Finding(
                code="terminal-size",
                severity=Severity.STOP,
                subject=str(landing.point),
                says=(
                    f"terminal {landing.point} takes {clamp.smallest} to {clamp.largest}, "
                    f"conductor {conductor.number} is {conductor.size}"
                ),
                rule="a terminal holds only the conductor sizes that its maker states",
                source=_SHEET,
                numbers=(Input("conductor", str(conductor.size), "sheet"),),
                remedies=tuple(refit(derived, conductor, landing)),
            )


def _terminal(derived: Derived, landing: Landing) -> Iterator[Finding]:
    connections = derived.connections
    landed = connections.landed(landing.point)
    numbers = ", ".join(conductor.number for conductor in landed)
    holds = landing.clamp.holds if landing.clamp is not None else 1
    if len(landed) > holds:
        yield Finding(
            code="terminal-full",
            severity=Severity.STOP,
            subject=str(landing.point),
            says=f"terminal {landing.point} holds {holds}, but {len(landed)} conductors land on it: {numbers}",
            rule="a terminal holds no more conductors than its maker states; one where nothing is stated",
            source=_SHEET,
            numbers=(Input("allowed", str(holds), "sheet"), Input("present", str(len(landed)), "plan")),
            remedies=(spread(connections, landing, holds),),
        )
    if landing.needed and not landed:
        yield Finding(
            code="terminal-empty",
            severity=Severity.STOP,
            subject=str(landing.point),
            says=f"terminal {landing.point} ({landing.potential}) needs a conductor with these options",
            rule="every terminal that the chosen options need is landed",
            source=_SHEET,
            remedies=(_wanting(derived, land(landing)),),
        )
    if landing.empty_on_purpose and landed:
        yield Finding(
            code="terminal-reserved",
            severity=Severity.STOP,
            subject=str(landing.point),
            says=f"terminal {landing.point} is to stay empty, but {numbers} lands on it",
            rule="a terminal that the maker keeps empty stays empty",
            source=_SHEET,
            remedies=(clear(landing, numbers),),
        )


def _parted(derived: Derived) -> Iterator[Finding]:
    """Needed terminals of one potential are one net; a missing conductor parts them."""
    connections = derived.connections
    index = nets(connections, conducting(connections))
    by_potential: dict[str, list[Point]] = {}
    for point, landing in connections.landings.items():
        if landing.needed:
            by_potential.setdefault(landing.potential, []).append(point)
    for potential, points in by_potential.items():
        islands: dict[int, Point] = {}
        for point in points:
            islands.setdefault(index[point], point)
        if len(islands) > 1:
            names = " and ".join(str(point) for point in islands.values())
            yield Finding(
                code="potential-parted",
                severity=Severity.STOP,
                subject=potential,
                says=f"{names} are both {potential}, but no conductor joins them",
                rule="terminals of one potential are joined",
                source=_SHEET,
                numbers=(Input("separate parts", str(len(islands)), "plan"),),
                remedies=(_wanting(derived, bridge(potential, islands.values())),),
            )


def _wanting(derived: Derived, remedy: Remedy) -> Remedy:
    """What cures a wire that is missing: nobody mends a sheet for choices that it says can't be built."""
    return CHOOSE_FIRST if derived.conflicts else remedy
