"""Is every load's circuit complete, every metal enclosure grounded, every neutral its own circuit's?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.connections.incidence import conducting, conducting_or_contact, nets
from schedules.connections.points import Point
from schedules.findings import Finding, Remedy, Severity
from schedules.sheet.breakers import MAINS
from schedules.sheet.hardware import Coil, Load, Supply
from schedules.tables import rule
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.connections.graph import Connections
    from schedules.derived import Derived

_DERIVED = Source("the connection graph", Confidence.DERIVED)


def check_supply(derived: Derived) -> Iterator[Finding]:
    """Check lines and returns of loads, equipment grounding and neutrals."""
    yield from _incomplete(derived.connections)
    yield from _ungrounded(derived)
    yield from _shared_neutrals(derived)


def _incomplete(connections: Connections) -> Iterator[Finding]:
    """With every contact closed, a load's two ends reach two different poles of one source."""
    index = nets(connections, conducting_or_contact(connections))
    islands = _islands(connections, index)
    for key, inside in connections.inside.items():
        if not isinstance(inside.spec, Load | Coil):
            continue
        a, b = index[inside.a], index[inside.b]
        if a == b:
            problem = f"both ends of {key} are on one net: it is short-circuited"
            cure = f"take out the core, link or wire that joins {inside.a} and {inside.b}"
        elif a in islands and b in islands and islands[a] == islands[b]:
            continue
        else:
            loose = [str(end) for end, net in ((inside.a, a), (inside.b, b)) if net not in islands]
            problem = f"{key} has no way to a source from {' and '.join(loose) or 'one source at both ends'}"
            cure = (
                f"lead a core from {' and '.join(loose)} to the source that feeds the rest of it"
                if loose
                else f"lead {inside.a} and {inside.b} to the two poles of one source"
            )
        yield Finding(
            code="load-incomplete",
            severity=Severity.STOP,
            subject=key,
            says=problem,
            rule="every load has a line and a return to one source",
            source=_DERIVED,
            remedies=(Remedy(f"in the equipment sheet, {cure}"),),
        )


def _islands(connections: Connections, index: Mapping[Point, int]) -> dict[int, int]:
    """Number the nets that supplies join: nets of one source have one number."""
    islands: dict[int, int] = {}
    for inside in connections.inside.values():
        if isinstance(inside.spec, Supply):
            a, b = index[inside.a], index[inside.b]
            old, new = islands.get(b, b), islands.get(a, a)
            islands.setdefault(a, new)
            islands.setdefault(b, old)
            islands = {net: new if island == old else island for net, island in islands.items()}
    return islands


def _ungrounded(derived: Derived) -> Iterator[Finding]:
    """From each metal enclosure's bond, grounding conductors alone lead to the panel's bar."""
    connections, landings = derived.connections, derived.connections.landings
    joins = conducting(connections)

    def grounds(key: str) -> bool:
        edge = connections.conductors.get(key) or connections.inside[key]
        return joins(key) and landings[edge.a].carries == landings[edge.b].carries == "ground"

    index = nets(connections, grounds)
    bar = index[Point(MAINS, "PE")]
    section = rule("box_bonding", derived.job.adopted)
    for enclosure in derived.selection.enclosures:
        if not enclosure.metal or enclosure.kind == "panel":
            continue
        bonds = [point for point in connections.bonds if landings[point].enclosure == enclosure.tag]
        if any(index[point] == bar for point in bonds):
            continue
        why = "no equipment-grounding path to the panel" if bonds else "no terminal bonded to its metal"
        cure = (
            f"lead a grounding core of a cable that comes from the panel to {' or '.join(map(str, bonds))}"
            if bonds
            else f"fasten a grounding terminal to the metal of {enclosure.tag} (an element of kind `bond`)"
        )
        yield Finding(
            code="enclosure-ungrounded",
            severity=Severity.STOP,
            subject=enclosure.tag,
            says=f"metal enclosure {enclosure.tag} ({enclosure.name}) has {why}",
            rule="every metal enclosure has an unbroken equipment-grounding path to the panel",
            source=section.source,
            remedies=(Remedy(f"in the equipment sheet, {cure}"),),
        )


def _shared_neutrals(derived: Derived) -> Iterator[Finding]:
    """Behind the panel's neutral bar, no net holds the neutrals of two circuits unless both are multiwire."""
    connections = derived.connections
    joins = conducting_or_contact(connections)
    index = nets(
        connections, lambda key: joins(key) and not key.endswith((".neutral-bar", ".main-bonding-jumper"))
    )
    circuits = {item.tag: item for item in derived.selection.circuits if item.neutral}
    by_net: dict[int, list[str]] = {}
    for tag in circuits:
        by_net.setdefault(index[Point(tag, "N")], []).append(tag)
    for tags in by_net.values():
        if len(tags) > 1 and not all(circuits[tag].multiwire for tag in tags):
            yield Finding(
                code="neutral-shared",
                severity=Severity.STOP,
                subject=tags[0],
                says=f"the neutrals of {' and '.join(tags)} are joined beyond the panel",
                rule="each circuit has its own neutral, unless it is a multiwire circuit whose poles open together",
                source=rule("multiwire_disconnect", derived.job.adopted).source,
                remedies=(
                    Remedy(
                        f"in the equipment sheet, take each of {' and '.join(tags)} its own neutral core back to the "
                        "panel; or, if the maker means one multiwire circuit, mark all of them `multiwire`"
                    ),
                ),
            )
    yield from _borrowed_neutrals(derived, index, {net: tags[0] for net, tags in by_net.items()})


def _borrowed_neutrals(
    derived: Derived, index: Mapping[Point, int], home: Mapping[int, str]
) -> Iterator[Finding]:
    """A load fed by one breaker returns on a neutral of the same one."""
    upstream = {
        item.circuit: item.downstream_of for item in derived.job.circuit if item.downstream_of is not None
    }
    for need in derived.circuits:
        tag = need.circuit.tag
        if not need.circuit.neutral:
            continue
        for key in need.feeds:
            inside = derived.connections.inside[key]
            returns = {home[index[end]] for end in (inside.a, inside.b) if index[end] in home}
            if returns and not any(tag in (other, upstream.get(other)) for other in returns):
                yield Finding(
                    code="neutral-borrowed",
                    severity=Severity.STOP,
                    subject=key,
                    says=f"{key} is fed by {tag} but returns on the neutral of {min(returns)}",
                    rule="a load returns on the neutral of the circuit that feeds it",
                    source=_DERIVED,
                    remedies=(
                        Remedy(f"in the equipment sheet, lead the return of {key} to the neutral of {tag}"),
                    ),
                )
