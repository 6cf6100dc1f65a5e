"""Every view of every option combination of the sample sheets, and random pictures and circuits: counted, not assumed.

A small part runs with the other tests. The whole of it, some thousands of drawings, by hand:

    python -m tests.sweep                  # everything, by one process for each core
    python -m tests.sweep fescue 0 40      # a part: combinations 0 to 39 of one sheet
    python -m tests.sweep random 0 1000    # random pictures and circuits by seed
"""

from __future__ import annotations

import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.connections.options import combinations
from schedules.drawings.drawing import draw
from schedules.drawings.errors import DrawingError
from schedules.drawings.ladder.drawing import draw_ladder
from schedules.drawings.ladder.views import circuit_ladder, effects, interlock_ladder, ladder
from schedules.drawings.split import draw_pages
from schedules.drawings.views import one_circuit, one_enclosure, overview, point_to_point
from schedules.plan import plan_job
from schedules.planned import plan_file
from tests.ladders import series_parallel, tangled
from tests.pictures import random_picture

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.plan import Plan

SAMPLES = Path(__file__).parents[1] / "samples"
JOB_OF = {"fescue": "loft-gas", "marram": "corner-electric"}
RANDOM = "random"
RANDOM_COUNT = 1_000
_CHUNK = 20

Figures = Counter[str]


@cache
def _sample(sheet: str) -> Plan:
    return plan_file(SAMPLES / "jobs" / f"{JOB_OF[sheet]}.toml", remedies=False).plan


@cache
def choices_of(sheet: str) -> tuple[frozenset[str], ...]:
    """Every valid combination of a sample sheet, in a fixed order."""
    found = combinations(_sample(sheet).derived.sheet)
    return tuple(sorted(found, key=sorted))


def plan_of(sheet: str, number: int) -> Plan:
    """The plan of one combination, in the sample's kitchen."""
    derived = _sample(sheet).derived
    choices = tuple(sorted(choices_of(sheet)[number]))
    return plan_job(derived.sheet, derived.job.model_copy(update={"choices": choices}))


def sweep_combination(sheet: str, number: int) -> Figures:
    """All views of one combination."""
    plan = plan_of(sheet, number)
    figures: Figures = Counter(combinations=1)
    pictures = (
        overview(plan),
        point_to_point(plan),
        *(one_enclosure(plan, item.tag) for item in plan.derived.selection.enclosures),
        *(one_circuit(plan, need.circuit.tag) for need in plan.derived.circuits),
    )
    ladders = (
        ladder(plan),
        *(circuit_ladder(plan, need.circuit.tag) for need in plan.derived.circuits),
        *(interlock_ladder(plan, effect) for effect in effects(plan)),
    )
    for picture in pictures:
        for drawing in _counted(figures, lambda picture=picture: draw_pages(picture)):  # type: ignore[misc]
            figures["unreadable pages"] += not drawing.on(picture.paper).readable
    for view in ladders:
        for page in _counted(figures, lambda view=view: draw_ladder(view)):  # type: ignore[misc]
            figures["unreadable ladder pages"] += not page.on(view.paper).readable
    return figures


def sweep_seed(seed: int) -> Figures:
    """One random picture, one circuit in series and parallel, one tangled."""
    figures: Figures = Counter(seeds=1)
    for make in (
        lambda: (draw(random_picture(seed)),),
        lambda: draw_ladder(series_parallel(seed)),
        lambda: draw_ladder(tangled(seed)),
    ):
        for _ in _counted(figures, make):
            pass
    return figures


def _counted(figures: Figures, make: Callable[[], tuple]) -> Iterator:  # type: ignore[type-arg]
    """Drawings that are proved; those that are not, by what is wrong with them."""
    try:
        drawings = make()
    except DrawingError as error:
        figures["not proved"] += 1
        figures.update(f"failure: {_kind(failure)}" for failure in error.failures)
        return
    figures["drawings proved"] += len(drawings)
    yield from drawings


def _kind(failure: str) -> str:
    for kind in ("overlap", "share a stretch", "does not end on", "joins", "runs over", "is not drawn"):
        if kind in failure:
            return kind
    return failure[:60]


def sweep_part(part: tuple[str, int, int]) -> Figures:
    """Combinations of one sheet, or seeds, from one number to before another."""
    name, first, last = part
    one = sweep_seed if name == RANDOM else lambda number: sweep_combination(name, number)
    figures: Figures = Counter()
    for number in range(first, last):
        figures.update(one(number))
    return figures


def parts() -> Iterator[tuple[str, int, int]]:
    """The whole sweep in parts of equal size."""
    sizes = {sheet: len(choices_of(sheet)) for sheet in JOB_OF} | {RANDOM: RANDOM_COUNT}
    return chain.from_iterable(
        ((name, first, min(first + _CHUNK, size)) for first in range(0, size, _CHUNK))
        for name, size in sizes.items()
    )


def main(arguments: list[str]) -> int:
    """Sweep, print the figures; 1 where anything was not proved."""
    figures: Figures = Counter()
    if arguments:
        name, first, last = arguments
        figures = sweep_part((name, int(first), int(last)))
    else:
        with ProcessPoolExecutor() as pool:
            for found in pool.map(sweep_part, parts()):
                figures.update(found)
    for what, count in sorted(figures.items()):
        print(f"{count:>8}  {what}")
    return int(figures["not proved"] > 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
