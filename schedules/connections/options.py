"""What was bought: which choices fit together, and which of the sheet's things they bring."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.sheet.choices import Choice, Group, Part
    from schedules.sheet.hardware import Device, Enclosure, Opening
    from schedules.sheet.sheet import Sheet
    from schedules.sheet.wiring import Cable, Circuit, FactoryWire


@dataclass(frozen=True, slots=True)
class Conflict:
    """Why a set of choices can't stand: the choice or group concerned, and the reason in words."""

    subject: str
    reason: str
    undecided: bool = False


@dataclass(frozen=True, slots=True)
class Selection:
    """The sheet's things that one set of choices brings, in sheet order."""

    sheet: Sheet
    choices: frozenset[str]
    enclosures: tuple[Enclosure, ...]
    openings: tuple[Opening, ...]
    devices: tuple[Device, ...]
    circuits: tuple[Circuit, ...]
    cables: tuple[Cable, ...]
    factory_wires: tuple[FactoryWire, ...]
    parts: tuple[Part, ...]


def select(sheet: Sheet, choices: frozenset[str]) -> Selection:
    """Take from the sheet what these choices bring."""
    enclosures = tuple(item for item in sheet.enclosure if item.when.holds(choices))
    present = {item.tag for item in enclosures}
    return Selection(
        sheet=sheet,
        choices=choices,
        enclosures=enclosures,
        openings=tuple(item for item in sheet.opening if item.enclosure in present),
        devices=tuple(item for item in sheet.device if item.when.holds(choices)),
        circuits=tuple(item for item in sheet.circuit if item.when.holds(choices)),
        cables=tuple(item for item in sheet.cable if item.when.holds(choices)),
        factory_wires=tuple(item for item in sheet.factory_wire if item.when.holds(choices)),
        parts=tuple(item for item in sheet.part if item.when.holds(choices)),
    )


def conflicts(sheet: Sheet, choices: frozenset[str]) -> tuple[Conflict, ...]:
    """Every reason why these choices can't stand together or are not complete."""
    found: list[Conflict] = []
    for group in sheet.group:
        found.extend(_group_conflicts(group, choices))
    for choice in sheet.choices:
        if choice.id in choices:
            found.extend(Conflict(choice.id, reason) for reason in obstacles(sheet, choice, choices))
    return tuple(found)


def _group_conflicts(group: Group, choices: frozenset[str]) -> Iterator[Conflict]:
    if group.pick == "any":
        return
    picked = [choice for choice in group.choice if choice.id in choices]
    if not picked:
        yield Conflict(group.id, f"not decided: {group.title}", undecided=True)
    elif group.pick == "one" and len(picked) > 1:
        titles = ", ".join(choice.title for choice in picked)
        yield Conflict(group.id, f"only one is possible of: {titles}")


def obstacles(sheet: Sheet, choice: Choice, choices: frozenset[str]) -> tuple[str, ...]:
    """Why this choice can't stand beside these others, in words; empty where it can."""
    titles = {item.id: item.title for item in sheet.choices}
    missing = [
        f"needs {' or '.join(titles[name] for name in need.any)}: {need.reason}"
        for need in choice.requires
        if choices.isdisjoint(need.any)
    ]
    barred = [
        f"not with {titles[ban.choice]}: {ban.reason}" for ban in choice.excludes if ban.choice in choices
    ]
    # An exclusion binds both sides, whichever of them the sheet wrote it on.
    for other in sheet.choices:
        if other.id in choices and other.id != choice.id:
            barred.extend(
                f"not with {other.title}: {ban.reason}" for ban in other.excludes if ban.choice == choice.id
            )
    return tuple(dict.fromkeys(missing + barred))


def combinations(sheet: Sheet) -> Iterator[frozenset[str]]:
    """Every complete set of choices that can be built, in sheet order: those without conflicts."""
    # There are many, and nobody reads why the others can't be: the rules are asked without their words.
    needs = [(choice.id, frozenset(need.any)) for choice in sheet.choices for need in choice.requires]
    bans = [frozenset({choice.id, ban.choice}) for choice in sheet.choices for ban in choice.excludes]
    for parts in itertools.product(*(_group_picks(group) for group in sheet.group)):
        choices = frozenset().union(*parts)
        lacking = any(name in choices and choices.isdisjoint(others) for name, others in needs)
        if not lacking and not any(ban <= choices for ban in bans):
            yield choices


def _group_picks(group: Group) -> list[frozenset[str]]:
    names = [choice.id for choice in group.choice]
    if group.pick == "one":
        return [frozenset({name}) for name in names]
    return [
        frozenset(picked)
        for count in range(1 if group.pick == "some" else 0, len(names) + 1)
        for picked in itertools.combinations(names, count)
    ]
