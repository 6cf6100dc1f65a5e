"""Must outside air be let in for the hood, how much, through what opening, and what switches it?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from schedules.answers import Judgement, Verdict, resting_on, rule_input
from schedules.practice import practice
from schedules.tables import Adopted, has_rule, rule
from schedules.working import Confidence, Input, Source, Working

Book = Literal["IRC", "IMC"]
Spring = Literal["open", "closed"]
Fire = Literal["on", "off", "follows", "unchanged"]

_TABLES: dict[Book, str] = {"IRC": "irc_mechanical_rules", "IMC": "imc_rules"}
_SQ_IN_PER_SQ_FT = 144
PA_PER_IN_WG = 249.0889
"""The conventional inch of water [Pa], NIST SP 811."""

_FPM_AT_1_IN_WG = 4005.0
_HEAT_PER_CFM_F = 1.08
_DEGREES_F_PER_C = 1.8
_DERIVED = Source("what each spring does without power", Confidence.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class MakeUpAir:
    """Whether make-up air is wanted, and how much [cfm]."""

    required: Verdict
    airflow_cfm: float


@dataclass(frozen=True, slots=True)
class PassiveOpening:
    """Free area of an opening that lets in an airflow at a pressure [sq in], and a round hole's diameter [in]."""

    area_sq_in: float
    diameter_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class HeatForAir:
    """What warming the make-up air takes [Btu/h]."""

    rate_btu_h: float
    working: Working


@dataclass(frozen=True, slots=True)
class Interlock:
    """How one damper or fan of the make-up air is switched.

    contact: closes or opens while the exhaust runs. fire_contact: one more contact in series that the fire opens or,
    for a damper that needs power to shut, a contact across that the fire closes; None where none is needed.
    without_power: what the damper does when its wire breaks.
    """

    contact: Literal["closes with the exhaust", "opens with the exhaust"]
    fire_contact: Literal["opens in a fire, in series", "closes in a fire, across"] | None
    one_contact_serves: bool
    without_power: Spring
    working: Working


def make_up_air(
    exhaust_cfm: float,
    unvented_fuel_appliances: int,
    *,
    book: Book,
    edition: str | Adopted,
    governs: str = "",
) -> MakeUpAir:
    """Whether a kitchen exhaust needs make-up air and how much [cfm], IRC M1503.6 (M1503.4 before 2018) or IMC 505.

    exhaust_cfm: what it can move. unvented_fuel_appliances: fuel-burning ones inside the air barrier that are neither
    direct-vent nor mechanical-draft. governs: where the exhaust's figure is from, in words. Since 2018 the IRC asks
    for at least one such appliance; the IMC and the older IRC don't. Raises ValueError for a negative figure,
    LookupError for an unknown edition.
    """
    if exhaust_cfm < 0 or unvented_fuel_appliances < 0:
        raise ValueError(
            f"airflow and appliances are 0 or more, not {exhaust_cfm:g} and {unvented_fuel_appliances}"
        )
    table = _TABLES[book]
    above = rule("makeup_air_above", edition, table)
    share = rule("makeup_air_share", edition, table)
    conditional = book == "IRC" and has_rule("makeup_air_only_with_fuel", edition, table)
    large = exhaust_cfm > above.number
    reasons = [f"{exhaust_cfm:.4g} cfm is {'above' if large else 'not above'} {above.number:g} cfm"]
    inputs = [Input("exhaust", f"{exhaust_cfm:.4g} cfm", governs), rule_input(above), rule_input(share)]
    sources = [above.source, share.source]
    holds = large
    if conditional:
        only = rule("makeup_air_only_with_fuel", edition, table)
        inputs += [Input("such appliances", str(unvented_fuel_appliances)), rule_input(only)]
        sources.append(only.source)
        holds = large and unvented_fuel_appliances >= only.number
        if large:
            reasons.append(
                f"fuel-burning appliances inside, neither direct-vent nor mechanical-draft: {unvented_fuel_appliances}"
            )
    airflow = exhaust_cfm * share.number / 100 if holds else 0.0
    return MakeUpAir(
        Verdict(
            holds,
            tuple(reasons),
            Working(
                name="make-up air",
                formula="wanted above the code's airflow"
                + (", and only with such an appliance inside" if conditional else ""),
                inputs=tuple(inputs),
                result=f"about {airflow:.4g} cfm" if holds else "not asked for",
                source=resting_on(above.source.citation, *sources),
                note=above.note,
            ),
            (_local(book, above.source),),
        ),
        airflow,
    )


def _local(book: Book, source: Source) -> Judgement:
    return Judgement(
        f"Does the locality amend the {book}'s make-up air rule? Amendments go both ways.",
        "the authority having jurisdiction",
        source,
    )


