"""May this hood be fed this way: by cord or hardwired, alone or with other loads?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Judgement, Verdict, reaches, resting_on, rule_input
from schedules.circuits.branch_circuits import fastened_on_shared_circuit, on_small_appliance_circuit
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code

CONNECTIONS = ("cord", "hardwired")
SHARING = ("nothing", "lights or portable loads", "small-appliance receptacles")


@dataclass(frozen=True, slots=True)
class HoodCord:
    """What is known of a hood's cord and the receptacle it goes to. length_in: of the cord [in]."""

    length_in: float
    instructions_allow: bool
    grounding_plug: bool
    double_insulated: bool
    receptacle_accessible: bool
    cord_kept_from_damage: bool
    individual_circuit: bool


def hood_cord(cord: HoodCord, *, edition: Code) -> Verdict:
    """Whether a hood may be cord-and-plug connected so, 422.16(B)(4); every breach is a reason.

    Raises ValueError for a length that is not positive.
    """
    if cord.length_in <= 0:
        raise ValueError(f"cord length must be above 0 in, not {cord.length_in:g}")
    least, most = rule("hood_cord_min", edition), rule("hood_cord_max", edition)
    grounding, place = rule("hood_cord_grounding", edition), rule("hood_receptacle_place", edition)
    alone = rule("hood_individual_circuit", edition)
    breaches = []
    if not cord.instructions_allow:
        breaches.append("the maker's instructions don't allow a cord")
    if not reaches(cord.length_in, least.number):
        breaches.append(f"cord of {cord.length_in:g} in is shorter than {least.number:g} in")
    if not reaches(most.number, cord.length_in):
        breaches.append(f"cord of {cord.length_in:g} in is longer than {most.number:g} in")
    if not (cord.grounding_plug or cord.double_insulated):
        breaches.append("no grounding plug, and not marked double insulated")
    if not cord.receptacle_accessible:
        breaches.append("the receptacle is not accessible")
    if not cord.cord_kept_from_damage:
        breaches.append("the receptacle is where the cord can be damaged")
    if not cord.individual_circuit:
        breaches.append("the receptacle is not on an individual branch circuit")
    return Verdict(
        not breaches,
        tuple(breaches),
        Working(
            name="hood with cord and plug",
            formula="all conditions for a hood's cord hold",
            inputs=(
                Input("cord", f"{cord.length_in:g} in"),
                rule_input(least),
                rule_input(most),
                Input(grounding.words, "", str(grounding.source)),
                Input(place.words, "", str(place.source)),
                Input(alone.words, "", str(alone.source)),
            ),
            result="allowed" if not breaches else "not allowed",
            source=resting_on(
                least.source.citation, *(each.source for each in (least, most, grounding, place, alone))
            ),
            note=least.note,
        ),
    )


def hood_circuit(
    *, hood_a: float, circuit_a: float, connection: str, shares_with: str, edition: Code
) -> Verdict:
    """Whether a hood may be on this circuit, 422.16(B)(4), 210.22, 210.23 and 210.52(B)(2).

    hood_a: its load [A]. circuit_a: circuit rating [A]. connection: `cord` or `hardwired`. shares_with:
    `nothing`, `lights or portable loads` or `small-appliance receptacles`. Raises ValueError for another
    word, a load that is not positive, or a shared circuit of a rating that 210.23 doesn't speak of.
    """
    if connection not in CONNECTIONS or shares_with not in SHARING or hood_a <= 0:
        raise ValueError(
            f"connection is one of {', '.join(CONNECTIONS)}, shares_with one of {', '.join(SHARING)}, "
            f"load above 0 A; found {connection!r}, {shares_with!r}, {hood_a:g} A"
        )
    alone = rule("hood_individual_circuit", edition)
    steps = [_capacity(hood_a, circuit_a, edition)]
    if shares_with == "small-appliance receptacles":
        steps.append(on_small_appliance_circuit("hood", edition=edition))
    elif shares_with == "lights or portable loads":
        steps.append(fastened_on_shared_circuit(fastened_a=hood_a, circuit_a=circuit_a, edition=edition))
    reasons = [reason for step in steps if not step.holds for reason in step.reasons]
    if connection == "cord" and shares_with != "nothing":
        reasons.append("a hood with a cord needs an individual branch circuit")
    return Verdict(
        not reasons,
        tuple(reasons),
        Working(
            name="circuit of the hood",
            formula="within the rating; by cord alone on its circuit; hardwired with others up to a share, "
            "but never with the small-appliance receptacles",
            inputs=(
                Input("hood", f"{hood_a:g} A, {connection}"),
                Input("circuit", f"{circuit_a:g} A, with {shares_with} besides"),
                Input(alone.words, "", str(alone.source)),
            ),
            result="allowed" if not reasons else "not allowed",
            source=resting_on(alone.source.citation, alone.source, *(step.working.source for step in steps)),
            note=alone.note,
            steps=tuple(step.working for step in steps),
        ),
        _by_instructions(edition),
    )


def _capacity(hood_a: float, circuit_a: float, edition: Code) -> Verdict:
    own = rule("individual_circuit", edition)
    holds = reaches(circuit_a, hood_a)
    return Verdict(
        holds,
        () if holds else (f"{hood_a:g} A is above the circuit's {circuit_a:g} A",),
        Working(
            name="load within the rating",
            formula="load not above the circuit rating",
            inputs=(Input("load", f"{hood_a:g} A"), Input("circuit", f"{circuit_a:g} A")),
            result="within" if holds else "above",
            source=own.source,
        ),
    )


def _by_instructions(edition: Code) -> tuple[Judgement, ...]:
    listed = rule("per_instructions", edition)
    question = (
        "Do the maker's instructions ask for a circuit of the hood's own, or forbid a way of connecting it?"
    )
    return (Judgement(question, "installer, from the maker's instructions", listed.source),)
