"""What to say at a demonstration: drawn from what differs in the plans, nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.comparison import Kind
from schedules.teaching.wiring import COUNTED, wiring_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.comparison import Change, Comparison
    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck, Demonstration

NAMED = 6
"""So many things of one kind are named; the rest are counted."""

_VERBS = {Kind.ADDED: "more", Kind.REMOVED: "fewer", Kind.ALTERED: "otherwise"}


@dataclass(frozen=True, slots=True)
class Point:
    """One thing to point at. what: the schedule, and whether more, fewer or otherwise; says: one thing each."""

    what: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Talk:
    """put_in, taken_out: titles of the choices that differ from the demonstration before."""

    put_in: tuple[str, ...]
    taken_out: tuple[str, ...]
    points: tuple[Point, ...]


def talks(sheet: Sheet, deck: Deck) -> tuple[Talk, ...]:
    """What to say at each demonstration of a deck."""
    titles = {choice.id: choice.title for choice in sheet.choices}
    found = []
    before: tuple[str, ...] = ()
    for item in deck.demonstrations:
        put_in = tuple(titles[name] for name in item.choices if name not in before)
        taken_out = tuple(titles[name] for name in before if name not in item.choices)
        found.append(Talk(put_in, taken_out, tuple(_points(item))))
        before = item.choices
    return tuple(found)


def _points(item: Demonstration) -> Iterator[Point]:
    if item.change is None:
        counts = zip(wiring_of(item.plan).counts, COUNTED, strict=True)
        yield Point("to begin with", (", ".join(f"{count} {name}" for count, name in counts),))
        return
    yield from points_of(item.change)


def points_of(comparison: Comparison) -> Iterator[Point]:
    """What differs, the wiring first and findings last; a conductor is told at its ends, so their list is left out."""
    told = {name: changes for name, changes in comparison.by_subject() if name != "conductors"}
    for name, changes in (
        *((name, told[name]) for name in told if name != "findings"),
        ("findings", told["findings"]),
    ):
        for kind in Kind:
            some = [change for change in changes if change.kind is kind]
            if some:
                yield Point(f"{name}, {_VERBS[kind]}: {len(some)}", tuple(_said(some)))


def _said(changes: list[Change]) -> Iterator[str]:
    yield from map(str, changes[:NAMED])
    if len(changes) > NAMED:
        yield f"and {len(changes) - NAMED} more"
