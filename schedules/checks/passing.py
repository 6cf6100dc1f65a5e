"""Does every connector pass its raceway and its openings, and is every raceway that the maker asks for planned?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.pulls import PASSING_ALLOWANCE_IN, bore, clear_diameter
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.pulls import Pull

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_passing(derived: Derived) -> Iterator[Finding]:
    """Check raceway sizes, openings, and raceways that are prescribed but not planned."""
    for pull in derived.pulls:
        if not pull.passes:
            yield _too_small(pull)
    for entry in derived.entries:
        if not entry.passes and entry.connector is not None:
            yield Finding(
                code="opening-small",
                severity=Severity.STOP,
                subject=entry.cable,
                says=(
                    f"{entry.connector.name} of {entry.cable} needs {entry.body_in:.2f} in "
                    f"and {PASSING_ALLOWANCE_IN:g} in to spare; "
                    f"opening {entry.opening.tag} is {entry.clear_in:.2f} in clear"
                ),
                rule="an opening passes the connector of the cable that enters by it",
                source=entry.working.source,
                numbers=entry.working.inputs,
                answer=entry.used.answer,
            )
    yield from _unplanned(derived)


def _too_small(pull: Pull) -> Finding:
    numbers = [Input("planned", f"{pull.kind} {pull.given}" if pull.given else "none is large enough", "job")]
    if pull.given is not None:
        numbers.append(Input("bore", f"{bore(pull.kind, pull.given):.3f} in", "table"))
    if pull.connector is not None:
        numbers.append(Input(pull.connector.name, f"{clear_diameter(pull.connector):.3f} in", "sheet"))
    answer = ("raceway", pull.raceway, "trade_size")
    if pull.needed is None:
        says = f"no {pull.kind} is large enough for what {pull.raceway} must pass"
        remedies: tuple[Remedy, ...] = ()
    else:
        says = f"{pull.raceway} is {pull.kind} {pull.given}, but {pull.governed} needs {pull.needed}"
        words = f"make {pull.raceway} {pull.kind} {pull.needed}"
        remedies = (Remedy(words, (Edit(*answer, str(pull.needed)),)),)
    return Finding(
        code="raceway-small",
        severity=Severity.STOP,
        subject=pull.raceway,
        says=says,
        rule="a raceway is no smaller than its maker prescribes, and passes the largest connector pulled through it",
        source=pull.working.source,
        numbers=tuple(numbers),
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
