"""Does each circuit have the breaker that the code asks for, and what is left to somebody's judgement?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.circuits.circuit_protection import lacking
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Judgement
    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.derived import Derived
    from schedules.job.electrical import CircuitChange
    from schedules.tables.edition import Code


def check_protection(derived: Derived) -> Iterator[Finding]:
    """Check breaker types, multiwire disconnects and shunt trips, and name who decides what the code leaves open."""
    edition = derived.job.adopted
    changes = {item.circuit: item for item in derived.job.circuit}
    for planned in derived.branches:
        change = changes.get(planned.circuit.tag)
        yield from _type(planned, change, edition)
        yield from _open(planned, edition)
        yield from _multiwire(planned, edition)
        yield from _shunt_trip(planned, edition)
        for judgement in _remaining(planned, change, edition):
            yield _left_open(planned, judgement)


def _type(planned: CircuitPlan, change: CircuitChange | None, edition: Code) -> Iterator[Finding]:
    if change is None or change.breaker_type is None:
        return
    circuit, needed = planned.circuit, planned.protection.type
    missing = [
        name
        for name in lacking(change.breaker_type, needed)
        if not (name == "GFCI" and change.gfci_receptacle)
    ]
    if not missing:
        return
    wanted = " and ".join(missing)
    reasons = [
        reason
        for verdict in (*planned.protection.ground_fault, planned.protection.arc_fault)
        if verdict.holds
        for reason in verdict.reasons
    ]
    answer = ("circuit", circuit.tag, "breaker_type")
    yield Finding(
        code="breaker-type",
        severity=Severity.FIX,
        subject=circuit.tag,
        says=f"{circuit.tag} ({circuit.name}) is planned with a {change.breaker_type} breaker, it needs {wanted}",
        rule="; ".join(dict.fromkeys(reasons)),
        source=rule("afci_kitchen" if "AFCI" in missing else "gfci_kitchen", edition).source,
        numbers=(Input("planned", change.breaker_type, "job"), Input("needed", needed, "plan")),
        answer=answer,
        remedies=(Remedy(f"take a breaker of type {needed} for {circuit.tag}", (Edit(*answer, needed),)),),
    )


def _open(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    for words in planned.protection.open:
        yield Finding(
            code="protection-open",
            severity=Severity.CHECK,
            subject=planned.circuit.tag,
            says=f"whether {planned.circuit.tag} needs a GFCI depends on {words}; the job doesn't say it",
            rule="some receptacles of a kitchen are protected by a GFCI, depending on where they are",
            source=rule("gfci_kitchen", edition).source,
            answer=("circuit", planned.circuit.tag, "to_sink"),
        )


def _multiwire(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    if planned.protection.breaker is None:
        yield Finding(
            code="multiwire-disconnect",
            severity=Severity.STOP,
            subject=planned.circuit.tag,
            says=f"{planned.circuit.tag} is a multiwire circuit with one pole: its legs don't open together",
            rule="all ungrounded conductors of a multiwire circuit open together at the panel",
            source=rule("multiwire_disconnect", edition).source,
            remedies=(
                Remedy(
                    "a two-pole breaker, or two one-pole ones with an identified handle tie: the equipment sheet then "
                    f"gives {planned.circuit.tag} two poles"
                ),
            ),
        )


def _shunt_trip(planned: CircuitPlan, edition: Code) -> Iterator[Finding]:
    """A breaker that trips by a coil and by ground fault isn't made for every panel."""
    circuit, needed = planned.circuit, planned.protection.type
    if circuit.shunt_trip is not None and needed != "standard":
        yield Finding(
            code="shunt-trip-breaker",
            severity=Severity.CHECK,
            subject=circuit.tag,
            says=(
                f"{circuit.tag} needs a breaker with shunt trip that is also {needed}: the electrician finds out "
                "whether the panel's maker lists one, or puts the protection elsewhere"
            ),
            rule="equipment is installed as it is listed",
            source=rule("per_instructions", edition).source,
        )


def _remaining(planned: CircuitPlan, change: CircuitChange | None, edition: Code) -> Iterator[Judgement]:
    """Questions that nobody has answered: a stated breaker type says where the GFCI is."""
    decided = change is not None and (
        change.gfci_receptacle or (change.breaker_type is not None and "GFCI" in change.breaker_type)
    )
    place = rule("gfci_access", edition).source
    for judgement in {(item.question, item.who_decides): item for item in planned.judgements}.values():
        if not (decided and judgement.source == place):
            yield judgement


def _left_open(planned: CircuitPlan, judgement: Judgement) -> Finding:
    return Finding(
        code="left-to-judgement",
        severity=Severity.CHECK,
        subject=planned.circuit.tag,
        says=f"{planned.circuit.tag}: {judgement.question} Decided by: {judgement.who_decides}",
        rule="the code leaves this to the person named",
        source=judgement.source,
    )
