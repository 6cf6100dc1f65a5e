"""Every view of every option combination of the sample sheets, of random sheets, and random pictures and circuits.

Counted, not assumed. A small part runs with the other tests. The whole of it, some ten thousand drawings, by hand:

    python -m tests.sweep                  # everything, by one process for each core
    python -m tests.sweep into FILE        # the same by one process; cut off, it goes on where it stopped
    python -m tests.sweep sum FILE         # what that has found so far
    python -m tests.sweep fescue 0 40      # a part: combinations 0 to 39 of one sheet
    python -m tests.sweep sheets 0 1000    # random equipment sheets by seed
    python -m tests.sweep random 0 1000    # random pictures and circuits by seed
"""

from __future__ import annotations

import json
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
from tests.equipment_sheets import random_plan
from tests.ladders import series_parallel, tangled
from tests.pictures import random_picture

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.plan import Plan

SAMPLES = Path(__file__).parents[1] / "samples"
JOB_OF = {"fescue": "loft-gas", "marram": "corner-electric"}
SHEETS = "sheets"
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
    return sweep_plan(plan_of(sheet, number)) + Counter(combinations=1)


def sweep_sheet(seed: int) -> Figures:
    """All views of a random equipment sheet."""
    return sweep_plan(random_plan(seed)) + Counter(sheets=1)


def sweep_plan(plan: Plan) -> Figures:
    """All views of a plan."""
    figures: Figures = Counter()
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
    by_seed = {SHEETS: sweep_sheet, RANDOM: sweep_seed}
    one = by_seed.get(name, lambda number: sweep_combination(name, number))
    figures: Figures = Counter()
    for number in range(first, last):
        found = one(number)
        figures.update(found)
        if found["not proved"]:
            figures[f"not proved in {name} {number}"] += 1
    return figures


def parts() -> Iterator[tuple[str, int, int]]:
    """The whole sweep in parts of equal size."""
    sizes = {sheet: len(choices_of(sheet)) for sheet in JOB_OF} | {SHEETS: RANDOM_COUNT, RANDOM: RANDOM_COUNT}
    return chain.from_iterable(
        ((name, first, min(first + _CHUNK, size)) for first in range(0, size, _CHUNK))
        for name, size in sizes.items()
    )


def sweep_into(file: Path) -> None:
    """Sweep part by part, a line of figures for each; parts that the file has already are left out."""
    done = {part for part, _ in _swept(file)}
    with file.open("a", encoding="utf-8") as log:
        for part in parts():
            if part not in done:
                log.write(json.dumps([part, sweep_part(part)]) + "\n")
                log.flush()


def _swept(file: Path) -> list[tuple[tuple[str, int, int], dict[str, int]]]:
    if not file.exists():
        return []
    lines = file.read_text(encoding="utf-8").splitlines()
    return [(tuple(part), figures) for part, figures in map(json.loads, lines)]


def main(arguments: list[str]) -> int:
    """Sweep, print the figures; 1 where anything was not proved."""
    figures: Figures = Counter()
    if len(arguments) == len(("into", "FILE")):
        what, file = arguments
        if what == "into":
            sweep_into(Path(file))
        for _, found in _swept(Path(file)):
            figures.update(found)
    elif arguments:
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
