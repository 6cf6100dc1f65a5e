"""A sheet's options as a model of factors and bans, and rows of it as sets of choices again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.teaching.models import Ban, Model

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.models import Row


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the sheet as a ban. subject: the choice or group that it is about; reason: in the sheet's words."""

    subject: str
    reason: str
    ban: Ban


@dataclass(frozen=True, slots=True)
class OptionModel:
    """factors: what each level of each factor brings, in the sheet's order; an empty set is 'without'."""

    model: Model
    factors: tuple[tuple[frozenset[str], ...], ...]
    rules: tuple[Rule, ...]

    def choices(self, row: Row) -> frozenset[str]:
        """The choices that a row stands for."""
        return frozenset[str]().union(
            *(levels[level] for levels, level in zip(self.factors, row, strict=True))
        )


def option_model(sheet: Sheet) -> OptionModel:
    """A group of which one is picked is one factor; of the others each choice is one, without it or with it."""
    factors: list[tuple[frozenset[str], ...]] = []
    for group in sheet.group:
        each = tuple(frozenset({choice.id}) for choice in group.choice)
        factors += [each] if group.pick == "one" else [(frozenset(), one) for one in each]
    rules = tuple(rule for rule in _Rules(sheet, tuple(factors)).every() if rule.ban)
    model = Model(tuple(len(levels) for levels in factors), tuple(rule.ban for rule in rules))
    return OptionModel(model, tuple(factors), rules)


class _Rules:
    """The sheet's rules, put as what may not stand together."""

    def __init__(self, sheet: Sheet, factors: tuple[tuple[frozenset[str], ...], ...]) -> None:
        self._sheet, self._factors = sheet, factors
        self._titles = {choice.id: choice.title for choice in sheet.choices}
        self._at = {
            name: (factor, level)
            for factor, levels in enumerate(factors)
            for level, names in enumerate(levels)
            for name in names
        }

    def every(self) -> Iterator[Rule]:
        """Each rule once, whichever choice the sheet wrote it on."""
        for choice in self._sheet.choices:
            has = self._has(choice.id)
            for need in choice.requires:
                wanted = " or ".join(self._titles[name] for name in need.any)
                yield Rule(
                    choice.title, f"needs {wanted}: {need.reason}", _at_once(has, self._lacks(need.any))
                )
            for ban in choice.excludes:
                reason = f"not with {self._titles[ban.choice]}: {ban.reason}"
                yield Rule(choice.title, reason, _at_once(has, self._has(ban.choice)))
        for group in self._sheet.group:
            if group.pick == "some":
                names = tuple(choice.id for choice in group.choice)
                yield Rule(group.title, "one or more of its choices must be picked", self._lacks(names))

    def _has(self, name: str) -> Ban:
        factor, level = self._at[name]
        return ((factor, frozenset({level})),)

    def _lacks(self, names: Iterable[str]) -> Ban:
        held: dict[int, frozenset[int]] = {}
        for name in names:
            factor, level = self._at[name]
            held[factor] = held.get(factor, frozenset(range(len(self._factors[factor])))) - {level}
        return tuple(held.items())


def _at_once(one: Ban, other: Ban) -> Ban:
    """The ban of both together, each factor in it once; empty where they can't be together anyway."""
    held = dict(one)
    for factor, levels in other:
        held[factor] = held.get(factor, levels) & levels
    return tuple(held.items()) if all(held.values()) else ()
