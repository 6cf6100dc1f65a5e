"""Which way does the current take from a breaker to each load and back: over which conductors and contacts?"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.connections.points import Point
from schedules.sheet.breakers import line_terminals
from schedules.sheet.hardware import Contact

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from schedules.connections.graph import Connections
    from schedules.connections.points import Inside
    from schedules.sheet.wiring import Circuit

Joins = dict[Point, list[tuple[str, Point]]]
"""From each point, the edges that current can pass and where they lead."""

Steps = dict[Point, tuple[str, Point] | None]
"""Points reached, each with the edge and the point that it was reached by; None where the walk began."""


@dataclass(frozen=True, slots=True)
class WirePath:
    """One load's way to its circuit's terminals and back: conductors and contacts, each in the order passed."""

    load: str
    conductors: tuple[str, ...]
    contacts: tuple[str, ...]


def joins_of(connections: Connections) -> Joins:
    """Every edge that current passes with all contacts closed: conductors, links, fitted wires, contacts."""
    joins: Joins = {point: [] for point in connections.landings}
    passing = [(key, inside.a, inside.b) for key, inside in connections.inside.items() if _passes(inside)]
    passing += [(key, conductor.a, conductor.b) for key, conductor in connections.conductors.items()]
    for key, a, b in passing:
        joins[a].append((key, b))
        joins[b].append((key, a))
    return joins


def wire_paths(
    circuit: Circuit,
    loads: tuple[str, ...],
    connections: Connections,
    joins: Joins,
    without: frozenset[str] = frozenset(),
) -> tuple[WirePath, ...]:
    """The shortest way, in edges, of each load that has one to two different terminals of its circuit.

    without: contacts that are taken for open, so that another way past them is found.
    """
    reached = _from_terminals(circuit, joins, without)
    found = []
    for key in loads:
        inside = connections.inside[key]
        ways = [_back(reached, end) for end in (inside.a, inside.b)]
        if all(ways) and ways[0][-1] != ways[1][-1]:
            edges = [edge for way in ways for edge in way[:-1]]
            found.append(
                WirePath(
                    key,
                    tuple(edge for edge in edges if edge in connections.conductors),
                    tuple(edge for edge in edges if _is_contact(connections, edge)),
                )
            )
    return tuple(found)


def contacts_before(
    circuit: Circuit, load: str, connections: Connections, joins: Joins
) -> tuple[tuple[str, ...], ...]:
    """Every contact that can carry the whole current of a load: each way's contacts, parallel ways one by one."""
    return tuple(_ways(circuit, load, connections, joins))


def _ways(circuit: Circuit, load: str, connections: Connections, joins: Joins) -> Iterator[tuple[str, ...]]:
    opened: frozenset[str] = frozenset()
    while True:
        paths = wire_paths(circuit, (load,), connections, joins, opened)
        contacts = paths[0].contacts if paths else ()
        if not paths:
            return
        yield contacts
        if not contacts:
            return
        opened |= frozenset(contacts[-1:])


def walk(starts: Iterable[Point], joins: Joins, barred: Callable[[str], bool]) -> Steps:
    """Every point that the starts reach over edges that aren't barred, each with the step that led there."""
    reached: Steps = dict.fromkeys(starts)
    waiting = deque(reached)
    while waiting:
        here = waiting.popleft()
        for key, there in joins[here]:
            if there not in reached and not barred(key):
                reached[there] = (key, here)
                waiting.append(there)
    return reached


def _from_terminals(circuit: Circuit, joins: Joins, without: frozenset[str]) -> Steps:
    """Walk outwards from all of the circuit's own terminals at once, never through the panel."""
    names = (*line_terminals(circuit), "N") if circuit.neutral else line_terminals(circuit)
    panel = (f"{circuit.tag}.breaker-", f"{circuit.tag}.tap-", f"{circuit.tag}.neutral-bar")
    starts = [Point(circuit.tag, name) for name in names]
    return walk(starts, joins, lambda key: key in without or key.startswith(panel))


def _back(reached: Steps, end: Point) -> list[str]:
    """Edges from a load's end back to the terminal it hangs on, whose name comes last; empty where none is reached."""
    if end not in reached:
        return []
    edges: list[str] = []
    here = end
    while (step := reached[here]) is not None:
        edges.append(step[0])
        here = step[1]
    return [*edges, str(here)]


def _passes(inside: Inside) -> bool:
    return inside.conducts or isinstance(inside.spec, Contact)


def _is_contact(connections: Connections, key: str) -> bool:
    inside = connections.inside.get(key)
    return inside is not None and isinstance(inside.spec, Contact)
