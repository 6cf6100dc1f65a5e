"""What lets cables be pulled through a raceway, as edits of the job that can be planned again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.quantities.lengths import format_length
from schedules.raceways.bends import with_pull_boxes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.raceways.bends import Bend


def bend_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """The fewest pull boxes that part too many bends."""
    plan = next((item for item in derived.raceways if item.raceway == tag), None)
    if plan is None:
        return
    boxed = with_pull_boxes(plan.bends, edition=derived.job.adopted)
    added = [
        number
        for number, (old, new) in enumerate(zip(plan.bends, boxed, strict=True), start=1)
        if new.pull_box and not old.pull_box
    ]
    places = " and ".join(f"bend {number}" for number in added)
    words = f"set a pull box in {tag} after {places}, where it stays reachable"
    yield Remedy(words, (Edit("raceway", tag, "bend", [_written(bend) for bend in boxed]),))


def _written(bend: Bend) -> dict[str, str]:
    """A bend as the job's file has it."""
    written = {"angle": f"{bend.degrees:g} deg"}
    if bend.radius_in is not None:
        written["radius"] = format_length(bend.radius_in, resolution_denominator=64)
    if bend.pull_box:
        written["then"] = "pull box"
    return written
