"""Which contacts are closed and what is energised once everything has settled, as switches see it.

Conductors are taken as perfect and loads as not passing current on: enough to tell what a signal opens.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.incidence import conducting, net_index, nets
from schedules.sheet.hardware import Coil, Contact, Load, Supply

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.graph import Connections
    from schedules.points import Inside, Point


@dataclass(frozen=True, slots=True)
class Situation:
    """A settled state: signals that are set, keys of closed contacts, keys of energised loads and coils.

    settled is False where contacts and coils chase each other without end.
    """

    signals: frozenset[str]
    closed: frozenset[str]
    energised: frozenset[str]
    settled: bool


def settle(connections: Connections, outside: frozenset[str]) -> Situation:
    """Let contacts follow signals and coils drive signals until nothing changes.

    outside: the signals that people, heat or fire set.
    """
    situation = Situation(outside, frozenset(), frozenset(), settled=False)
    coils = sum(1 for inside in connections.inside.values() if isinstance(inside.spec, Coil))
    # Each round that is no repetition picks up or drops at least one coil of a chain.
    for _ in range(2 * coils + 2):
        following = _step(connections, outside, situation)
        if (following.signals, following.closed) == (situation.signals, situation.closed):
            return Situation(following.signals, following.closed, following.energised, settled=True)
        situation = following
    return situation


def is_closed(contact: Contact, signals: frozenset[str]) -> bool:
    """Whether a contact is closed while these signals are set: it leaves shelf state while its condition holds."""
    return contact.operates.holds(signals) == (contact.form == "NO")


def _step(connections: Connections, outside: frozenset[str], before: Situation) -> Situation:
    closed = frozenset(
        key
        for key, inside in connections.inside.items()
        if isinstance(inside.spec, Contact) and is_closed(inside.spec, before.signals)
    )
    energised = frozenset(_energised(connections, closed))
    driven = {
        inside.spec.drives
        for key, inside in connections.inside.items()
        if isinstance(inside.spec, Coil) and (key in energised or _held(inside.spec, before.signals))
    }
    return Situation(outside | driven, closed, energised, settled=False)


def _held(coil: Coil, signals: frozenset[str]) -> bool:
    """A latching coil's signal stays until a hand resets it."""
    return coil.latches and coil.drives in signals


def _energised(connections: Connections, closed: frozenset[str]) -> Iterator[str]:
    """Find the loads and coils that have a voltage across them."""
    joins = conducting(connections)
    index = net_index(nets(connections, lambda key: key in closed or joins(key)))
    users = {key: inside for key, inside in connections.inside.items() if isinstance(inside.spec, Load | Coil)}
    live: set[str] = set()
    # A transformer's secondary is live once its primary is: each round can wake supplies of the next tier.
    while True:
        levels = _levels(connections, index, live)
        woken = {key for key, inside in users.items() if _has_voltage(inside, index, levels)}
        if woken == live:
            yield from sorted(live)
            return
        live = woken


def _has_voltage(inside: Inside, index: Mapping[Point, int], levels: Mapping[int, tuple[int, float]]) -> bool:
    a, b = levels.get(index[inside.a]), levels.get(index[inside.b])
    return a is not None and b is not None and a[0] == b[0] and a[1] != b[1]


def _levels(connections: Connections, index: Mapping[Point, int], live: set[str]) -> dict[int, tuple[int, float]]:
    """Give each net that a live supply reaches its (island, volts), by walking the supplies."""
    poles: dict[int, list[tuple[int, float]]] = {}
    for inside in connections.inside.values():
        spec = inside.spec
        if isinstance(spec, Supply) and _is_live(inside, spec, live):
            a, b = index[inside.a], index[inside.b]
            poles.setdefault(a, []).append((b, -spec.volts))
            poles.setdefault(b, []).append((a, spec.volts))
    levels: dict[int, tuple[int, float]] = {}
    for island, start in enumerate(sorted(poles)):
        if start in levels:
            continue
        levels[start] = (island, 0.0)
        waiting = [start]
        while waiting:
            net = waiting.pop()
            for other, step in poles[net]:
                if other not in levels:
                    levels[other] = (island, levels[net][1] + step)
                    waiting.append(other)
    return levels


def _is_live(inside: Inside, supply: Supply, live: set[str]) -> bool:
    return supply.fed_by is None or f"{inside.a.device}.{supply.fed_by}" in live
