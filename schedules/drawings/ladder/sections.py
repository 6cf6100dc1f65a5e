"""A plan's circuits as sections of a ladder: each with its own rails, in the order in which one feeds another."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.drawings.ladder.bridges import bridge
from schedules.drawings.ladder.circuit_pieces import drawn_node, drawn_pieces
from schedules.drawings.ladder.content import Section, Symbol
from schedules.sheet.breakers import MAINS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.connections.points import Landing
    from schedules.drawings.ladder.content import Node, Piece
    from schedules.plan import Plan

_BARS = tuple(f"{MAINS}:{name}" for name in ("L1", "N", "L2"))
_NO_SOURCE = "No supply in these data: what feeds this loop is by others."


def sections_of(plan: Plan) -> tuple[Section, ...]:
    """Every section of a plan: one for each circuit, one for each supply of its own, one for each loop by others."""
    pieces = drawn_pieces(plan)
    landings = {str(point): landing for point, landing in plan.derived.connections.landings.items()}
    groups = _groups(plan, pieces)
    titles = {
        item.circuit.tag: f"Circuit {item.circuit.tag}: {item.circuit.name}" for item in plan.derived.circuits
    }
    sections = [
        section_of(tuple(group), landings, titles)
        for group in groups
        if any(not piece.symbol.conducts for piece in group)
    ]
    return tuple(_in_feeding_order(sections))


def section_of(
    pieces: tuple[Piece, ...],
    landings: Mapping[str, Landing],
    titles: Mapping[str, str],
    rails: tuple[str, ...] | None = None,
) -> Section:
    """One section of these pieces; its rails, where they are not given, are the poles of its own supply."""
    points = dict.fromkeys(end for piece in pieces for end in (piece.a, piece.b))
    found_rails, title = _rails(pieces, points, titles)
    rails = rails or found_rails
    nodes: dict[str, Node] = {
        point: drawn_node(landings[point]) for point in dict.fromkeys((*rails, *points))
    }
    section = Section(title, rails, tuple(nodes.values()), pieces)
    notes = [] if _fed(pieces, points) else [_NO_SOURCE]
    found = bridge(section)
    if found:
        names = ", ".join(piece.name for piece in pieces if piece.key in found)
        notes.append(f"Not in series and parallel alone: {names} form a bridge, drawn as they are joined.")
    return replace(section, notes=tuple(notes))


def _fed(pieces: tuple[Piece, ...], points: Iterable[str]) -> bool:
    return any(point in _BARS for point in points) or any(p.symbol is Symbol.SUPPLY for p in pieces)


def _rails(
    pieces: tuple[Piece, ...], points: Iterable[str], titles: Mapping[str, str]
) -> tuple[tuple[str, ...], str]:
    bars = tuple(bar for bar in _BARS if bar in points)
    if bars:
        tags = dict.fromkeys(
            end.partition(":")[0]
            for piece in pieces
            if MAINS in (piece.a.partition(":")[0], piece.b.partition(":")[0])
            for end in (piece.a, piece.b)
            if not end.startswith(f"{MAINS}:")
        )
        # Energy comes from a leg: with one leg it returns to N, with two to the other, N between them.
        rails = bars if bars[0] != _BARS[1] else bars[::-1]
        return rails, "; ".join(titles.get(tag, tag) for tag in tags)
    supply = next((piece for piece in pieces if piece.symbol is Symbol.SUPPLY), None)
    if supply is not None:
        return (supply.a, supply.b), f"{supply.name}: {supply.note}"
    first, *_, last = points
    devices = dict.fromkeys(end.partition(":")[0] for end in points)
    return (first, last), f"Loop of {', '.join(devices)}"


@dataclass(slots=True)
class _Joined:
    """Names that belong together."""

    above: dict[str, str]

    def root(self, name: str) -> str:
        while (up := self.above.setdefault(name, name)) != name:
            self.above[name] = self.above[up]
            name = up
        return name

    def join(self, a: str, b: str) -> None:
        self.above[self.root(b)] = self.root(a)


def _groups(plan: Plan, pieces: Mapping[str, Piece]) -> list[list[Piece]]:
    """Pieces that belong to one section: joined by anything but the service's bars, or on one breaker."""
    joined = _Joined({})
    circuits = {circuit.tag for circuit in plan.derived.selection.circuits}
    for key, piece in pieces.items():
        for end in (piece.a, piece.b):
            device = end.partition(":")[0]
            if device != MAINS:
                joined.join(f"piece {key}", end)
            # The trip coil in a breaker belongs to what feeds it, not to the breaker's own circuit.
            if device in circuits and not end.partition(":")[2].startswith("ST"):
                joined.join(end, f"circuit {device}")
    groups: dict[str, list[Piece]] = {}
    for key, piece in pieces.items():
        groups.setdefault(joined.root(f"piece {key}"), []).append(piece)
    return list(groups.values())


def _in_feeding_order(sections: list[Section]) -> list[Section]:
    """Circuits first; what a load of one section feeds right after it; what has its own source last."""
    of = {piece.key: section for section in sections for piece in section.pieces}
    fed: dict[str, list[Section]] = {}
    first, last = [], []
    for section in sections:
        feeder = next((piece.fed_by for piece in section.pieces if piece.fed_by in of), "")
        if feeder and of[feeder] is not section:
            fed.setdefault(of[feeder].title, []).append(section)
        elif any(rail in _BARS for rail in section.rails):
            first.append(section)
        else:
            last.append(section)
    ordered: list[Section] = []
    waiting = [*first, *last]
    while waiting:
        section = waiting.pop(0)
        ordered.append(section)
        waiting[:0] = fed.pop(section.title, [])
    return ordered
