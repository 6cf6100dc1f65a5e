"""Does every connector pass its raceway and its openings, and is every raceway that the maker asks for planned?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.raceways.openings import Entry
    from schedules.raceways.raceway_plan import RacewayPlan
    from schedules.raceways.trade_size import RacewaySize

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_passing(derived: Derived) -> Iterator[Finding]:
    """Check raceways, openings, and raceways that are prescribed but not planned."""
    for raceway in derived.raceways:
        yield from _raceway(raceway)
    for entry in derived.entries:
        if not entry.passes:
            yield _opening(entry)
    yield from _unplanned(derived)


def _raceway(planned: RacewayPlan) -> Iterator[Finding]:
    if planned.unknown:
        tags = ", ".join(planned.unknown)
        yield Finding(
            code="cable-width-unknown",
            severity=Severity.CHECK,
            subject=planned.raceway,
            says=f"{planned.raceway} is sized without {tags}: neither sheet nor table gives its width",
            rule="every cable in a raceway counts with its real width; take it from its maker's data",
            source=_SHEET,
            answer=("raceway", planned.raceway, "cables"),
        )
    if planned.sized is None:
        return
    if not planned.large_enough:
        yield _too_small(planned, planned.sized)
    yield from _bends(planned, planned.sized)
    jam = planned.sized.jam
    if jam is not None and jam.likely:
        yield Finding(
            code="raceway-jam",
            severity=Severity.CHECK,
            subject=planned.raceway,
            says=f"three conductors of this size are likely to jam in {planned.raceway}",
            rule="the ratio of bore to conductor stays out of the band in which three conductors wedge",
            source=jam.working.source,
            numbers=(Input("ratio", f"{jam.ratio:.2f}", "plan"),),
            answer=("raceway", planned.raceway, "trade_size"),
        )


def _bends(planned: RacewayPlan, sized: RacewaySize) -> Iterator[Finding]:
    if not sized.bends.allowed:
        yield Finding(
            code="raceway-bends",
            severity=Severity.FIX,
            subject=planned.raceway,
            says=f"{planned.raceway} has {sized.bends.degrees:g}° of bends between two pull points",
            rule=f"bends between two pull points add up to at most {sized.bends.limit_degrees:g}°: add a pull point",
            source=sized.bends.working.source,
            numbers=(Input("bends", f"{sized.bends.degrees:g}°", "job"),),
            answer=("raceway", planned.raceway, "bend"),
        )


def _opening(entry: Entry) -> Finding:
    plug, passage = entry.plug, entry.passage
    if plug is None or passage is None:
        raise ValueError(f"{entry.cable} has nothing that must pass {entry.opening.tag}")
    return Finding(
        code="opening-small",
        severity=Severity.STOP,
        subject=entry.cable,
        says=(
            f"{plug.name} of {entry.cable} needs {passage.needed_in:.2f} in, "
            f"opening {entry.opening.tag} leaves {passage.clear_in:.2f} in"
        ),
        rule="an opening passes the connector of the cable that enters by it",
        source=passage.working.source,
        numbers=passage.working.inputs,
        answer=entry.used.answer,
    )


def _too_small(planned: RacewayPlan, sized: RacewaySize) -> Finding:
    answer = ("raceway", planned.raceway, "trade_size")
    demands = tuple(Input(demand.rule, demand.trade_size or "none made", "plan") for demand in sized.demands)
    why = " and ".join(sized.governed_by)
    remedies: tuple[Remedy, ...] = ()
    if planned.needed is None:
        says = f"no {planned.kind} is large enough for {planned.raceway}: {why}"
    else:
        says = f"{planned.raceway} is {planned.kind} {planned.given}, but {why} needs {planned.needed}"
        words = f"make {planned.raceway} {planned.kind} {planned.needed}"
        remedies = (Remedy(words, (Edit(*answer, str(planned.needed)),)),)
    return Finding(
        code="raceway-small",
        severity=Severity.STOP,
        subject=planned.raceway,
        says=says,
        rule="a raceway meets its fill, passes every connector in pull order, and is no smaller than prescribed",
        source=sized.working.source,
        numbers=(Input("planned", f"{planned.kind} {planned.given}", "job"), *demands),
        answer=answer,
        remedies=remedies,
    )


def _unplanned(derived: Derived) -> Iterator[Finding]:
    planned = {tag for raceway in derived.job.raceway for tag in raceway.cables}
    for cable in derived.selection.cables:
        if cable.raceway is None or cable.tag in planned:
            continue
        tag = _free_tag(derived)
        size = f"trade size {cable.raceway}"
        yield Finding(
            code="raceway-missing",
            severity=Severity.FIX,
            subject=cable.tag,
            says=f"the maker wants {cable.tag} ({cable.name}) in a raceway of at least {size}; none is planned",
            rule="what the maker prescribes is planned before cover",
            source=_SHEET,
            numbers=(Input("least size", str(cable.raceway), "sheet"),),
            answer=("raceway", tag, "cables"),
            remedies=(
                Remedy(
                    f"plan raceway {tag} for {cable.tag}: EMT, {size}",
                    (
                        Edit("raceway", tag, "kind", "EMT"),
                        Edit("raceway", tag, "cables", [cable.tag]),
                        Edit("raceway", tag, "trade_size", str(cable.raceway)),
                    ),
                ),
            ),
        )


def _free_tag(derived: Derived) -> str:
    taken = {raceway.tag for raceway in derived.job.raceway}
    return next(tag for number in range(1, len(taken) + 2) if (tag := f"R{number}") not in taken)
