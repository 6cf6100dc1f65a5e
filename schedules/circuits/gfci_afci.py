"""Does this circuit need ground-fault or arc-fault protection?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import Judgement, Verdict, reaches, resting_on, rule_input
from schedules.circuits.demand import LIMITS
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code
    from schedules.tables.rules import Rule

_APPLIANCES = "nec_210_8_appliances"
_IN_PER_FT = 12


def kitchen_receptacle_gfci(
    *,
    supply_v: float,
    to_ground_v: float,
    serves_countertop: bool,
    to_sink_in: float | None,
    edition: Code,
) -> Verdict:
    """Whether a kitchen receptacle needs a GFCI, 210.8(A)(6) and (7).

    supply_v, to_ground_v: voltage of the receptacle and to ground [V]. serves_countertop: meant for the
    countertop. to_sink_in: distance to the nearest sink [in], None where there is none. The 2020 edition
    means receptacles for countertops or near a sink, later ones every receptacle of the kitchen.
    """
    voltages, ground = (
        rule("gfci_receptacle_voltage", edition, LIMITS),
        rule("gfci_voltage_to_ground", edition, LIMITS),
    )
    kitchen = rule("gfci_kitchen", edition)
    # A receptacle is named 125 V on a nominal 120 V circuit, 250 V on 240 V.
    within = supply_v <= max(voltages.numbers) and reaches(ground.number, to_ground_v)
    if str(edition) == "2020":
        near = to_sink_in is not None and reaches(kitchen.number * _IN_PER_FT, to_sink_in)
        meant, words = serves_countertop or near, "serves the countertop or is near the sink"
    else:
        meant, words = True, "any receptacle of the kitchen"
    holds = within and meant
    reasons = (f"{words}, {supply_v:g} V, {to_ground_v:g} V to ground",) if holds else ()
    return Verdict(
        holds,
        reasons,
        Working(
            name="GFCI for a kitchen receptacle",
            formula=kitchen.words,
            inputs=(
                Input("receptacle", f"{supply_v:g} V, {to_ground_v:g} V to ground"),
                Input("serves the countertop", "yes" if serves_countertop else "no"),
                Input("to the sink", "no sink" if to_sink_in is None else f"{to_sink_in:g} in"),
                rule_input(voltages),
                rule_input(ground),
            ),
            result=_required(holds),
            source=resting_on(kitchen.source.citation, kitchen.source, voltages.source, ground.source),
            note=kitchen.note,
        ),
        _where(holds, edition),
    )


def appliance_gfci(appliance: str, *, circuit_a: float, to_ground_v: float, edition: Code) -> Verdict:
    """Whether an appliance needs a GFCI at its circuit or outlet, hardwired too, 210.8(D).

    appliance: `electric range`, `wall oven`, `cooktop`, `microwave oven` (also combined with a hood),
    `dishwasher`; any other, such as `range hood`, is in no list. circuit_a: circuit rating [A].
    to_ground_v: [V].
    """
    listing = rule("gfci_appliances", edition)
    table = load(_APPLIANCES)
    rows = [row for row in table.where(appliance=appliance) if str(edition) in row.words("editions")]
    sources = [listing.source]
    inputs = [
        Input("appliance", appliance),
        Input("circuit", f"{circuit_a:g} A, {to_ground_v:g} V to ground"),
    ]
    holds = bool(rows)
    if holds:
        most, ground = (
            rule("gfci_appliance_rating", edition, LIMITS),
            rule("gfci_voltage_to_ground", edition, LIMITS),
        )
        holds = reaches(most.number, circuit_a) and reaches(ground.number, to_ground_v)
        sources += [table.source(rows[0], edition=edition), most.source, ground.source]
        inputs += [rule_input(most), rule_input(ground)]
    return Verdict(
        holds,
        (f"{appliance} is in the list of NEC {edition}",) if holds else (),
        Working(
            name=f"GFCI for {appliance}",
            formula=listing.words,
            inputs=tuple(inputs),
            result=_required(holds),
            source=resting_on(listing.source.citation, *sources),
            note=listing.note,
        ),
        (*_unread(listing, edition), *_where(holds, edition)),
    )


def kitchen_afci(
    *, circuit_a: float, supply_v: float, extension_without_outlets_in: float | None, edition: Code
) -> Verdict:
    """Whether a circuit to outlets or devices in the kitchen needs an AFCI, 210.12.

    circuit_a: rating [A]. supply_v: of the circuit [V]; 240 V circuits are outside the rule.
    extension_without_outlets_in: length [in] where this is only an extension without new outlets or
    devices, else None.
    """
    kitchen, volts = rule("afci_kitchen", edition), rule("afci_voltage", edition, LIMITS)
    short = rule("afci_extension", edition)
    meant = circuit_a in kitchen.numbers and supply_v == volts.number
    exempt = extension_without_outlets_in is not None and reaches(
        short.number * _IN_PER_FT, extension_without_outlets_in
    )
    holds = meant and not exempt
    return Verdict(
        holds,
        (f"{circuit_a:g} A circuit of {supply_v:g} V in the kitchen",) if holds else (),
        Working(
            name="AFCI for a kitchen circuit",
            formula=f"{kitchen.words}; a short extension without outlets is exempt",
            inputs=(
                Input("circuit", f"{circuit_a:g} A, {supply_v:g} V"),
                rule_input(kitchen),
                rule_input(volts),
                rule_input(short),
            ),
            result=_required(holds),
            source=resting_on(kitchen.source.citation, kitchen.source, volts.source, short.source),
            note=kitchen.note,
        ),
    )


def alarm_supply_protection(edition: Code) -> Verdict:
    """Whether a fire alarm system's supply may be on a GFCI or AFCI, 760.41(B) and 760.121(B): it may not."""
    barred = rule("alarm_no_gfci_afci", edition)
    exception = rule("afci_alarm_exception", edition)
    return Verdict(
        False,
        (barred.words,),
        Working(
            name="GFCI or AFCI on a fire alarm supply",
            formula=barred.words,
            inputs=(Input(exception.words, "", str(exception.source)),),
            result="not allowed",
            source=resting_on(barred.source.citation, barred.source, exception.source),
            note=barred.note,
        ),
        (
            Judgement(
                "Is this a fire alarm system, or smoke alarms, which are protected like any outlet?",
                "authority having jurisdiction",
                barred.source,
            ),
        ),
    )


def _required(holds: bool) -> str:
    return "required" if holds else "not required"


def _where(holds: bool, edition: Code) -> tuple[Judgement, ...]:
    if not holds:
        return ()
    access = rule("gfci_access", edition)
    question = "Where does the GFCI sit so that it is readily accessible, and does it suit the appliance?"
    return (Judgement(question, "electrician", access.source),)


def _unread(listing: Rule, edition: Code) -> tuple[Judgement, ...]:
    """The 2026 list was not read: whoever enforces it says what it holds."""
    if str(edition) != "2026":
        return ()
    question = "Which appliances does the adopted 2026 text list? The list of 2023 stands in for it."
    return (Judgement(question, "authority having jurisdiction", listing.source),)
