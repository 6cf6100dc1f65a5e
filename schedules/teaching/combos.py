"""Every combination of a sheet's choices: planned one by one, and what they say together.

Of each combination only its figures are kept, some hundred bytes; its plan is gone before the next is made.
"""

from __future__ import annotations

import itertools
import statistics
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from operator import sub
from typing import TYPE_CHECKING

from schedules.derived import Premises
from schedules.plan import plan_job
from schedules.teaching.choices import option_model
from schedules.teaching.wiring import COUNTED, Counts, Wiring, wiring_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.job.records import Job
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet


_CHUNK = 4
"""Combinations that a worker is handed at a time."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which combinations: those with all of these choices and none of those; at most so many, None for all."""

    including: frozenset[str] = frozenset()
    excluding: frozenset[str] = frozenset()
    at_most: int | None = None

    def takes(self, choices: frozenset[str]) -> bool:
        """Whether a combination is one of them, but for the limit."""
        return self.including <= choices and self.excluding.isdisjoint(choices)


@dataclass(frozen=True, slots=True)
class Combination:
    """One combination, planned. choices: in the sheet's order. blocking: findings that stop or must be put right."""

    choices: tuple[str, ...]
    wiring: Wiring
    blocking: int


def every_combination(sheet: Sheet, wanted: Wanted = Wanted()) -> Iterator[tuple[str, ...]]:
    """Every set of choices that can be built and is wanted, each in the sheet's order."""
    options = option_model(sheet)
    order = {choice.id: place for place, choice in enumerate(sheet.choices)}
    rows = itertools.product(*map(range, options.model.levels))
    built = (options.choices(row) for row in rows if options.model.allows(row))
    taken = (tuple(sorted(choices, key=order.__getitem__)) for choices in built if wanted.takes(choices))
    return itertools.islice(taken, wanted.at_most)


def plan_with(sheet: Sheet, job: Job, choices: Iterable[str], premises: Premises | None = None) -> Plan:
    """Plan a job as it is, but with these choices. premises: of this sheet and job, for one of many such plans."""
    return plan_job(sheet, job.model_copy(update={"choices": tuple(choices)}), premises)


def plan_every(
    sheet: Sheet, job: Job, wanted: Wanted = Wanted(), *, workers: int = 1
) -> Iterator[Combination]:
    """Plan every wanted combination in this kitchen, in order. workers: processes that plan side by side."""
    every = every_combination(sheet, wanted)
    if workers == 1:
        premises = Premises(sheet, job)
        yield from (_planned(sheet, job, choices, premises) for choices in every)
        return
    with ProcessPoolExecutor(workers, initializer=_begin, initargs=(sheet, job)) as pool:
        try:
            yield from pool.map(_plan_here, every, chunksize=_CHUNK)
        finally:
            pool.shutdown(cancel_futures=True)


def _planned(sheet: Sheet, job: Job, choices: tuple[str, ...], premises: Premises) -> Combination:
    plan = plan_with(sheet, job, choices, premises)
    return Combination(choices, wiring_of(plan), sum(item.severity.blocks for item in plan.findings))


# What a worker process plans for: set once in each, so that a sheet is not sent with every combination.
_here: list[tuple[Sheet, Job, Premises]] = []


def _begin(sheet: Sheet, job: Job) -> None:
    _here.append((sheet, job, Premises(sheet, job)))


def _plan_here(choices: tuple[str, ...]) -> Combination:
    sheet, job, premises = _here[-1]
    return _planned(sheet, job, choices, premises)


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
    """Which combinations can't be built, and why, in the sheet's words.

    Looks at every thinkable combination: the time doubles with each free choice more, and so does what `Tally` keeps.
    """
    options = option_model(sheet)
    counts = [0] * len(options.rules)
    thinkable = possible = 0
    apart = {(a.id, b.id) for a, b in itertools.combinations(sheet.choices, 2)}
    seen: set[str] = set()
    for row in itertools.product(*map(range, options.model.levels)):
        thinkable += 1
        broken = set(options.broken(row))
        if not broken:
            possible += 1
            choices = options.choices(row)
            seen |= choices
            apart -= {pair for pair in apart if len(choices.intersection(pair)) == 1}
        for place, rule in enumerate(options.rules):
            counts[place] += rule in broken
    return Barring(
        thinkable,
        possible,
        tuple(
            Barred(rule.subject, rule.reason, count)
            for rule, count in zip(options.rules, counts, strict=True)
        ),
        tuple(choice.id for choice in sheet.choices if choice.id not in seen),
        tuple(_joined(pair for pair in sorted(apart) if seen.issuperset(pair))),
    )


def _joined(pairs: Iterable[tuple[str, str]]) -> Iterator[tuple[str, ...]]:
    groups: dict[str, list[str]] = {}
    for a, b in pairs:
        group = groups.setdefault(a, [a])
        if b not in group:
            group.append(b)
        groups[b] = group
    return (tuple(group) for group in {id(group): group for group in groups.values()}.values())


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
        self._seen: dict[frozenset[str], Wiring] = {}
        self._added: dict[_Toggle, Counter[Counts]] = {key: Counter() for key in self._toggles}
        self._altering: Counter[_Toggle] = Counter()

    def take(self, combination: Combination) -> None:
        """Take in one more, and hold it against those that differ from it in one choice."""
        choices, wiring = frozenset(combination.choices), combination.wiring
        for key in self._toggles:
            other = _toggled(choices, *key)
            seen = None if other is None else self._seen.get(other)
            if seen is not None:
                with_it, without = (wiring, seen) if choices.issuperset(key[0]) else (seen, wiring)
                cables, terminations, circuits, openings = map(sub, with_it.counts, without.counts)
                self._added[key][cables, terminations, circuits, openings] += 1
                self._altering[key] += with_it.mark != without.mark
        self._seen[choices] = wiring

    def costs(self) -> tuple[Cost, ...]:
        """What each choice adds, in the sheet's order."""
        return tuple(self._cost(key) for key in self._toggles)

    def _cost(self, key: _Toggle) -> Cost:
        added = tuple(self._added[key].elements())
        figures = {
            name: Spread(min(column), statistics.median(column), max(column))
            for name, column in zip(COUNTED, zip(*added, strict=True), strict=False)
        }
        return Cost(*key, len(added), self._altering[key], figures)


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
