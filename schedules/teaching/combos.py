"""Every combination of a sheet's choices, planned one by one: of each only its figures stay, its plan goes."""

from __future__ import annotations

import itertools
from collections import deque
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.derived import Premises
from schedules.plan import plan_job
from schedules.teaching.choices import option_model
from schedules.teaching.wiring import Wiring, wiring_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from concurrent.futures import Future

    from schedules.job.records import Job
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet


_CHUNK = 4
"""Combinations that a worker is handed at a time."""

_AHEAD = 4
"""Chunks for each worker that are handed out before the first of them is taken back."""


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
            yield from _side_by_side(pool, every, workers)
        finally:
            pool.shutdown(cancel_futures=True)


def _side_by_side(
    pool: ProcessPoolExecutor, every: Iterator[tuple[str, ...]], workers: int
) -> Iterator[Combination]:
    """Hand out chunks only as far ahead as keeps every worker busy: what waits does not grow with their number."""
    handed: deque[Future[list[Combination]]] = deque()
    while chunk := list(itertools.islice(every, _CHUNK)):
        handed.append(pool.submit(_plan_here, chunk))
        if len(handed) > _AHEAD * workers:
            yield from handed.popleft().result()
    while handed:
        yield from handed.popleft().result()


def _planned(sheet: Sheet, job: Job, choices: tuple[str, ...], premises: Premises) -> Combination:
    plan = plan_with(sheet, job, choices, premises)
    return Combination(choices, wiring_of(plan), sum(item.severity.blocks for item in plan.findings))


# What a worker process plans for: set once in each, so that a sheet is not sent with every combination.
_here: list[tuple[Sheet, Job, Premises]] = []


def _begin(sheet: Sheet, job: Job) -> None:
    _here.append((sheet, job, Premises(sheet, job)))


def _plan_here(chunk: list[tuple[str, ...]]) -> list[Combination]:
    sheet, job, premises = _here[-1]
    return [_planned(sheet, job, choices, premises) for choices in chunk]
