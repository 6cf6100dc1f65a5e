"""Factors with levels and what may not stand together: the form in which choices become a covering array."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from functools import cached_property
from math import prod
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

Row = tuple[int, ...]
"""One level for each factor."""

Ban = tuple[tuple[int, frozenset[int]], ...]
"""What may not stand together: all of these factors, each at one of these levels."""

Target = tuple[tuple[int, int], ...]
"""Some factors, each at one level, that a row is to show together."""


@dataclass(frozen=True)
class Model:
    """Factors, each with a number of levels, and bans between them."""

    levels: tuple[int, ...]
    bans: tuple[Ban, ...] = ()

    def allows(self, row: Row) -> bool:
        """Whether no ban bars a whole row."""
        return not any(all(row[factor] in barred for factor, barred in ban) for ban in self.bans)

    def targets(self, strength: int) -> Iterator[Target]:
        """Every set of so many factors at levels that some allowed row shows."""
        anything = (0,) * len(self.levels)
        for factors in itertools.combinations(range(len(self.levels)), strength):
            for row in itertools.product(*(range(self.levels[factor]) for factor in factors)):
                target = tuple(zip(factors, row, strict=True))
                if self.nearest(anything, dict(target)) is not None:
                    yield target

    def nearest(self, row: Sequence[int], fixed: Mapping[int, int]) -> Row | None:
        """An allowed row at these fixed levels that keeps of another row what it can; None where there is none.

        Factors that bans join are settled together, from the first to the last, each at its old level where the bans
        let it; what is settled elsewhere has no part in that.
        """
        settled = [fixed.get(factor, level) for factor, level in enumerate(row)]
        for factors, bans in self._joined:
            if any(all(settled[factor] in barred for factor, barred in ban) for ban in bans):
                order = sorted(factors, key=lambda factor: (factor not in fixed, factor))
                levels: dict[int, int] = {}
                if not self._settle(settled, fixed, order, levels):
                    return None
                for factor, level in levels.items():
                    settled[factor] = level
        return tuple(settled)

    def count(self) -> int:
        """How many rows are allowed: factors that no ban joins are counted apart, so that none need be listed."""
        return _count(dict(enumerate(self.levels)), [dict(ban) for ban in self.bans])

    def _settle(
        self, row: Sequence[int], fixed: Mapping[int, int], order: Sequence[int], levels: dict[int, int]
    ) -> bool:
        """Give each factor that has none yet a level, in this order; whether that can be done."""
        if len(levels) == len(order):
            return True
        factor = order[len(levels)]
        old = row[factor]
        others = () if factor in fixed else (n for n in range(self.levels[factor]) if n != old)
        for level in (old, *others):
            levels[factor] = level
            if self._may_stand(factor, levels) and self._settle(row, fixed, order, levels):
                return True
        del levels[factor]
        return False

    def _may_stand(self, factor: int, levels: Mapping[int, int]) -> bool:
        return not any(
            all(other in levels and levels[other] in barred for other, barred in ban)
            for ban in self._bans_of[factor]
        )

    @cached_property
    def _joined(self) -> tuple[tuple[tuple[int, ...], tuple[Ban, ...]], ...]:
        """The factors by groups that bans join, each with its bans; those that no ban names are left out."""
        groups = _apart(dict(enumerate(self.levels)), [dict(ban) for ban in self.bans])
        return tuple(
            (tuple(factors), tuple(tuple(ban.items()) for ban in bans)) for factors, bans in groups if bans
        )

    @cached_property
    def _bans_of(self) -> tuple[tuple[Ban, ...], ...]:
        return tuple(
            tuple(ban for ban in self.bans if any(factor == named for named, _ in ban))
            for factor in range(len(self.levels))
        )


def _count(levels: Mapping[int, int], bans: Sequence[Mapping[int, frozenset[int]]]) -> int:
    """Rows of these factors that break none of these bans."""
    total = 1
    for factors, joined in _apart(levels, bans):
        if joined:
            # The factor that the most bans name, at each level in turn, leaves the fewest joined behind.
            first = max(factors, key=lambda factor: sum(factor in ban for ban in joined))
            rest = {factor: count for factor, count in factors.items() if factor != first}
            total *= sum(
                0 if (left := _left(joined, first, level)) is None else _count(rest, left)
                for level in range(factors[first])
            )
        else:
            total *= prod(factors.values())
    return total


def _left(
    bans: Sequence[Mapping[int, frozenset[int]]], factor: int, level: int
) -> list[Mapping[int, frozenset[int]]] | None:
    """What the bans still bar once a factor is at a level; None where one of them bars that by itself."""
    left = []
    for ban in bans:
        if factor not in ban:
            left.append(ban)
        elif level in ban[factor]:
            others = {other: barred for other, barred in ban.items() if other != factor}
            if not others:
                return None
            left.append(others)
    return left


def _apart(
    levels: Mapping[int, int], bans: Sequence[Mapping[int, frozenset[int]]]
) -> Iterator[tuple[dict[int, int], list[Mapping[int, frozenset[int]]]]]:
    """The factors by groups that no ban joins, each with its bans."""
    waiting = dict(levels)
    while waiting:
        group = {min(waiting)}
        size = 0
        while len(group) > size:
            size = len(group)
            group.update(*(ban for ban in bans if not group.isdisjoint(ban)))
        yield (
            {factor: waiting.pop(factor) for factor in sorted(group)},
            [ban for ban in bans if not group.isdisjoint(ban)],
        )
