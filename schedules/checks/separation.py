"""Are power and power-limited conductors apart in every cable, raceway and compartment?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.checks.landing_remedies import declass
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.raceways.openings import used_openings
from schedules.sheet.hardware import POWER_LIMITED
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.raceways.openings import UsedOpening
    from schedules.sheet.wiring import Cable
    from schedules.working import Source

_RULE = "power-limited conductors share no cable, raceway or undivided enclosure with power conductors"


def check_separation(derived: Derived) -> Iterator[Finding]:
    """Check cables' ends, raceways and the compartments that cables pass and land in."""
    source = rule("class_2_separation", derived.job.adopted).source
    yield from _in_cables(derived, source)
    yield from _in_raceways(derived, source)
    yield from _in_compartments(derived, source)
    yield from _wrong_openings(derived, source)


def is_limited(circuit_class: str) -> bool:
    """Whether conductors of this class are power-limited."""
    return circuit_class in POWER_LIMITED


def _in_cables(derived: Derived, source: Source) -> Iterator[Finding]:
    landings = derived.connections.landings
    for conductor in derived.connections.conductors.values():
        for end in (conductor.a, conductor.b):
            if is_limited(landings[end].circuit_class) != is_limited(conductor.circuit_class):
                yield Finding(
                    code="class-mixed-at-terminal",
                    severity=Severity.STOP,
                    subject=conductor.number,
                    says=(
                        f"conductor {conductor.number} of {conductor.cable} is {conductor.circuit_class}, "
                        f"terminal {end} is {landings[end].circuit_class}"
                    ),
                    rule=_RULE,
                    source=source,
                    remedies=(declass(conductor, landings[end]),),
                )


def _in_raceways(derived: Derived, source: Source) -> Iterator[Finding]:
    cables = {cable.tag: cable for cable in derived.selection.cables}
    for raceway in derived.job.raceway:
        inside = [cables[tag] for tag in raceway.cables if tag in cables]
        limited = [cable for cable in inside if is_limited(cable.circuit_class)]
        power = [cable for cable in inside if not is_limited(cable.circuit_class)]
        if limited and power:
            keep = [cable.tag for cable in inside if cable not in limited]
            yield Finding(
                code="class-mixed-in-raceway",
                severity=Severity.STOP,
                subject=raceway.tag,
                says=f"raceway {raceway.tag} holds power-limited {_tags(limited)} beside power {_tags(power)}",
                rule=_RULE,
                source=source,
                answer=("raceway", raceway.tag, "cables"),
                remedies=(
                    Remedy(
                        f"run {_tags(limited)} outside {raceway.tag}",
                        (Edit("raceway", raceway.tag, "cables", keep),),
                    ),
                ),
            )


def _in_compartments(derived: Derived, source: Source) -> Iterator[Finding]:
    """What lands in one undivided space is all of one kind; a sheet's compartments are separate spaces."""
    landings = derived.connections.landings
    spaces: dict[tuple[str, str | None], dict[bool, list[str]]] = {}
    for conductor in derived.connections.conductors.values():
        for end in (conductor.a, conductor.b):
            space = (landings[end].enclosure, landings[end].compartment)
            kinds = spaces.setdefault(space, {True: [], False: []})
            kinds[is_limited(conductor.circuit_class)].append(conductor.cable)
    for (enclosure, compartment), kinds in spaces.items():
        if kinds[True] and kinds[False]:
            where = (
                f"compartment {compartment} of {enclosure}"
                if compartment
                else f"{enclosure}, which is undivided,"
            )
            yield Finding(
                code="class-mixed-in-enclosure",
                severity=Severity.STOP,
                subject=enclosure,
                says=f"in {where} power-limited {_unique(kinds[True])} lands beside power {_unique(kinds[False])}",
                rule=_RULE,
                source=source,
                remedies=(
                    Remedy(
                        f"in the equipment sheet, give the terminals and openings of {_unique(kinds[True])} a "
                        f"`compartment` of their own in {enclosure}, if its maker has a barrier there; else end them "
                        "in a box of their own"
                    ),
                ),
            )


def _wrong_openings(derived: Derived, source: Source) -> Iterator[Finding]:
    """A cable enters the compartment that its conductors land in, not another one of the same enclosure."""
    openings = {item.tag: item for item in derived.selection.openings}
    for cable in derived.selection.cables:
        for used in used_openings(derived.job, cable):
            compartment = openings[used.opening].compartment if used.opening in openings else None
            lands_in = _compartments(derived, cable, used.enclosure)
            if compartment is None or not lands_in or compartment in lands_in:
                continue
            there = [
                item
                for item in derived.selection.cables
                if compartment in _compartments(derived, item, used.enclosure)
            ]
            if any(is_limited(item.circuit_class) != is_limited(cable.circuit_class) for item in there):
                yield _through_wrong_space(cable, used, compartment, source)


def _through_wrong_space(cable: Cable, used: UsedOpening, compartment: str, source: Source) -> Finding:
    remedies: tuple[Remedy, ...] = ()
    if used.answer is not None:
        words = f"bring {cable.tag} in by the opening that the equipment sheet gives it"
        remedies = (Remedy(words, (Edit(*used.answer, None),)),)
    return Finding(
        code="class-mixed-by-opening",
        severity=Severity.STOP,
        subject=cable.tag,
        says=(
            f"{cable.tag} ({cable.circuit_class}) enters {used.enclosure} by {used.opening} into the {compartment} "
            "compartment, where conductors of the other kind are"
        ),
        rule=_RULE,
        source=source,
        numbers=(Input("opening", used.opening, "job"), Input("compartment", compartment, "sheet")),
        answer=used.answer,
        remedies=remedies,
    )


def _compartments(derived: Derived, cable: Cable, enclosure: str) -> set[str | None]:
    landings = derived.connections.landings
    return {
        landings[end].compartment
        for conductor in derived.connections.conductors.values()
        if conductor.cable == cable.tag
        for end in (conductor.a, conductor.b)
        if landings[end].enclosure == enclosure
    }


def _tags(cables: list[Cable]) -> str:
    return _unique([cable.tag for cable in cables])


def _unique(tags: list[str]) -> str:
    return ", ".join(dict.fromkeys(tags))
