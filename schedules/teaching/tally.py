"""What all combinations say together: what each choice adds, taken in combination by combination.

What was taken in is kept in a file of its own that is gone with the tally, so that memory does not grow with the number
of combinations.
"""

from __future__ import annotations

import sqlite3
import weakref
from collections import Counter
from dataclasses import dataclass
from operator import sub
from typing import TYPE_CHECKING

from schedules.teaching.wiring import COUNTED, Wiring

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.combos import Combination


@dataclass(frozen=True, slots=True)
class Spread:
    """Least, median and most of a figure."""

    least: int
    median: float
    most: int


@dataclass(frozen=True, slots=True)
class Cost:
    """What a choice adds. bundle: it and those that only come with it; against: what it stands in place of, or empty.

    pairs: so many times two combinations differ in nothing else. figures: by counted schedule. altering: pairs whose
    wiring differs at all.
    """

    bundle: tuple[str, ...]
    against: str
    pairs: int
    altering: int
    figures: dict[str, Spread]

    @property
    def idle(self) -> bool:
        """Whether it never matters to the wiring, as far as can be seen by it alone."""
        return self.pairs > 0 and self.altering == 0


_Toggle = tuple[tuple[str, ...], str]


class Tally:
    """What all combinations say together, taken in one by one."""

    def __init__(self, sheet: Sheet, together: Iterable[tuple[str, ...]] = ()) -> None:
        bundles = {name: group for group in together for name in group}
        self._toggles = tuple(dict.fromkeys(_toggles(sheet, bundles)))
        self._seen = _Seen(choice.id for choice in sheet.choices)
        self._added = {key: tuple(Counter[int]() for _ in COUNTED) for key in self._toggles}
        self._pairs: Counter[_Toggle] = Counter()
        self._altering: Counter[_Toggle] = Counter()

    def take(self, combination: Combination) -> None:
        """Take in one more, and hold it against those that differ from it in one choice."""
        choices, wiring = frozenset(combination.choices), combination.wiring
        for key in self._toggles:
            other = _toggled(choices, *key)
            seen = None if other is None else self._seen.find(other)
            if seen is not None:
                with_it, without = (wiring, seen) if choices.issuperset(key[0]) else (seen, wiring)
                for column, added in zip(
                    self._added[key], map(sub, with_it.counts, without.counts), strict=True
                ):
                    column[added] += 1
                self._pairs[key] += 1
                self._altering[key] += with_it.mark != without.mark
        self._seen.keep(choices, wiring)

    def through(self, combinations: Iterable[Combination]) -> Iterator[Combination]:
        """Take in combinations as they pass."""
        for combination in combinations:
            self.take(combination)
            yield combination

    def costs(self) -> tuple[Cost, ...]:
        """What each choice adds, in the sheet's order."""
        return tuple(self._cost(key) for key in self._toggles)

    def _cost(self, key: _Toggle) -> Cost:
        figures = {
            name: _spread(column) for name, column in zip(COUNTED, self._added[key], strict=True) if column
        }
        return Cost(*key, self._pairs[key], self._altering[key], figures)


class _Seen:
    """The wiring of each combination, by its choices, in a file that the system drops when nobody asks any more."""

    def __init__(self, names: Iterable[str]) -> None:
        self._bits = {name: 1 << place for place, name in enumerate(names)}
        # Without a name, SQLite keeps a private file of its own in the system's folder for such.
        self._file = sqlite3.connect("", isolation_level=None)
        weakref.finalize(self, self._file.close)
        self._file.execute(
            "CREATE TABLE seen (choices BLOB PRIMARY KEY, mark BLOB, a INT, b INT, c INT, d INT) WITHOUT ROWID"
        )

    def keep(self, choices: frozenset[str], wiring: Wiring) -> None:
        """Keep the wiring of one combination."""
        row = (self._key(choices), wiring.mark, *wiring.counts)
        self._file.execute("INSERT OR REPLACE INTO seen VALUES (?, ?, ?, ?, ?, ?)", row)

    def find(self, choices: frozenset[str]) -> Wiring | None:
        """The wiring of one combination, None where it was not taken in."""
        asked = "SELECT mark, a, b, c, d FROM seen WHERE choices = ?"
        row = self._file.execute(asked, (self._key(choices),)).fetchone()
        return None if row is None else Wiring(row[1:], row[0])

    def _key(self, choices: frozenset[str]) -> bytes:
        return sum(self._bits[name] for name in choices).to_bytes(len(self._bits) // 8 + 1, "big")


def _spread(counted: Counter[int]) -> Spread:
    """Least, median and most of figures of which each is given with how often it comes."""
    figures, total = sorted(counted.items()), counted.total()
    low, high = (_at(figures, place) for place in ((total - 1) // 2, total // 2))
    return Spread(figures[0][0], low if total % 2 else (low + high) / 2, figures[-1][0])


def _at(figures: list[tuple[int, int]], place: int) -> int:
    """The figure at a place of all of them, put in order."""
    for figure, times in figures:
        place -= times
        if place < 0:
            return figure
    raise ValueError("no figures")


def _toggles(sheet: Sheet, bundles: Mapping[str, tuple[str, ...]]) -> Iterator[_Toggle]:
    """Each choice that may be added; where one of a group is picked, each against every one before it."""
    for group in sheet.group:
        names = [choice.id for choice in group.choice]
        if group.pick == "one":
            yield from (((name,), other) for place, name in enumerate(names) for other in names[:place])
        else:
            yield from ((bundles.get(name, (name,)), "") for name in names)


def _toggled(choices: frozenset[str], bundle: tuple[str, ...], against: str) -> frozenset[str] | None:
    """The combination that differs in this alone; None where neither stands."""
    if choices.issuperset(bundle):
        return choices.difference(bundle) | ({against} if against else frozenset())
    if not against:
        return choices.union(bundle)
    return choices - {against} | frozenset(bundle) if against in choices else None
