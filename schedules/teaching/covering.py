"""The fewest rows that show every allowed pair, or triple, of levels: a covering array with constraints.

Rows are first taken greedily, as D. M. Cohen and others do (The AETG System, IEEE Trans. Software Eng. 23(7), 1997);
then one row at a time is given up and the rest annealed until they show everything again, as M. B. Cohen, Colbourn
and Ling do (Constructing strength three covering arrays with augmented annealing, Discrete Math. 308, 2008). Two
well-kept libraries were tried beside it. covertable 3.2.0 takes constraints and covers everything; it takes 13 rows
for 3^4, 19 for 3^13 and 22 for 4^5, where this takes 9, 16 and 16, and 8 for the sample sheets' pairs, where this
takes 7. allpairspy 2.5.1 leaves out pairs that can only be completed by looking ahead: 2 of 214 and 7 of 140 on those
sheets.

A deck need not be the smallest there is: for 3^13 the best known has 15 rows (Colbourn's tables). Of the large models
of pairwise.org/efficiency this takes, with 500 moves, 35 rows for 4^15 3^17 2^29 (published: 29 to 49), 24 for
4^1 3^39 2^35 (21 to 33), 11 for 2^100 (10 to 18) and 209 for 10^20 (180 to 245).
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.teaching.chance import Chance

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.teaching.models import Model, Row, Target

_SEED = 1
_MOVES = 6_000
"""Moves that may be made for one row less; the deck of a sample sheet is found long before."""

_HOTTEST, _COLDEST = 0.6, 0.12
"""Temperatures of the annealing, in targets: by trial on the published models of the tests."""

_CANDIDATES = 4


@dataclass(frozen=True, slots=True)
class Covering:
    """Rows that together show every target. at_least: no fewer rows can, by counting."""

    rows: tuple[Row, ...]
    targets: int
    at_least: int

    @property
    def proved_smallest(self) -> bool:
        """Whether no smaller one exists."""
        return len(self.rows) == self.at_least


def cover(model: Model, strength: int = 2, *, moves: int = _MOVES) -> Covering:
    """The fewest rows found that show every allowed set of so many levels; the same each time.

    moves: tried for each row that is to be given up. Raises ValueError where the model allows no row.
    """
    targets = tuple(model.targets(min(strength, len(model.levels))))
    if not targets:
        raise ValueError("no row is allowed")
    least = at_least(model, targets)
    chance = Chance(_SEED)
    rows = _greedy(model, targets, chance)
    while len(rows) > least:
        fewer = _Annealing(model, targets, rows, chance).run(moves)
        if fewer is None:
            break
        rows = fewer
    return Covering(tuple(sorted(rows)), len(targets), least)


def at_least(model: Model, targets: Iterable[Target]) -> int:
    """A number of rows that no covering of these targets can go below.

    Each row shows one target of a set of factors. And k factors whose levels two by two all meet hold a covering
    array of two levels, which takes n rows for k up to C(n - 1, floor(n / 2) - 1) at strength 2 (Kleitman and
    Spencer, Discrete Math. 6, 1973; Katona, Period. Math. Hungar. 3, 1973).
    """
    every = set(targets)
    counts: dict[tuple[int, ...], int] = {}
    for target in every:
        factors = tuple(factor for factor, _ in target)
        counts[factors] = counts.get(factors, 0) + 1
    least = max(counts.values())
    if len(next(iter(every))) != 2:
        return least
    free = 0
    levels: list[tuple[int, int, int]] = []
    for factor, count in enumerate(model.levels):
        for one, two in itertools.combinations(range(count), 2):
            if all(
                ((other, a), (factor, b)) in every
                for other, *both in levels
                for a in both
                for b in (one, two)
            ):
                levels.append((factor, one, two))
                free += 1
                break
    rows = least
    while free > 1 and math.comb(rows - 1, rows // 2 - 1) < free:
        rows += 1
    return rows


def _greedy(model: Model, targets: tuple[Target, ...], chance: Chance) -> list[Row]:
    """Row by row, the best of a few that each begin with a target not yet shown."""
    left = set(targets)
    groups = _groups_of_factors(model, len(targets[0]))
    rows: list[Row] = []
    while left:
        waiting = sorted(left)
        best: tuple[int, Row, set[Target]] | None = None
        for _ in range(_CANDIDATES):
            filled = [chance.below(count) for count in model.levels]
            row = model.nearest(filled, dict(chance.one(waiting)))
            if row is None:
                continue
            row = _improved(model, row, left, groups)
            new = left.intersection(_shown(row, groups[_ALL]))
            if best is None or len(new) > best[0]:
                best = len(new), row, new
        if best is not None:
            rows.append(best[1])
            left -= best[2]
    return rows


_Groups = dict[int, tuple[tuple[int, ...], ...]]
_ALL = -1


def _groups_of_factors(model: Model, strength: int) -> _Groups:
    """The sets of so many factors that hold each factor; under `_ALL` all of them."""
    every = tuple(itertools.combinations(range(len(model.levels)), strength))
    groups = {
        factor: tuple(group for group in every if factor in group) for factor in range(len(model.levels))
    }
    return groups | {_ALL: every}


def _shown(row: Row, groups: Iterable[tuple[int, ...]]) -> list[Target]:
    """What a row shows of these sets of factors."""
    return [tuple([(factor, row[factor]) for factor in group]) for group in groups]


def _improved(model: Model, row: Row, left: set[Target], groups: _Groups) -> Row:
    """Each factor in turn put on the level that shows the most targets not yet shown."""
    for factor, levels in enumerate(model.levels):
        # What other factors show together is the same at each level of this one.
        count = len(left.intersection(_shown(row, groups[factor])))
        for level in range(levels):
            other = (*row[:factor], level, *row[factor + 1 :])
            if other != row and model.allows(other):
                more = len(left.intersection(_shown(other, groups[factor])))
                if more > count:
                    row, count = other, more
    return row


class _Annealing:
    """Rows, one fewer than before, changed until every target is shown again."""

    def __init__(self, model: Model, targets: tuple[Target, ...], rows: list[Row], chance: Chance) -> None:
        self._model, self._chance = model, chance
        self._times = dict.fromkeys(targets, 0)
        self._missing = _Bag(targets)
        self._groups = _groups_of_factors(model, len(targets[0]))
        shown_by = Counter(target for row in rows for target in _shown(row, self._groups[_ALL]))

        def alone(place: int) -> int:
            """How many targets only this row shows."""
            return sum(shown_by[target] == 1 for target in _shown(rows[place], self._groups[_ALL]))

        idlest = min(range(len(rows)), key=lambda place: (alone(place), place))
        self.rows = [row for place, row in enumerate(rows) if place != idlest]
        for row in self.rows:
            for target in _shown(row, self._groups[_ALL]):
                self._add(target)

    def _add(self, target: Target) -> None:
        self._times[target] += 1
        if self._times[target] == 1:
            self._missing.take(target)

    def _drop(self, target: Target) -> None:
        self._times[target] -= 1
        if self._times[target] == 0:
            self._missing.put(target)

    def run(self, moves: int) -> list[Row] | None:
        """The rows once they show everything; None where the moves don't suffice."""
        cooling = (_COLDEST / _HOTTEST) ** (1 / moves)
        heat = _HOTTEST
        for _ in range(moves):
            if not self._missing:
                return self.rows
            self._move(heat)
            heat *= cooling
        return None if self._missing else self.rows

    def _move(self, heat: float) -> None:
        """Put a missing target into a row, and keep that unless it loses too much."""
        target = self._missing.any(self._chance)
        place = self._chance.below(len(self.rows))
        old = self.rows[place]
        new = self._model.nearest(old, dict(target))
        if new is None:
            return
        groups = dict.fromkeys(
            group
            for factor, level in enumerate(new)
            if level != old[factor]
            for group in self._groups[factor]
        )
        lost, won = _shown(old, groups), _shown(new, groups)
        worse = sum(1 for item in lost if self._times[item] == 1) - sum(
            1 for item in won if self._times[item] == 0
        )
        if worse > 0 and self._chance.share() >= math.exp(-worse / heat):
            return
        for item in lost:
            self._drop(item)
        for item in won:
            self._add(item)
        self.rows[place] = new


class _Bag:
    """Targets of which any one can be drawn."""

    def __init__(self, targets: Iterable[Target]) -> None:
        self._items = list(targets)
        self._places = {target: place for place, target in enumerate(self._items)}

    def __bool__(self) -> bool:
        return bool(self._items)

    def any(self, chance: Chance) -> Target:
        """One of them."""
        return chance.one(self._items)

    def put(self, target: Target) -> None:
        """Put one in."""
        self._places[target] = len(self._items)
        self._items.append(target)

    def take(self, target: Target) -> None:
        """Take one out; the last one takes its place."""
        place, last = self._places.pop(target), self._items.pop()
        if place < len(self._items):
            self._items[place] = last
            self._places[last] = place
