"""May this contact switch a fan by others, and what does the fan's circuit carry?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import Judgement, Verdict, reaches, resting_on, rule_input
from schedules.circuits.ampacity import Ampacity
from schedules.circuits.demand import LIMITS
from schedules.tables.rules import rule
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code

RATED_FOR = ("motor", "general use", "resistive", "pilot duty")

_TRADE = Source("motor loads on contacts not rated for them", Confidence.COMMON_PRACTICE)


def fan_contact(
    *, full_load_a: float, contact_a: float, rated_for: str, fan_v: float, contact_v: float, edition: Code
) -> Verdict:
    """Whether a contact may switch a motor of this full-load current, by its own marked rating, 110.3(B).

    full_load_a: of the fan's motor [A]. contact_a: contact's marked rating [A] for `rated_for`: `motor`
    (full-load amperes), `general use`, `resistive` or `pilot duty`. fan_v, contact_v: of the fan and of the
    contact's rating [V]. Raises ValueError for another word or a value that is not positive.
    """
    if rated_for not in RATED_FOR or min(full_load_a, contact_a, fan_v, contact_v) <= 0:
        raise ValueError(
            f"rated_for is one of {', '.join(RATED_FOR)}, all values above 0; found {rated_for!r}, "
            f"{full_load_a:g} A, {contact_a:g} A, {fan_v:g} V, {contact_v:g} V"
        )
    listed = rule("per_instructions", edition)
    reasons = []
    if not reaches(contact_a, full_load_a):
        reasons.append(f"full-load current {full_load_a:g} A is above the contact's {contact_a:g} A")
    if not reaches(contact_v, fan_v):
        reasons.append(f"{fan_v:g} V is above the contact's {contact_v:g} V")
    if rated_for in {"resistive", "pilot duty"}:
        reasons.append(f"a {rated_for} rating says nothing of a motor: use a relay or contactor rated for it")
    return Verdict(
        not reasons,
        tuple(reasons),
        Working(
            name="contact for a fan by others",
            formula="full-load current and voltage within a marking that holds for motors",
            inputs=(
                Input("full-load current", f"{full_load_a:g} A at {fan_v:g} V"),
                Input("contact", f"{contact_a:g} A at {contact_v:g} V, {rated_for}"),
                Input(listed.words, "", str(listed.source)),
            ),
            result="within the rating" if not reasons else "not within the rating",
            source=resting_on(listed.source.citation, listed.source),
        ),
        _judged(rated_for, listed.source),
    )


def fan_conductor_ampacity(full_load_a: float, *, edition: Code) -> Ampacity:
    """Least ampacity [A] of the conductors to one fan motor, 430.22. Raises ValueError for no current."""
    if full_load_a <= 0:
        raise ValueError(f"full-load current must be above 0 A, not {full_load_a:g}")
    share = rule("motor_conductor", edition, LIMITS)
    ampacity = full_load_a * share.number / 100
    return Ampacity(
        ampacity,
        Working(
            name="conductors to a fan motor",
            formula="share of the full-load current",
            inputs=(Input("full-load current", f"{full_load_a:g} A"), rule_input(share)),
            result=f"{ampacity:g} A",
            source=share.source,
            note="full-load current from the code's motor table where the fan is marked in horsepower",
        ),
    )


def _judged(rated_for: str, listing: Source) -> tuple[Judgement, ...]:
    if rated_for == "motor":
        return ()
    if rated_for == "general use":
        question = (
            "Does the contact's listing let its general-use rating carry this motor's starting current?"
        )
        return (Judgement(question, "maker of the contact", listing),)
    question = "Which relay or contactor stands between the contact and the fan?"
    return (Judgement(question, "electrician", _TRADE),)
