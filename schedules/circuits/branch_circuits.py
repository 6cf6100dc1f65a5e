"""What rating does this branch circuit need, and what else may be on it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Verdict, reaches, resting_on, rule_input
from schedules.circuits.demand import LIMITS
from schedules.circuits.overcurrent import Rating, next_standard_rating
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class Breaker:
    """What kind of breaker a circuit needs: poles, and what it must be able to do, in words."""

    poles: int
    features: tuple[str, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class SmallApplianceCircuits:
    """How many small-appliance circuits a kitchen has at least, and of what rating."""

    count: int
    rating_a: int
    working: Working


def required_rating(*, continuous_a: float, other_a: float, edition: Code) -> Rating:
    """Least standard rating [A] of a circuit for its load [A], 210.20(A).

    continuous_a: load that lasts three hours or more; other_a: the rest. Raises ValueError for no load,
    LookupError above the table of standard ratings.
    """
    if continuous_a < 0 or other_a < 0 or continuous_a + other_a <= 0:
        raise ValueError(f"load must be above 0 A, not {continuous_a:g} A continuous and {other_a:g} A other")
    share = rule("device_continuous", edition)
    raised = other_a + continuous_a * share.number / 100
    standard = next_standard_rating(raised, edition=edition)
    return Rating(
        standard.rating_a,
        Working(
            name="circuit rating for the load",
            formula="other load + raised continuous load, next standard rating",
            inputs=(
                Input("continuous load", f"{continuous_a:g} A"),
                Input("other load", f"{other_a:g} A"),
                rule_input(share),
                Input("raised load", f"{raised:g} A"),
            ),
            result=f"{standard.rating_a} A",
            source=resting_on(share.source.citation, share.source, standard.working.source),
            steps=(standard.working,),
        ),
    )


def individual_circuit(
    *,
    continuous_a: float,
    other_a: float,
    marked_circuit_a: float | None,
    marked_device_a: float | None,
    edition: Code,
) -> Rating:
    """Rating [A] of an individual circuit for one appliance, 422.10(A) and 422.11(A) with 210.20(A).

    marked_circuit_a: least circuit on the nameplate [A]. marked_device_a: largest device on it [A]. None
    where nothing is marked. Raises ValueError where the markings leave no standard rating, or for no
    load.
    """
    by_load = required_rating(continuous_a=continuous_a, other_a=other_a, edition=edition)
    conductors, device = rule("appliance_conductors", edition), rule("appliance_overcurrent", edition)
    rating, steps = by_load.rating_a, [by_load.working]
    if marked_circuit_a is not None:
        by_mark = next_standard_rating(marked_circuit_a, edition=edition)
        rating = max(rating, by_mark.rating_a)
        steps.append(by_mark.working)
    if marked_device_a is not None and rating > marked_device_a:
        raise ValueError(f"needs a {rating} A circuit, the appliance allows {marked_device_a:g} A at most")
    return Rating(
        rating,
        Working(
            name="individual branch circuit",
            formula="not below the raised load nor the marked circuit, not above the marked device",
            inputs=(
                Input("for the load", f"{by_load.rating_a} A"),
                Input(conductors.words, _marked(marked_circuit_a), str(conductors.source)),
                Input(device.words, _marked(marked_device_a), str(device.source)),
            ),
            result=f"{rating} A",
            source=resting_on(
                conductors.source.citation,
                conductors.source,
                device.source,
                *(step.source for step in steps),
            ),
            steps=tuple(steps),
        ),
    )


def receptacle_circuit(by_load: Rating, *, edition: Code) -> Rating:
    """The rating [A] of a circuit that ends in a receptacle, never below the least one for receptacles, 210.23.

    by_load: what its load asks for. Raises LookupError for an unknown edition.
    """
    least = rule("receptacle_circuit_from", edition, LIMITS)
    if reaches(by_load.rating_a, least.number):
        return by_load
    return Rating(
        int(least.number),
        Working(
            name="branch circuit with a receptacle",
            formula="not below what the load asks for, nor below the least circuit for receptacles",
            inputs=(Input("for the load", f"{by_load.rating_a} A"), rule_input(least)),
            result=f"{least.number:g} A",
            source=least.source,
            note=least.note,
            steps=(by_load.working,),
        ),
    )


def fastened_on_shared_circuit(*, fastened_a: float, circuit_a: float, edition: Code) -> Verdict:
    """Whether fastened equipment may share a circuit with lights or portable loads, 210.23.

    fastened_a: all fastened equipment on it together [A]. circuit_a: circuit rating [A]. Raises
    ValueError for a circuit rating that the rule doesn't speak of.
    """
    return _share(fastened_a, circuit_a, "fastened_load_share", "fastened equipment", edition)


def portable_on_shared_circuit(*, cord_a: float, circuit_a: float, edition: Code) -> Verdict:
    """Whether one cord-connected appliance that isn't fastened may be on a 15 or 20 A circuit, 210.23.

    cord_a: its load [A]. circuit_a: circuit rating [A]. Raises ValueError as `fastened_on_shared_circuit`.
    """
    return _share(cord_a, circuit_a, "cord_load_share", "cord-connected appliance", edition)


def small_appliance_circuits(edition: Code) -> SmallApplianceCircuits:
    """How many small-appliance circuits a kitchen has at least, and their rating [A], 210.11(C)(1)."""
    count, rating = rule("small_appliance_count", edition), rule("small_appliance_rating", edition, LIMITS)
    return SmallApplianceCircuits(
        int(count.number),
        int(rating.number),
        Working(
            name="small-appliance circuits",
            formula="a fixed least number; they serve receptacles only",
            inputs=(rule_input(count), rule_input(rating)),
            result=f"{count.number:g} of {rating.number:g} A",
            source=resting_on(count.source.citation, count.source, rating.source),
        ),
    )


def on_small_appliance_circuit(outlet: str, *, edition: Code) -> Verdict:
    """Whether an outlet may be on a small-appliance circuit, 210.52(B)(2).

    outlet: `countertop receptacle`, `gas range receptacle` (ignition and light of a gas range, oven or
    cooktop) or anything else, such as `hood`, which may not.
    """
    serves, none_other = rule("small_appliance_serves", edition), rule("small_appliance_no_other", edition)
    gas = rule("gas_ignition_exception", edition)
    holds = outlet in {"countertop receptacle", "gas range receptacle"}
    governing = gas if outlet == "gas range receptacle" else serves if holds else none_other
    reason = f"{outlet}: {governing.words}"
    return Verdict(
        holds,
        (reason,),
        Working(
            name=f"{outlet} on a small-appliance circuit",
            formula="only the receptacles they are meant for, and the igniter of a gas range",
            inputs=(Input("outlet", outlet),),
            result="allowed" if holds else "not allowed",
            source=governing.source,
            note=governing.note,
        ),
    )


def breaker(*, legs: int, multiwire: bool, shunt_trip: bool, edition: Code) -> Breaker:
    """The kind of breaker for a circuit of one or two legs, 240.15(B) and 210.4(B).

    legs: ungrounded conductors. multiwire: legs that share a neutral. shunt_trip: a signal has to open it.
    Raises ValueError for other than one or two legs, or a multiwire circuit of one.
    """
    if legs not in {1, 2} or (multiwire and legs == 1):
        raise ValueError(f"one leg, or two (multiwire has two); found {legs}")
    poles, together = rule("breaker_poles", edition), rule("multiwire_disconnect", edition)
    features = []
    if legs > 1:
        features.append("opens both legs together")
    if multiwire:
        tie = "" if shunt_trip else ", or two one-pole breakers with an identified handle tie"
        features.append(f"common trip for the legs that share the neutral{tie}")
    if shunt_trip:
        features.append("with shunt trip, which the breaker's maker must offer for this frame")
    return Breaker(
        legs,
        tuple(features),
        Working(
            name="breaker",
            formula="a pole for each ungrounded conductor, all opened together",
            inputs=(
                Input("ungrounded conductors", str(legs)),
                Input(poles.words, "", str(poles.source)),
                Input(together.words, "yes" if multiwire else "no neutral shared", str(together.source)),
                Input("shunt trip", "yes" if shunt_trip else "no"),
            ),
            result=", ".join((f"{legs}-pole", *features)),
            source=resting_on(poles.source.citation, poles.source, together.source),
        ),
    )


def _marked(value_a: float | None) -> str:
    return "not marked" if value_a is None else f"{value_a:g} A marked"


def _share(load_a: float, circuit_a: float, name: str, what: str, edition: Code) -> Verdict:
    ratings, share = rule("shared_circuit_ratings", edition, LIMITS), rule(name, edition)
    if circuit_a not in ratings.numbers or load_a < 0:
        known = " or ".join(f"{number:g}" for number in ratings.numbers)
        raise ValueError(f"for loads on circuits of {known} A; found {load_a:g} A on {circuit_a:g} A")
    limit = circuit_a * share.number / 100
    holds = reaches(limit, load_a)
    return Verdict(
        holds,
        () if holds else (f"{what} draws {load_a:g} A, {limit:g} A of {circuit_a:g} A is allowed",),
        Working(
            name=f"{what} on a shared circuit",
            formula="share of the circuit rating",
            inputs=(
                Input(what, f"{load_a:g} A"),
                Input("circuit", f"{circuit_a:g} A"),
                rule_input(share),
                Input("limit", f"{limit:g} A"),
            ),
            result="allowed" if holds else "not allowed",
            source=resting_on(share.source.citation, share.source, ratings.source),
        ),
    )
