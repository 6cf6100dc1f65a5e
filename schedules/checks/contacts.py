"""May each contact switch what is behind it, above all a fan by others?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import reaches
from schedules.findings import Finding, Remedy, Severity
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.circuits.switched_loads import SwitchedLoad, SwitchedMotor
    from schedules.derived import Derived
    from schedules.working import Source


def check_contacts(derived: Derived) -> Iterator[Finding]:
    """Check each contact's rating against the loads behind it, and what it says of motors."""
    listed = rule("per_instructions", derived.job.adopted).source
    for switched in derived.switched:
        if switched.rated_a is not None and not reaches(switched.rated_a, switched.current_a):
            yield _overloaded(switched, switched.rated_a, listed)
    for motor in derived.motors:
        yield from _motor(motor, listed)


def _overloaded(switched: SwitchedLoad, rated_a: float, listed: Source) -> Finding:
    return Finding(
        code="contact-overloaded",
        severity=Severity.STOP,
        subject=switched.contact,
        says=(
            f"{switched.contact} may switch {rated_a:g} A, behind it {', '.join(switched.loads)} "
            f"draw {switched.current_a:.1f} A"
        ),
        rule="a contact switches no more than it is marked for",
        source=listed,
        numbers=(
            Input("marked", f"{rated_a:g} A", "sheet"),
            Input("behind it", f"{switched.current_a:.2f} A", "plan"),
        ),
        answer=("nameplate", switched.loads[0], "current"),
        remedies=(
            Remedy(
                f"put a relay or contactor that may switch {switched.current_a:.1f} A or more between "
                f"{switched.contact} and {', '.join(switched.loads)}; or buy loads that draw {rated_a:g} A or less "
                "together"
            ),
        ),
    )


def _motor(motor: SwitchedMotor, listed: Source) -> Iterator[Finding]:
    """The maker matched its own motor to its own contact; somebody else's fan is nobody's but the installer's."""
    if motor.verdict is None:
        if motor.by_others:
            yield Finding(
                code="contact-rating-open",
                severity=Severity.CHECK,
                subject=motor.contact,
                says=(
                    f"{motor.contact} switches {motor.motor} by others, {motor.full_load_a:g} A at full load; the "
                    "sheet doesn't say what kind of load and voltage its rating holds for: ask the maker"
                ),
                rule="a contact's rating for a motor is its own, not that for a resistive load",
                source=listed,
                answer=("nameplate", motor.motor, "current"),
            )
        return
    if not motor.verdict.holds:
        yield Finding(
            code="contact-not-for-motor",
            severity=Severity.STOP,
            subject=motor.contact,
            says=f"{motor.contact} may not switch {motor.motor}: {'; '.join(motor.verdict.reasons)}",
            rule="full-load current and voltage of a motor are within a marking that holds for motors",
            source=motor.verdict.working.source,
            numbers=motor.verdict.working.inputs,
            answer=("nameplate", motor.motor, "current"),
            remedies=(
                Remedy(
                    f"put a relay or contactor that is marked for motors of {motor.full_load_a:g} A at full load or "
                    f"more between {motor.contact} and {motor.motor}"
                ),
            ),
        )
    for judgement in motor.verdict.judgements:
        if motor.by_others:
            yield Finding(
                code="contact-left-to-judgement",
                severity=Severity.CHECK,
                subject=motor.contact,
                says=f"{motor.contact} and {motor.motor}: {judgement.question} Decided by: {judgement.who_decides}",
                rule="the code leaves this to the person named",
                source=judgement.source,
            )
