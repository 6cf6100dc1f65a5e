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
    circuit: Circuit, loads: Iterable[str], connections: Connections, joins: Joins
) -> tuple[WirePath, ...]:
    """The shortest way, in edges, of each load that has one to two different terminals of its circuit."""
    ways = _Ways(circuit, connections, joins)
    found = (ways.path(key, frozenset()) for key in loads)
    return tuple(path for path in found if path is not None)


def contacts_before(
    circuit: Circuit, loads: Iterable[str], connections: Connections, joins: Joins
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Every contact that can carry the whole current of a load: load by load each way's contacts, one way at a time."""
    ways = _Ways(circuit, connections, joins)
    for load in loads:
        opened: frozenset[str] = frozenset()
        while (path := ways.path(load, opened)) is not None:
            yield load, path.contacts
            if not path.contacts:
                break
            # Taken for open, so that another way past it is found.
            opened |= frozenset(path.contacts[-1:])


def walk(
    starts: Iterable[Point], joins: Joins, barred: Callable[[str], bool], until: Iterable[Point] = ()
) -> Steps:
    """Every point that the starts reach over edges that aren't barred, each with the step that led there.

    until: points at the first of which the walk may end.
    """
    reached: Steps = dict.fromkeys(starts)
    waiting, goals = deque(reached), frozenset(until)
    while waiting:
        here = waiting.popleft()
        if here in goals:
            break
        for key, there in joins[here]:
            if there not in reached and not barred(key):
                reached[there] = (key, here)
                waiting.append(there)
    return reached


class _Ways:
    """The ways from one circuit's terminals, never through the panel; what was walked for one load serves the next."""

    def __init__(self, circuit: Circuit, connections: Connections, joins: Joins) -> None:
        names = (*line_terminals(circuit), "N") if circuit.neutral else line_terminals(circuit)
        self._starts = [Point(circuit.tag, name) for name in names]
        self._panel = (f"{circuit.tag}.breaker-", f"{circuit.tag}.tap-", f"{circuit.tag}.neutral-bar")
        self._inside = connections.inside
        self._conductors = connections.conductors
        self._joins = joins
        self._whole = walk(self._starts, joins, self._barred(frozenset()))
        self._latest: tuple[frozenset[str], Steps] = frozenset(), self._whole
        self._apart: dict[frozenset[str], set[Point]] = {}

    def path(self, load: str, opened: frozenset[str]) -> WirePath | None:
        """A load's shortest way with these contacts taken for open."""
        inside = self._inside[load]
        if self._parted(inside.a, opened) or self._parted(inside.b, opened):
            return None
        reached = self._reached(opened)
        ways = [_back(reached, end) for end in (inside.a, inside.b)]
        if not all(ways) or ways[0][-1] == ways[1][-1]:
            return None
        edges = [edge for way in ways for edge in way[:-1]]
        return WirePath(
            load,
            tuple(edge for edge in edges if edge in self._conductors),
            tuple(edge for edge in edges if self._is_contact(edge)),
        )

    def _reached(self, opened: frozenset[str]) -> Steps:
        """All that the terminals reach, from all of them at once.

        Loads behind one contact follow each other, so the latest walk past an open one is all that is kept.
        """
        if not opened:
            return self._whole
        if self._latest[0] != opened:
            self._latest = opened, walk(self._starts, self._joins, self._barred(opened))
        return self._latest[1]

    def _parted(self, end: Point, opened: frozenset[str]) -> bool:
        """Whether a load's end reaches no terminal past what is open: seen from there, where there is less to walk."""
        if not opened:
            return False
        apart = self._apart.setdefault(opened, set())
        if end in apart:
            return True
        near = walk((end,), self._joins, self._barred(opened), self._starts)
        if near.keys().isdisjoint(self._starts):
            apart.update(near)
            return True
        return False

    def _barred(self, opened: frozenset[str]) -> Callable[[str], bool]:
        return lambda key: key in opened or key.startswith(self._panel)

    def _is_contact(self, key: str) -> bool:
        inside = self._inside.get(key)
        return inside is not None and isinstance(inside.spec, Contact)


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
