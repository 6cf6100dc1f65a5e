"""Do the controls keep their supply when the fire contact opens what it opens?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.connections.incidence import conducting, nets
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.network.settling import settle
from schedules.sheet.hardware import Contact, Load, Supply
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.graph import Connections
    from schedules.connections.points import Inside
    from schedules.derived import Derived

_PRACTICE = Source("controls fed ahead of what the fire contact opens", Confidence.COMMON_PRACTICE)


def check_fire(derived: Derived) -> Iterator[Finding]:
    """Cut the graph at every contact that a fire opens: the controls must still reach their source."""
    connections = derived.connections
    opened = opened_by_fire(derived)
    contacts = {key for key, inside in connections.inside.items() if isinstance(inside.spec, Contact)}
    whole = _fed(connections, contacts)
    cut = _fed(connections, contacts - opened)
    effects = {item.id: item for item in derived.sheet.effect}
    for key, inside in connections.inside.items():
        if not isinstance(inside.spec, Load) or effects[inside.spec.effect].kind != "controls":
            continue
        if key in whole and key not in cut:
            yield _finding(derived, key, opened)


def opened_by_fire(derived: Derived) -> frozenset[str]:
    """Keys of the contacts and breakers that are closed when armed and open after a release, whatever is cooking."""
    fire = frozenset(
        signal.id for signal in derived.sheet.signal if signal.fire and signal.set_by == "outside"
    )
    others = frozenset(
        signal.id for signal in derived.sheet.signal if not signal.fire and signal.set_by == "outside"
    )
    opened: frozenset[str] = frozenset()
    for calling in (frozenset[str](), others):
        armed = settle(derived.network, calling).closed_keys
        for release in (frozenset({name}) for name in sorted(fire)):
            opened |= armed - settle(derived.network, calling | release).closed_keys
    return opened


def _fed(connections: Connections, closed: set[str] | frozenset[str]) -> frozenset[str]:
    """Loads whose two ends reach a source's poles over these contacts, a transformer's only if it is fed itself."""
    joins = conducting(connections)
    index = nets(connections, lambda key: key in closed or joins(key))
    loads = {key: inside for key, inside in connections.inside.items() if isinstance(inside.spec, Load)}
    fed: set[str] = set()
    while True:
        poles = {
            index[end]
            for inside in connections.inside.values()
            if isinstance(inside.spec, Supply) and _alive(inside, inside.spec, fed)
            for end in (inside.a, inside.b)
        }
        now = {key for key, inside in loads.items() if {index[inside.a], index[inside.b]} <= poles}
        if now == fed:
            return frozenset(fed)
        fed = now


def _alive(inside: Inside, supply: Supply, fed: set[str]) -> bool:
    return supply.fed_by is None or f"{inside.a.device}.{supply.fed_by}" in fed


def _finding(derived: Derived, key: str, opened: frozenset[str]) -> Finding:
    blocking = sorted(_passed(derived.connections, key, opened))
    circuits = [item for item in derived.job.circuit if item.downstream_of is not None]
    names = ", ".join(blocking) or "the fire contact"
    remedies = (Remedy("feed the controls by a breaker of their own that no fire contact opens"),)
    answer = None
    if circuits:
        change = circuits[0]
        answer = ("circuit", change.circuit, "downstream_of")
        words = f"take {change.circuit} from a breaker of its own, not from {change.downstream_of}"
        remedies = (Remedy(words, (Edit(*answer, None),)),)
    return Finding(
        code="controls-cut-by-fire",
        severity=Severity.STOP,
        subject=key,
        says=(
            f"the supply of {key} passes {names}, which this equipment's fire contact opens: "
            "in a fire the controls go dead"
        ),
        rule="the controls' own supply never passes a breaker or contactor that the equipment's fire contact opens",
        source=_PRACTICE,
        numbers=tuple(Input("opens in a fire", item, "situation") for item in blocking),
        answer=answer,
        remedies=remedies,
    )


def _passed(connections: Connections, key: str, opened: frozenset[str]) -> frozenset[str]:
    """The opened contacts, each of which alone closed again would give the load its supply back."""
    contacts = {name for name, inside in connections.inside.items() if isinstance(inside.spec, Contact)}
    return frozenset(name for name in opened if key in _fed(connections, contacts - (opened - {name})))
