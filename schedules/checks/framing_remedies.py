"""What can be done where wiring doesn't fit its framing, as edits of the job that can be planned again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.framing.framing_plan import framing_code
from schedules.framing.wall_remedies import WallRemedy, wall_remedies
from schedules.framing.walls import Wall, raceway_in_wall
from schedules.quantities.lengths import format_length
from schedules.site.lumber import lumber_sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.framing.framing_plan import FramingPlan
    from schedules.job.building import Framing
    from schedules.raceways.raceway_plan import RacewayPlan

_FURRING_STEP_IN = 0.25


def framing_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """Every way out for one piece of framing, least building work first."""
    plan = next((item for item in derived.framing if item.framing.tag == tag), None)
    if plan is None or plan.framing.way != "through":
        return
    framing = plan.framing
    raceway = next((item for item in derived.raceways if item.raceway == framing.raceway), None)
    if raceway is not None and raceway.size is not None and framing.member != "joist":
        yield from _of_wall(derived, plan, raceway)
        return
    yield from _deeper(framing)
    yield Remedy(f"run {plan.passes} on the surface, out of harm's way", (_set(framing, "way", "surface"),))


def _of_wall(derived: Derived, plan: FramingPlan, raceway: RacewayPlan) -> Iterator[Remedy]:
    """The wall's own list; without a known outside diameter only what doesn't need it."""
    framing = plan.framing
    wall = Wall(framing.lumber, framing.bearing is not False, framing.doubled)
    edition, framing_edition = derived.job.adopted, framing_code(derived.job)
    try:
        refused = raceway_in_wall(
            raceway.kind,
            str(raceway.size),
            wall,
            way="up the bay" if framing.member == "plate" else "through the studs",
            outside_in=plan.across_in,
            edition=edition,
            framing_edition=framing_edition,
        )
    except LookupError:
        return
    if refused.fits or not raceway.pulls:
        return
    for found in wall_remedies(
        refused, raceway.pulls, bends=raceway.bends, edition=edition, framing_edition=framing_edition
    ):
        edits = tuple(_edits(derived, framing, raceway, found))
        if edits:
            yield Remedy(found.words, edits)


def _edits(derived: Derived, framing: Framing, raceway: RacewayPlan, found: WallRemedy) -> Iterator[Edit]:
    match found.kind:
        case "smaller raceway":
            sized = found.raceways[0]
            yield Edit("raceway", raceway.raceway, "kind", sized.raceway)
            yield Edit("raceway", raceway.raceway, "trade_size", sized.trade_size)
            yield from _own_cut_away(framing)
        case "split":
            yield from _split(derived, framing, raceway, found)
        case "up the bay":
            yield _set(framing, "member", "plate")
            yield from _own_cut_away(framing)
            if found.fits[0].tie is not None and found.fits[0].tie.holds:
                yield _set(framing, "tie", True)
        case "wider wall":
            yield _set(framing, "lumber", found.fits[0].wall.stud)
        case "fur out":
            depth = math.ceil((found.depth_in or 0.0) / _FURRING_STEP_IN) * _FURRING_STEP_IN
            yield _set(framing, "way", "furred")
            yield _set(framing, "furring", format_length(depth))
        case "surface":
            yield _set(framing, "way", "surface")


def _split(derived: Derived, framing: Framing, raceway: RacewayPlan, found: WallRemedy) -> Iterator[Edit]:
    """The rest of the cables in a second raceway beside the first, through the same framing."""
    first, second = found.raceways
    beside = _free("R", {item.tag for item in derived.job.raceway})
    passed = _free("F", {item.tag for item in derived.job.framing})
    yield Edit("raceway", raceway.raceway, "cables", list(found.shared[0]))
    yield Edit("raceway", raceway.raceway, "trade_size", first.trade_size)
    yield Edit("raceway", beside, "kind", second.raceway)
    yield Edit("raceway", beside, "cables", list(found.shared[1]))
    yield Edit("raceway", beside, "trade_size", second.trade_size)
    yield from _own_cut_away(framing)
    for key, value in (
        ("raceway", beside),
        ("member", framing.member),
        ("lumber", framing.lumber),
        ("bearing", framing.bearing is not False),
        ("doubled", framing.doubled),
        ("steel_plate", framing.steel_plate),
    ):
        yield Edit("framing", passed, key, value)


def _own_cut_away(framing: Framing) -> Iterator[Edit]:
    """What the job said of the old cut doesn't hold for another raceway."""
    for key in ("hole", "notch", "edge"):
        if getattr(framing, key) is not None:
            yield _set(framing, key, None)


def _deeper(framing: Framing) -> Iterator[Remedy]:
    sizes = lumber_sizes()
    if framing.lumber in sizes:
        for size in sizes[sizes.index(framing.lumber) + 1 :]:
            yield Remedy(f"frame with {size} {framing.member}s", (_set(framing, "lumber", size),))


def _set(framing: Framing, key: str, value: object) -> Edit:
    return Edit("framing", framing.tag, key, value)


def _free(letter: str, taken: set[str]) -> str:
    return next(tag for number in range(1, len(taken) + 2) if (tag := f"{letter}{number}") not in taken)