def passive_opening(airflow_cfm: float, pressure_pa: float) -> PassiveOpening:
    """Free area [sq in] of a sharp-edged opening that passes an airflow [cfm] at a pressure [Pa]: Q / (4005 Cd √Δp).

    Raises ValueError for a pressure that is not above zero or a negative airflow.
    """
    if pressure_pa <= 0 or airflow_cfm < 0:
        raise ValueError(
            f"pressure above 0 and airflow 0 or more, not {pressure_pa:g} Pa and {airflow_cfm:g} cfm"
        )
    discharge = practice("discharge_coefficient")
    area = airflow_cfm / opening_airflow(1.0, pressure_pa)
    return PassiveOpening(
        area,
        math.sqrt(4 * area / math.pi),
        Working(
            name="passive make-up air opening",
            formula="airflow / (4005 · discharge coefficient · √pressure in wg)",
            inputs=(
                Input("airflow", f"{airflow_cfm:.4g} cfm"),
                Input("pressure it may cost the house", f"{pressure_pa:g} Pa"),
                rule_input(discharge),
            ),
            result=f"{area:.0f} sq in free area, as a round hole {math.sqrt(4 * area / math.pi):.1f} in",
            source=discharge.source,
            note="free area: what louvre, screen and damper leave open; a duct to it adds its own loss",
        ),
    )


def opening_airflow(area_sq_in: float, pressure_pa: float) -> float:
    """What a sharp-edged opening of this free area [sq in] passes at a pressure [Pa], in cfm: 4005 Cd A √Δp.

    Raises ValueError for an area or a pressure that is not above zero.
    """
    if area_sq_in <= 0 or pressure_pa <= 0:
        raise ValueError(f"area and pressure are above 0, not {area_sq_in:g} sq in and {pressure_pa:g} Pa")
    speed = _FPM_AT_1_IN_WG * math.sqrt(pressure_pa / PA_PER_IN_WG)
    return practice("discharge_coefficient").number * speed * area_sq_in / _SQ_IN_PER_SQ_FT


def heat_for_air(airflow_cfm: float, warming_c: float) -> HeatForAir:
    """What warming standard air [cfm] by so many degrees [C] takes [Btu/h]: 1.08 · Q · ΔT in °F.

    Raises ValueError for a negative figure.
    """
    if airflow_cfm < 0 or warming_c < 0:
        raise ValueError(f"airflow and warming are 0 or more, not {airflow_cfm:g} cfm and {warming_c:g} °C")
    rate = _HEAT_PER_CFM_F * airflow_cfm * warming_c * _DEGREES_F_PER_C
    return HeatForAir(
        rate,
        Working(
            name="heat for the make-up air",
            formula="1.08 · airflow · warming in °F",
            inputs=(Input("airflow", f"{airflow_cfm:.4g} cfm"), Input("warming", f"{warming_c:g} °C")),
            result=f"{rate:.0f} Btu/h",
            source=Source("heat balance of standard air", Confidence.TWO_TEXTS),
        ),
    )


def interlock(*, spring: Spring, fire_exhaust: Fire, fire_make_up: Fire) -> Interlock:
    """How a make-up damper is switched so that it opens with the exhaust and obeys in a fire.

    spring: where it stands without power. fire_exhaust, fire_make_up: what the sheet promises of each in a fire.
    A damper held shut by its spring is powered while the exhaust runs: its contact closes with it. One held open by
    its spring is powered shut while the exhaust is off: its contact opens with it. Where exhaust and make-up differ in
    a fire, one contact can't serve both.
    """
    opens = spring == "closed"
    apart = fire_make_up == "off" and fire_exhaust != "off"
    fire_contact: Literal["opens in a fire, in series", "closes in a fire, across"] | None = None
    if apart:
        fire_contact = "opens in a fire, in series" if opens else "closes in a fire, across"
    contact: Literal["closes with the exhaust", "opens with the exhaust"] = (
        "closes with the exhaust" if opens else "opens with the exhaust"
    )
    return Interlock(
        contact,
        fire_contact,
        not apart,
        spring,
        Working(
            name="make-up air interlock",
            formula="spring closed: power opens, the contact closes with the exhaust; spring open: the other way round",
            inputs=(
                Input("damper's spring", spring, "choice"),
                Input("exhaust in a fire", fire_exhaust, "sheet"),
                Input("make-up air in a fire", fire_make_up, "sheet"),
            ),
            result=contact + (f"; {fire_contact}" if fire_contact else ""),
            source=_DERIVED,
            note=(
                "a broken wire leaves the damper shut: the exhaust starves"
                if opens
                else "a broken wire leaves the damper open; in a fire its supply must stay alive to shut it"
            ),
        ),
    )
