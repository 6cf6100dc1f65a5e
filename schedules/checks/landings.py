"""Does every conductor have two ends where it belongs, and every terminal what it may hold?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.connections.incidence import conducting, nets
from schedules.findings import Finding, Severity
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.graph import Connections
    from schedules.connections.points import Conductor, Landing, Point
    from schedules.derived import Derived

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_landings(derived: Derived) -> Iterator[Finding]:
    """Check ends, terminal capacity, wire size, needed terminals and what each conductor joins."""
    connections = derived.connections
    yield from _refused(connections)
    for conductor in connections.conductors.values():
        yield from _joined(connections, conductor)
    for point, landing in connections.landings.items():
        yield from _terminal(landing, connections.landed(point))
    yield from _parted(connections)


def _refused(connections: Connections) -> Iterator[Finding]:
    for refusal in connections.refusals:
        yield Finding(
            code="conductor-without-end",
            severity=Severity.STOP,
            subject=refusal.key,
            says=f"conductor {refusal.key} can't be landed: {refusal.reason}",
            rule="every conductor has two ends on terminals that exist",
            source=_SHEET,
            answer=("", None, "choices"),
        )


def _joined(connections: Connections, conductor: Conductor) -> Iterator[Finding]:
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
            )


def _terminal(landing: Landing, landed: tuple[Conductor, ...]) -> Iterator[Finding]:
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
        )
    if landing.needed and not landed:
        yield Finding(
            code="terminal-empty",
            severity=Severity.STOP,
            subject=str(landing.point),
            says=f"terminal {landing.point} ({landing.potential}) needs a conductor with these options",
            rule="every terminal that the chosen options need is landed",
            source=_SHEET,
        )
    if landing.empty_on_purpose and landed:
        yield Finding(
            code="terminal-reserved",
            severity=Severity.STOP,
            subject=str(landing.point),
            says=f"terminal {landing.point} is to stay empty, but {numbers} lands on it",
            rule="a terminal that the maker keeps empty stays empty",
            source=_SHEET,
        )


def _parted(connections: Connections) -> Iterator[Finding]:
    """Needed terminals of one potential are one net; a missing conductor parts them."""
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
            )
