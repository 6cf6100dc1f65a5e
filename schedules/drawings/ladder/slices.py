"""Of a plan's sections, what one circuit or one interlock needs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

import networkx as nx

from schedules.drawings.ladder.content import USERS, Symbol
from schedules.drawings.ladder.sections import section_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.connections.points import Landing
    from schedules.drawings.ladder.content import Section


def of_circuit(sections: tuple[Section, ...], tag: str) -> tuple[Section, ...]:
    """The section behind a breaker and every section that it feeds."""
    chosen: list[Section] = []
    for section in sections:
        own = any(end.startswith(f"{tag}:") for piece in section.pieces for end in (piece.a, piece.b)
                  if piece.symbol is not Symbol.COIL)  # fmt: skip
        loads = {piece.key for other in chosen for piece in other.pieces}
        if own or any(piece.fed_by in loads for piece in section.pieces):
            chosen.append(section)
    return tuple(chosen)


def of_effect(
    sections: tuple[Section, ...], effect: str, landings: Mapping[str, Landing]
) -> tuple[Section, ...]:
    """All that stands between energy and an effect, and nothing that is only beside it.

    The ways through its loads first, then those through every coil that moves a contact on a way already found.
    """
    wanted = {
        piece.key
        for section in sections
        for piece in section.pieces
        if piece.symbol in USERS and piece.symbol is not Symbol.COIL and piece.note == effect
    }
    done: set[str] = set()
    kept: dict[int, set[str]] = {}
    while wanted - done:
        for number, section in enumerate(sections):
            if any(piece.key in wanted for piece in section.pieces):
                kept[number] = _ways(section, wanted)
        done |= wanted
        drawn = [
            piece for number, keys in kept.items() for piece in sections[number].pieces if piece.key in keys
        ]
        wanted = wanted | {key for piece in drawn for key in (*piece.moved_by, piece.fed_by) if key}
    return tuple(
        _part(section, kept[number], landings) for number, section in enumerate(sections) if number in kept
    )


def _ways(section: Section, wanted: set[str]) -> set[str]:
    """Pieces on a way from rail to rail through what is wanted, no other user of energy on it."""
    graph: nx.Graph[str] = nx.Graph()
    first, *others = section.rails
    service = [f"service {other}" for other in others]
    for between, other in zip(service, others, strict=True):
        nx.add_path(graph, (first, between, other))
    for piece in section.pieces:
        if piece.symbol not in USERS or piece.key in wanted:
            # A piece is a node of its own, so that what is in parallel is counted each for itself.
            nx.add_path(graph, (piece.a, f"piece {piece.key}", piece.b))
    keys: set[str] = set()
    for together in cast("Iterable[set[str]]", nx.biconnected_components(graph)):
        if not together.isdisjoint(service):
            keys |= {name.removeprefix("piece ") for name in together if name.startswith("piece ")}
    return keys


def _part(section: Section, keys: set[str], landings: Mapping[str, Landing]) -> Section:
    pieces = tuple(piece for piece in section.pieces if piece.key in keys)
    if len(pieces) == len(section.pieces):
        return section
    points = {end for piece in pieces for end in (piece.a, piece.b)}
    rails = section.rails if points.issuperset(section.rails) else None
    part = section_of(pieces, landings, {}, rails)
    return replace(part, title=f"{section.title} (in\u00a0part)")
