"""Do appliances, receptacles and cords suit their circuits, and is what decides it known?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.circuits.branch_circuits import on_small_appliance_circuit
from schedules.circuits.circuit_plan import receptacles_on
from schedules.circuits.circuit_protection import feeds_receptacle
from schedules.circuits.cooking_load import unnamed_appliances
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.sheet.hardware import Load
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.circuits.cooking_load import CookingLoad
    from schedules.connections.points import Inside
    from schedules.derived import Derived
    from schedules.site.routes import Answer
    from schedules.tables.edition import Code
    from schedules.working import Source


def check_outlets(derived: Derived) -> Iterator[Finding]:
    """Check cooking appliances, receptacles, the hood's cord and company, and small-appliance circuits."""
    edition = derived.job.adopted
    for planned in derived.branches:
        yield from _cooking(derived, planned, edition)
        yield from _receptacle(planned, edition)
        yield from _cord(planned, edition)
        yield from _company(planned, edition)
        yield from _small_appliance(derived, planned, edition)


def _cooking(derived: Derived, planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit, cooking = planned.circuit, planned.cooking
    if cooking is not None and cooking.refused:
        yield Finding(
            code="cooking-company",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"{circuit.tag} ({circuit.name}): {cooking.refused}",
            rule="one circuit feeds one range, oven or cooktop, or a cooktop with few ovens",
            source=rule("range_demand_branch", edition).source,
            remedies=(Remedy(_parted(circuit.tag, cooking)),),
        )
    for key in unnamed_appliances(planned.need.feeds, derived.connections, derived.sheet, edition):
        yield Finding(
            code="appliance-open",
            severity=Severity.CHECK,
            subject=key,
            says=(
                f"nobody says what {key} on {circuit.tag} is: a range, a cooktop or a wall oven; it counts in full, "
                "and whether it needs a GFCI stays open"
            ),
            rule="demand and ground-fault protection go by the kind of appliance; the installer reads its nameplate",
            source=rule("range_demand_branch", edition).source,
            answer=("nameplate", key, "appliance"),
        )


def _parted(tag: str, cooking: CookingLoad) -> str:
    names = [f"{item.load} ({item.appliance}, {item.rating_kw:g} kW)" for item in cooking.appliances]
    return (
        f"leave one of {', '.join(names)} on {tag} and give each other one a circuit of its own in the equipment "
        "sheet; or, where one is not what stands here, say in the job what it is"
    )


def _receptacle(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit = planned.circuit
    if circuit.serves == "cooking" and circuit.connection is None and not feeds_receptacle(circuit):
        yield _asked(
            planned,
            "connection-open",
            f"nobody says whether {circuit.tag} ({circuit.name}) ends in a receptacle or is wired in",
            rule("cooktop_oven_connection", edition).source,
            ("circuit", circuit.tag, "connection"),
        )
    allowed = planned.receptacle
    if allowed is None:
        return
    least = allowed.least_a
    if planned.cooking is not None and planned.cooking.receptacle is not None:
        least = min(least, planned.cooking.receptacle.rating_a)
    words = f"{least} A or more" if allowed.most_a is None else f"{least} to {allowed.most_a} A"
    answer = ("circuit", circuit.tag, "receptacle")
    if circuit.receptacle is None:
        says = f"nobody gives the rating of the receptacle on {circuit.tag}: {words} is allowed"
        yield _asked(planned, "receptacle-open", says, allowed.working.source, answer)
    elif circuit.receptacle < least or (allowed.most_a is not None and circuit.receptacle > allowed.most_a):
        yield Finding(
            code="receptacle-rating",
            severity=Severity.FIX,
            subject=circuit.tag,
            says=(
                f"{circuit.tag} of {circuit.rating:g} A has {receptacles_on(circuit)} receptacles of "
                f"{circuit.receptacle:g} A; {words} is allowed"
            ),
            rule="a receptacle suits its circuit, a range's its demand",
            source=allowed.working.source,
            numbers=allowed.working.inputs,
            answer=answer,
            remedies=(
                Remedy(
                    f"set receptacles of {allowed.least_a} A on {circuit.tag}",
                    (Edit(*answer, f"{allowed.least_a} A"),),
                ),
            ),
        )


def _cord(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit = planned.circuit
    if not planned.hood or circuit.connection != "cord":
        return
    if planned.cord is None:
        missing = _missing_of_cord(planned)
        yield _asked(
            planned,
            "cord-open",
            f"the hood on {circuit.tag} has cord and plug, but nobody says {' and '.join(missing)}",
            rule("hood_cord_min", edition).source,
            ("circuit", circuit.tag, "receptacle_accessible"),
        )
    elif not planned.cord.holds:
        yield Finding(
            code="cord-not-allowed",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"the hood on {circuit.tag} may not have its cord so: {'; '.join(planned.cord.reasons)}",
            rule="a hood has cord and plug only as its instructions and the code allow",
            source=planned.cord.working.source,
            numbers=planned.cord.working.inputs,
            answer=("circuit", circuit.tag, "connection"),
            remedies=(
                Remedy(
                    "wire the hood in, without cord and plug",
                    (Edit("circuit", circuit.tag, "connection", "hardwired"),),
                ),
            ),
        )


def _missing_of_cord(planned: CircuitPlan) -> list[str]:
    circuit = planned.circuit
    facts = (
        ("what cord the maker fitted and allows", circuit.cord),
        ("whether the receptacle can be reached", circuit.receptacle_accessible),
        ("whether the cord is out of harm's way", circuit.cord_protected),
    )
    return [words for words, fact in facts if fact is None]


def _company(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit = planned.circuit
    if not planned.hood or circuit.individual:
        return
    answer = ("circuit", circuit.tag, "shares_with")
    if planned.company is None:
        share = rule("fastened_load_share", edition)
        yield _asked(
            planned,
            "company-open",
            (
                f"{circuit.tag} ({circuit.name}) isn't an individual circuit, and nobody says what else is on it: the "
                f"hood takes {planned.need.drawn_a:.1f} A; beside lights or portable loads {share.number:g} % of "
                f"{circuit.rating:g} A is allowed, on a small-appliance circuit nothing"
            ),
            share.source,
            answer,
        )
    elif not planned.company.holds:
        yield Finding(
            code="company-not-allowed",
            severity=Severity.STOP,
            subject=circuit.tag,
            says=f"the hood may not be on {circuit.tag} so: {'; '.join(planned.company.reasons)}",
            rule="a hood shares a circuit only up to a share of it, and never with the small-appliance receptacles",
            source=planned.company.working.source,
            numbers=planned.company.working.inputs,
            answer=answer,
            remedies=(Remedy(f"let nothing else be on {circuit.tag}", (Edit(*answer, "nothing"),)),),
        )


def _small_appliance(derived: Derived, planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    circuit = planned.circuit
    if not circuit.small_appliance:
        return
    for key in planned.need.feeds:
        outlet = _outlet(derived, derived.connections.inside[key])
        verdict = on_small_appliance_circuit(outlet, edition=edition)
        if not verdict.holds:
            yield Finding(
                code="small-appliance-other",
                severity=Severity.STOP,
                subject=circuit.tag,
                says=f"{circuit.tag} is a small-appliance circuit, but also feeds {key}",
                rule="small-appliance circuits have no other outlets than the receptacles that they are meant for",
                source=verdict.working.source,
                answer=("circuit", circuit.tag, "small_appliance"),
                remedies=(
                    Remedy(f"feed {key} from another circuit"),
                    Remedy(
                        f"say that {circuit.tag} is none of the small-appliance circuits, if it isn't",
                        (Edit("circuit", circuit.tag, "small_appliance", value=False),),
                    ),
                ),
            )


def _outlet(derived: Derived, inside: Inside) -> str:
    """What a load is to a small-appliance circuit: by its appliance, else a receptacle where it is in a box."""
    spec = inside.spec
    if isinstance(spec, Load) and spec.appliance == "gas range":
        return "gas range receptacle"
    kinds = {item.tag: item.kind for item in derived.selection.enclosures}
    in_box = kinds.get(derived.connections.landings[inside.a].enclosure) == "box"
    fixed = isinstance(spec, Load) and spec.appliance not in (None, "other")
    return "countertop receptacle" if in_box and not fixed else inside.key


def _asked(planned: CircuitPlan, code: str, says: str, source: Source, answer: Answer) -> Finding:
    """A missing datum: asked for, never guessed."""
    return Finding(
        code=code,
        severity=Severity.CHECK,
        subject=planned.circuit.tag,
        says=says,
        rule="what decides it is stated in the equipment sheet or the job",
        source=source,
        numbers=(Input("circuit", f"{planned.circuit.rating:g} A", "sheet"),),
        answer=answer,
    )
