"""What would put a landing right, in words: which entry of the equipment sheet to correct, and where it may land.

A job edits none of it: a wire's ends are the maker's. What the job bought thicker is taken back by an edit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.sheet.hardware import POWER_LIMITED

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.connections.graph import Connections
    from schedules.connections.points import Conductor, Landing, Point, Refusal
    from schedules.derived import Derived

_SHEET = "in the equipment sheet, "

CHOOSE_FIRST = Remedy("let the choices stand together first: with those that don't, wires are missing")
"""What is wanting at a terminal may follow from choices that can't be built."""


def end_it(refusal: Refusal) -> Remedy:
    """A conductor or fitted wire that ends on nothing that is there."""
    return Remedy(
        f"{_SHEET}correct `from` or `to` of {refusal.key}, or let it come (`when`) only with the choices that bring "
        "both its terminals; a number may stand once"
    )


def rejoin(connections: Connections, conductor: Conductor) -> Remedy:
    """A conductor between two potentials: the one it was swapped with, else free terminals of its own potential."""
    a, b = connections.landings[conductor.a], connections.landings[conductor.b]
    core = f"core {conductor.core} of {conductor.cable}"
    partner = _swapped_with(connections, conductor)
    if partner is not None:
        return Remedy(
            f"{_SHEET}exchange the ends of conductors {conductor.number} and {partner} in {a.enclosure} or in "
            f"{b.enclosure}, not in both"
        )
    free = (
        *_free(connections, b.enclosure, a.potential, b),
        *_free(connections, a.enclosure, b.potential, a),
    )
    if free:
        return Remedy(f"{_SHEET}land {core} on a free terminal of its potential: {' or '.join(free)}")
    return Remedy(
        f"{_SHEET}land {core} on two terminals of one potential, or correct `potential` of {a.point} or {b.point}"
    )


def refit(derived: Derived, conductor: Conductor, landing: Landing) -> Iterator[Remedy]:
    """A conductor of another size than the terminal takes: as the sheet has it, as thick as fits, or by hand."""
    clamp = landing.clamp
    if clamp is None:
        return
    run = next((item for item in derived.job.run if item.cable == conductor.cable), None)
    for key in ("size", "ground"):
        if run is not None and getattr(run, key) == conductor.size:
            edit = Edit("run", conductor.cable, key, None)
            yield Remedy(f"buy {conductor.cable} with the {key} that the sheet gives it", (edit,))
            if conductor.size > clamp.largest:
                edit = Edit("run", conductor.cable, key, str(clamp.largest))
                yield Remedy(f"buy {conductor.cable} with {clamp.largest} as its {key}", (edit,))
    yield Remedy(
        f"{_SHEET}give core {conductor.core} of {conductor.cable} a `size` from {clamp.smallest} to {clamp.largest}, "
        f"or correct clamp {clamp.id} by what the maker states for {landing.point}"
    )


def spread(connections: Connections, landing: Landing, holds: int) -> Remedy:
    """Too many conductors on one terminal: free ones of its potential, else one tail that takes them all."""
    free = _free(connections, landing.enclosure, landing.potential, landing)
    if free:
        return Remedy(f"{_SHEET}land all but {holds} of them on {' or '.join(free)}")
    clamp = landing.clamp
    stated = f"; or correct `holds` of clamp {clamp.id} by what the maker states" if clamp is not None else ""
    return Remedy(
        f"{_SHEET}join them in a splice (a device whose terminals are linked) and land one tail of it{stated}"
    )


def land(landing: Landing) -> Remedy:
    """A terminal that waits for a conductor."""
    return Remedy(
        f"{_SHEET}land a core of {landing.potential} on {landing.point}, or say by its `land` that these choices leave "
        "it empty"
    )


def clear(landing: Landing, numbers: str) -> Remedy:
    """A terminal that is to stay empty."""
    return Remedy(
        f'{_SHEET}land {numbers} elsewhere, or take `land = "never"` from {landing.point} if the maker wires it'
    )


def bridge(potential: str, islands: Iterable[Point]) -> Remedy:
    """Terminals of one potential that nothing joins."""
    names = " and ".join(str(point) for point in islands)
    return Remedy(
        f"{_SHEET}lead a core, or a link within one device, between {names}; or name their potentials apart if they "
        f"are not both {potential}"
    )


def declass(conductor: Conductor, landing: Landing) -> Remedy:
    """A conductor of one class on a terminal of the other kind."""
    kind = "power-limited" if landing.circuit_class in POWER_LIMITED else "power"
    return Remedy(
        f"{_SHEET}land core {conductor.core} of {conductor.cable} on a terminal of class {conductor.circuit_class}, "
        f"lead {landing.point} by a {kind} cable of its own, or correct the `class` that is wrong"
    )


def _swapped_with(connections: Connections, conductor: Conductor) -> str | None:
    """The number of a conductor between the same two enclosures that joins the same two potentials the other way."""
    wanted = _ends(connections, conductor)[::-1]
    for other in connections.conductors.values():
        here, there = _ends(connections, other)
        if other.cable == conductor.cable and (here[1], there[1]) == (wanted[0][1], wanted[1][1]):
            return other.number
    return None


def _ends(connections: Connections, conductor: Conductor) -> tuple[tuple[str, str], tuple[str, str]]:
    a, b = connections.landings[conductor.a], connections.landings[conductor.b]
    return (a.enclosure, a.potential), (b.enclosure, b.potential)


def _free(connections: Connections, enclosure: str, potential: str, besides: Landing) -> tuple[str, ...]:
    """Terminals of this potential in one enclosure that take one more conductor."""
    return tuple(
        str(point)
        for point, landing in connections.landings.items()
        if (landing.enclosure, landing.potential) == (enclosure, potential)
        and point != besides.point
        and not landing.empty_on_purpose
        and not landing.wired_by_maker
        and len(connections.landed(point)) < (landing.clamp.holds if landing.clamp is not None else 1)
    )
