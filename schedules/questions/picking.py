"""What else changes when one choice is picked: what comes with it, what falls away, or why it can't be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.connections.options import obstacles

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.sheet.choices import Choice
    from schedules.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Picking:
    """The choices after one more was picked, in sheet order.

    brought: what it can't do without and is picked with it. dropped: what has lost what it needs. barred: why the
    choice is not possible, in words; the choices are then as before.
    """

    choices: tuple[str, ...]
    brought: tuple[Choice, ...] = ()
    dropped: tuple[Choice, ...] = ()
    barred: tuple[str, ...] = ()


def pick(sheet: Sheet, chosen: frozenset[str], choice: Choice) -> Picking:
    """Pick one choice; in a group of one it takes the place of the choice before."""
    taken = (chosen - _rivals(sheet, choice)) | {choice.id}
    brought: list[Choice] = []
    for needed in _needed(sheet, taken, choice):
        if not _rivals(sheet, needed).isdisjoint(taken):
            return Picking(_ordered(sheet, chosen), barred=obstacles(sheet, choice, taken))
        taken |= {needed.id}
        brought.append(needed)
    kept, dropped = _without_orphans(sheet, chosen, taken, {choice.id, *(item.id for item in brought)})
    barred = tuple(reason for item in (choice, *brought) for reason in obstacles(sheet, item, kept))
    if barred:
        return Picking(_ordered(sheet, chosen), barred=tuple(dict.fromkeys(barred)))
    return Picking(_ordered(sheet, kept), tuple(brought), dropped)


def leave(sheet: Sheet, chosen: frozenset[str], choice: Choice) -> Picking:
    """Take one choice out, and with it what can't stand without it."""
    kept, dropped = _without_orphans(sheet, chosen, chosen - {choice.id}, set())
    return Picking(_ordered(sheet, kept), dropped=dropped)


def _rivals(sheet: Sheet, choice: Choice) -> frozenset[str]:
    """The other choices of a group of which only one can be picked."""
    group = next(item for item in sheet.group if choice in item.choice)
    return frozenset(item.id for item in group.choice if item is not choice and group.pick == "one")


def _needed(sheet: Sheet, taken: frozenset[str], choice: Choice) -> Iterator[Choice]:
    """What a choice can't do without where there is no second possibility, and what that needs in its turn."""
    known = {item.id: item for item in sheet.choices}
    seen = set(taken)
    waiting = [choice]
    while waiting:
        for need in waiting.pop().requires:
            if len(need.any) == 1 and need.any[0] not in seen and need.any[0] in known:
                seen.add(need.any[0])
                waiting.append(known[need.any[0]])
                yield known[need.any[0]]


def _without_orphans(
    sheet: Sheet, before: frozenset[str], taken: frozenset[str], wanted: set[str]
) -> tuple[frozenset[str], tuple[Choice, ...]]:
    """Let go, one after the other, of what was complete before and now misses what it requires."""
    dropped: list[Choice] = []
    while True:
        orphan = next(
            (
                item
                for item in sheet.choices
                if item.id in taken
                and item.id not in wanted
                and _misses(item, taken)
                and not _misses(item, before)
            ),
            None,
        )
        if orphan is None:
            return taken, tuple(dropped)
        taken -= {orphan.id}
        dropped.append(orphan)


def _misses(choice: Choice, taken: frozenset[str]) -> bool:
    return any(taken.isdisjoint(need.any) for need in choice.requires)


def _ordered(sheet: Sheet, chosen: Iterable[str]) -> tuple[str, ...]:
    """Names in sheet order; those that the sheet doesn't have come last, so that no answer is lost."""
    wanted = set(chosen)
    known = [item.id for item in sheet.choices]
    return (*(name for name in known if name in wanted), *sorted(wanted.difference(known)))


def everything(sheet: Sheet) -> frozenset[str]:
    """As much as fits together, taken in sheet order: of a group of one, the first that fits."""
    chosen: frozenset[str] = frozenset()
    for group in sheet.group:
        for choice in group.choice:
            if choice.id in chosen or (chosen & _rivals(sheet, choice)):
                continue
            picking = pick(sheet, chosen, choice)
            if not picking.barred and not picking.dropped:
                chosen = frozenset(picking.choices)
    return chosen
