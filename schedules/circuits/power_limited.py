"""Which class does this signal wiring have, and how far does it keep from power?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Judgement, reaches, resting_on, rule_input
from schedules.circuits.demand import LIMITS
from schedules.circuits.overcurrent import Rating
from schedules.tables.conductors import as_wire_size
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.tables.edition import Code

SOURCES = ("fire alarm panel", "listed class 2 or 3 supply", "power circuit")
PLACES = ("cable", "raceway", "enclosure", "connecting space", "open run")


@dataclass(frozen=True, slots=True)
class WiringClass:
    """The class of a circuit's wiring, which follows the source that feeds it."""

    name: str
    working: Working
    judgements: tuple[Judgement, ...]


@dataclass(frozen=True, slots=True)
class Separation:
    """How far apart power-limited wiring and power stay here [in]; None where they may not be together."""

    distance_in: float | None
    working: Working
    judgements: tuple[Judgement, ...] = ()


def wiring_class(source: str, *, safety_control: bool, edition: Code) -> WiringClass:
    """The wiring class of a circuit through a potential-free contact, by what feeds it, 725 and 760.

    source: `fire alarm panel`, `listed class 2 or 3 supply` or `power circuit`. safety_control: its
    failure would be a direct fire or life hazard, which some editions make class 1. Raises ValueError for
    another word.
    """
    if source not in SOURCES:
        raise ValueError(f"source is one of {', '.join(SOURCES)}; found {source!r}")
    by_source, safety = rule("dry_contact_class", edition), rule("safety_control", edition)
    name = {
        "fire alarm panel": "power-limited fire alarm",
        "listed class 2 or 3 supply": "class 2 or 3",
        "power circuit": "power or class 1",
    }[source]
    question = "Is this a control whose failure is a direct fire or life hazard, and so class 1?"
    judgements = (
        Judgement(
            "Does the source carry the listing that its class rests on?", "inspector", by_source.source
        ),
        *((Judgement(question, "authority having jurisdiction", safety.source),) if safety_control else ()),
    )
    return WiringClass(
        name,
        Working(
            name="wiring class",
            formula=by_source.words,
            inputs=(
                Input("fed by", source),
                Input(safety.words, "may apply" if safety_control else "does not", str(safety.source)),
            ),
            result=name,
            source=resting_on(by_source.source.citation, by_source.source, safety.source),
            note=by_source.note,
        ),
        judgements,
    )


def separation(
    place: str, *, alarm: bool, barrier: bool, to_ground_v: float, own_jacket: bool, edition: Code
) -> Separation:
    """How far [in] power-limited wiring keeps from power conductors in a place, 725.136 and 760.136.

    place: `cable`, `raceway`, `enclosure`, `connecting space` (brought into an enclosure only to connect
    there) or `open run`. alarm: fire alarm rather than class 2 or 3. barrier: a wall stands between.
    to_ground_v: of the power conductors [V]. own_jacket: the power-limited wires stay in the jacket of a
    CL3 cable or better. Raises ValueError for another word.
    """
    if place not in PLACES:
        raise ValueError(f"place is one of {', '.join(PLACES)}; found {place!r}")
    apart, wall = rule("class_2_separation", edition), rule("class_2_barrier", edition)
    gap, volts = rule("class_2_enclosure_gap", edition), rule("class_2_voltage_to_ground", edition, LIMITS)
    outside = rule("alarm_elsewhere_gap" if alarm else "class_2_elsewhere_gap", edition)
    used = [apart]
    distance: float | None = None
    beyond = ""
    if place == "open run":
        used, distance = [outside], outside.number
    elif barrier and place != "cable":
        used, distance = [apart, wall], 0.0
    elif place == "connecting space":
        used, distance = [apart, gap], gap.number
        if own_jacket and reaches(volts.number, to_ground_v):
            used, distance = [*used, volts], 0.0
            beyond = f"where the wires leave their jacket: {gap.number:g} in or a sleeve"
    result = "not together" if distance is None else f"{distance:g} in apart"
    return Separation(
        distance,
        Working(
            name=f"power-limited wiring beside power, {place}",
            formula="not together but for a barrier, a gap where both only connect, or a gap in the open",
            inputs=(
                Input("place", place),
                Input("barrier", "yes" if barrier else "no"),
                Input("power to ground", f"{to_ground_v:g} V"),
                Input("in a jacket of its own", "yes" if own_jacket else "no"),
                *(rule_input(each) for each in used),
            ),
            result=result,
            source=resting_on(used[-1].source.citation, *(each.source for each in used)),
            note="; ".join(filter(None, (beyond, *(each.note for each in used)))),
        ),
        (Judgement("Does 760.136 here say the same?", "authority having jurisdiction", outside.source),)
        if alarm and place != "open run"
        else (),
    )


def class_1_limit(size: WireSize | str, *, edition: Code) -> Rating:
    """Largest device [A] for a class 1 control conductor of 18 or 16 AWG; larger ones go by ampacity.

    Raises ValueError for another size.
    """
    wire = as_wire_size(size)
    names = {as_wire_size("18"): "class_1_18awg", as_wire_size("16"): "class_1_16awg"}
    if wire not in names:
        raise ValueError(f"only 18 AWG and 16 AWG have a limit of their own, not {wire}")
    limit = rule(names[wire], edition)
    return Rating(
        int(limit.number),
        Working(
            name=f"device limit for {wire} class 1",
            formula="fixed limit",
            inputs=(rule_input(limit),),
            result=f"{limit.number:g} A",
            source=limit.source,
            note=limit.note,
        ),
    )
