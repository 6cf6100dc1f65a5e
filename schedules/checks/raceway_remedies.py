"""What lets cables be pulled through a raceway, as edits of the job that can be planned again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.quantities.lengths import format_length
from schedules.raceways.bends import with_pull_boxes
from schedules.raceways.fill import jam, trade_sizes
from schedules.raceways.openings import opening_clear
from schedules.raceways.passage import pass_opening

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.raceways.bends import Bend
    from schedules.raceways.openings import Entry
    from schedules.sheet.hardware import Opening


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


def jam_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """The next trade size in which three conductors don't wedge."""
    plan = next((item for item in derived.raceways if item.raceway == tag), None)
    if plan is None or plan.size is None:
        return
    made = trade_sizes(plan.kind)
    occupants = [pull.occupant for pull in plan.pulls]
    for size in made[made.index(str(plan.size)) + 1 :]:
        ratio = jam(plan.kind, size, occupants, edition=derived.job.adopted)
        if ratio is not None and not ratio.likely:
            yield Remedy(f"make {tag} {plan.kind} {size}", (Edit("raceway", tag, "trade_size", size),))
            return


def entry_remedies(derived: Derived, cable: str) -> Iterator[Remedy]:
    """Another opening of the same enclosure that the cable's plug passes; else the width that one must leave."""
    ends = next(item for item in derived.selection.cables if item.tag == cable)
    for entry in derived.entries:
        if entry.cable != cable or entry.passes or entry.passage is None:
            continue
        field = "from_opening" if entry.used.enclosure == ends.origin.enclosure else "to_opening"
        wide = [item for item in _others(derived, entry) if _passes(derived, entry, item)]
        for opening in wide:
            yield Remedy(f"bring {cable} in by {opening.tag}", (Edit("run", cable, field, opening.tag),))
        if not wide:
            yield Remedy(
                f"no opening of {entry.used.enclosure} passes it: it takes one that leaves "
                f"{entry.passage.needed_in:.2f} in clear, by the maker's word or a part of the maker's"
            )


def _others(derived: Derived, entry: Entry) -> Iterator[Opening]:
    """Openings of the same enclosure into the same compartment, the narrowest first."""
    same = (
        item
        for item in derived.selection.openings
        if item.enclosure == entry.used.enclosure
        and item.tag != entry.opening.tag
        and item.compartment == entry.opening.compartment
    )
    return iter(sorted(same, key=lambda item: (opening_clear(item, None, derived.job.adopted), item.tag)))


def _passes(derived: Derived, entry: Entry, opening: Opening) -> bool:
    clear = opening_clear(opening, None, derived.job.adopted)
    return entry.plug is not None and pass_opening(clear, entry.plug).passes
