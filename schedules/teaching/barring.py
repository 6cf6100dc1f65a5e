"""Which combinations of a sheet's choices can't be built, and why: asked of its rules, not of every combination."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from math import prod
from typing import TYPE_CHECKING

from schedules.teaching.choices import option_model

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.choices import OptionModel
    from schedules.teaching.models import Ban, Model


@dataclass(frozen=True, slots=True)
class Barred:
    """A rule of the sheet that bars combinations. subject: the choice or group; reason: in the sheet's words.

    count: how many of all thinkable combinations it bars, whatever else bars them.
    """

    subject: str
    reason: str
    count: int


@dataclass(frozen=True, slots=True)
class Barring:
    """thinkable: every level of every factor; rules: what bars the rest, in the sheet's order.

    never: choices that no possible combination has. together: choices of which each comes with all the others or not
    at all.
    """

    thinkable: int
    possible: int
    rules: tuple[Barred, ...]
    never: tuple[str, ...]
    together: tuple[tuple[str, ...], ...]


def barring(sheet: Sheet) -> Barring:
    """Which combinations can't be built, and why, in the sheet's words."""
    return barring_of(option_model(sheet))


def barring_of(options: OptionModel) -> Barring:
    """The same of a model: what can stand together is asked pair by pair, combinations are counted, never listed."""
    model = options.model
    at = {
        name: (factor, level)
        for factor, levels in enumerate(options.factors)
        for level, names in enumerate(levels)
        for name in names
    }
    found = {name for name, place in at.items() if _possible(model, place)}
    pairs = (pair for pair in itertools.combinations(at, 2) if found.issuperset(pair))
    return Barring(
        thinkable=prod(model.levels),
        possible=model.count(),
        rules=tuple(Barred(rule.subject, rule.reason, _counted(model, rule.ban)) for rule in options.rules),
        never=tuple(name for name in at if name not in found),
        together=tuple(_joined(pair for pair in pairs if not _apart(model, at[pair[0]], at[pair[1]]))),
    )


_At = tuple[int, int]
"""A factor and the level of it that has a choice."""


def _possible(model: Model, *places: _At) -> bool:
    """Whether some allowed combination has all of these levels."""
    return model.nearest((0,) * len(model.levels), dict(places)) is not None


def _apart(model: Model, one: _At, other: _At) -> bool:
    """Whether some allowed combination has one of two choices without the other; each is in some."""
    if one[0] == other[0]:
        return True
    return any(
        _possible(model, with_it, (factor, level))
        for with_it, (factor, has) in ((one, other), (other, one))
        for level in range(model.levels[factor])
        if level != has
    )


def _counted(model: Model, ban: Ban) -> int:
    """How many of all thinkable combinations a ban bars."""
    barred = dict(ban)
    return prod(
        len(barred[factor]) if factor in barred else count for factor, count in enumerate(model.levels)
    )


def _joined(pairs: Iterable[tuple[str, str]]) -> Iterator[tuple[str, ...]]:
    groups: dict[str, list[str]] = {}
    for a, b in pairs:
        group = groups.setdefault(a, [a])
        if b not in group:
            group.append(b)
        groups[b] = group
    return (tuple(group) for group in {id(group): group for group in groups.values()}.values())
