"""The fewest demonstrations that show every pair of choices, in the order in which each differs least from the last."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.comparison import Comparison, compare
from schedules.derived import Premises
from schedules.teaching.choices import option_model
from schedules.teaching.combos import plan_with
from schedules.teaching.covering import cover
from schedules.teaching.ordering import EXACT_UP_TO, shortest_path
from schedules.teaching.wiring import facts_of

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Demonstration:
    """One combination to show. choices: in the sheet's order. rows: of the wiring that differ from the one before.

    change: against the demonstration before, None for the first.
    """

    choices: tuple[str, ...]
    plan: Plan
    rows: int
    change: Comparison | None


@dataclass(frozen=True, slots=True)
class Deck:
    """strength: how many choices are shown together. shown: so many sets of choices; at_least: no deck
    is smaller than this. ordered_exactly: no other order of these differs less in total.
    """

    strength: int
    demonstrations: tuple[Demonstration, ...]
    shown: int
    at_least: int
    ordered_exactly: bool

    @property
    def proved_smallest(self) -> bool:
        """Whether no deck with fewer demonstrations exists."""
        return len(self.demonstrations) == self.at_least

    @property
    def total_rows(self) -> int:
        """Rows of wiring that change from first to last."""
        return sum(item.rows for item in self.demonstrations)


def make_deck(sheet: Sheet, job: Job, strength: int = 2) -> Deck:
    """The deck of a sheet's choices, shown in one kitchen: a pure function of both.

    Raises ValueError where the sheet's rules allow no combination.
    """
    options = option_model(sheet)
    if not options.model.count():
        raise ValueError("the sheet's rules allow no combination; combos --barred tells which rule bars what")
    covering = cover(options.model, strength)
    order = {choice.id: place for place, choice in enumerate(sheet.choices)}
    cards = [tuple(sorted(options.choices(row), key=order.__getitem__)) for row in covering.rows]
    premises = Premises(sheet, job)
    plans = [plan_with(sheet, job, choices, premises) for choices in cards]
    facts = [facts_of(plan) for plan in plans]
    distances = [[len(one ^ other) for other in facts] for one in facts]
    path = shortest_path(distances)
    # Of both directions, the one that begins with less to explain.
    if len(facts[path[-1]]) < len(facts[path[0]]):
        path = path[::-1]
    demonstrations = [Demonstration(cards[path[0]], plans[path[0]], 0, None)]
    demonstrations += [
        Demonstration(
            cards[now], plans[now], distances[was][now], compare(plans[was], plans[now], interlocks=True)
        )
        for was, now in itertools.pairwise(path)
    ]
    return Deck(
        strength, tuple(demonstrations), covering.targets, covering.at_least, len(path) <= EXACT_UP_TO
    )
