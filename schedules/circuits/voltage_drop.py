"""How many volts are lost on the way to the load?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Verdict, reaches, resting_on, rule_input
from schedules.tables.conductors import (
    PROPERTIES,
    as_wire_size,
    circular_mils,
    smallest_of_area,
    table_cell,
)
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.tables.conductors import SizeByArea
    from schedules.tables.edition import Code
    from schedules.tables.table import Row
    from schedules.working import Source

_CONSTANTS = "voltage_drop_constants"
_IMPEDANCE = "nec_ch9_table9_ac_impedance"

# A single-phase current goes out and comes back.
_WAYS = 2
_IN_PER_KFT = 12_000

CONDUITS = ("pvc", "aluminum", "steel")


@dataclass(frozen=True, slots=True)
class Resistance:
    """Resistance of one conductor, one way."""

    resistance_ohm: float
    working: Working


@dataclass(frozen=True, slots=True)
class VoltageDrop:
    """Voltage lost on both conductors of a single-phase run; percent of the supply."""

    drop_v: float
    percent: float
    working: Working


def printed_temperature(edition: Code) -> float:
    """Conductor temperature [C] that Chapter 9 Table 8 is printed for. Raises LookupError for an unknown edition."""
    return _constant("table_8_temperature", edition)[0].number("number")


def conductor_resistance(
    size: WireSize | str,
    *,
    material: str,
    stranding: str,
    length_in: float,
    temperature_c: float,
    edition: Code,
) -> Resistance:
    """Direct-current resistance of one conductor [ohm] over a length [in], Chapter 9 Table 8.

    material: `copper` (uncoated) or `aluminum`. stranding: `solid` or `stranded`. temperature_c: of the
    conductor [C]; the table holds at 75. Raises ValueError for a negative length, LookupError for what isn't
    printed.
    """
    if length_in < 0:
        raise ValueError(f"length can't be negative: {length_in:g} in")
    wire = as_wire_size(size)
    table = load(PROPERTIES)
    column = {"copper": "copper_uncoated_ohm_per_kft", "aluminum": "aluminum_ohm_per_kft"}.get(material)
    if column is None:
        raise LookupError(f"no resistance for {material!r}; copper or aluminum")
    row = table.row(table_cell(wire), stranding)
    printed = row.number(column)
    printed_for = printed_temperature(edition)
    sources = [table.source(row, column, edition)]
    inputs = [
        Input(
            f"{wire} {material}, {stranding}", f"{printed:g} ohm/kft at {printed_for:g} C", str(sources[0])
        ),
        Input("length", f"{length_in:g} in"),
    ]
    warmed = printed
    if temperature_c != printed_for:
        constant, source = _constant(f"temperature_{material}", edition)
        warmed = printed * (1 + constant.number("number") * (temperature_c - printed_for))
        sources.append(source)
        inputs.append(Input("conductor temperature", f"{temperature_c:g} C", constant.text("formula")))
    resistance = warmed * length_in / _IN_PER_KFT
    return Resistance(
        resistance,
        Working(
            name=f"resistance of {wire} {material}",
            formula="resistance per 1000 ft, moved to the conductor's temperature, x length",
            inputs=tuple(inputs),
            result=f"{resistance:.5g} ohm",
            source=resting_on(sources[0].citation, *sources),
        ),
    )


def drop_by_resistance(
    size: WireSize | str,
    *,
    material: str,
    stranding: str,
    load_a: float,
    length_in: float,
    supply_v: float,
    temperature_c: float,
    edition: Code,
) -> VoltageDrop:
    """Drop [V] of a single-phase run from Table 8 resistance; reactance left out.

    load_a: current [A]. length_in: one way [in]. supply_v: across the load's two conductors [V].
    Raises ValueError for a negative current or length or no supply, LookupError for what isn't printed.
    """
    _refuse(load_a, length_in, supply_v)
    one_way = conductor_resistance(
        size,
        material=material,
        stranding=stranding,
        length_in=length_in,
        temperature_c=temperature_c,
        edition=edition,
    )
    drop = _WAYS * load_a * one_way.resistance_ohm
    return _drop(
        drop,
        supply_v,
        formula="2 x current x resistance of one conductor",
        inputs=(
            Input("current", f"{load_a:g} A"),
            Input("one conductor", one_way.working.result, one_way.working.source.citation),
        ),
        source=one_way.working.source,
        steps=(one_way.working,),
    )


def drop_by_constant(
    size: WireSize | str, *, material: str, load_a: float, length_in: float, supply_v: float, edition: Code
) -> VoltageDrop:
    """Drop [V] of a single-phase run by the rounded constant K [ohm-cmil/ft] and the area, at 75 C.

    The trade's quick formula, 2 K I L / CM. Arguments and errors as in `drop_by_resistance`.
    """
    _refuse(load_a, length_in, supply_v)
    wire = as_wire_size(size)
    constant, source = _constant(f"k_{material}", edition)
    area = circular_mils(wire, edition=edition)
    drop = _WAYS * constant.number("number") * load_a * (length_in / 12) / area.circular_mils
    return _drop(
        drop,
        supply_v,
        formula="2 x K x current x one-way length in feet / area",
        inputs=(
            Input("K", f"{constant.number('number'):g} {constant.text('unit')}", str(source)),
            Input("current", f"{load_a:g} A"),
            Input("length one way", f"{length_in / 12:g} ft"),
            Input(f"area of {wire}", f"{area.circular_mils} cmil", str(area.source)),
        ),
        source=resting_on(area.source.citation, source, area.source),
    )


def drop_by_impedance(
    size: WireSize | str,
    *,
    material: str,
    conduit: str,
    power_factor: float,
    load_a: float,
    length_in: float,
    supply_v: float,
    edition: Code,
) -> VoltageDrop:
    """Drop [V] of a single-phase run from Table 9: R x pf + X x sin(arccos pf), twice to neutral.

    conduit: `pvc` (cable without steel counts as this), `aluminum` or `steel`. power_factor: above 0 to 1; at
    0.85 the printed effective impedance is used. Other arguments and errors as in `drop_by_resistance`.
    """
    _refuse(load_a, length_in, supply_v)
    wire = as_wire_size(size)
    impedance, inputs, source = effective_impedance(wire, material, conduit, power_factor, edition)
    factor, factor_source = _constant("single_phase_table_9", edition)
    drop = _WAYS * load_a * impedance * length_in / _IN_PER_KFT
    return _drop(
        drop,
        supply_v,
        formula="2 x current x effective impedance to neutral per 1000 ft x one-way length",
        inputs=(
            *inputs,
            Input("effective impedance", f"{impedance:.4g} ohm/kft"),
            Input("current", f"{load_a:g} A"),
            Input("length one way", f"{length_in / 12:g} ft"),
            Input("twice, single phase", factor.text("formula"), str(factor_source)),
        ),
        source=resting_on(source.citation, source, factor_source),
    )


def size_for_drop(
    *, material: str, load_a: float, length_in: float, allowed_v: float, edition: Code
) -> SizeByArea:
    """The smallest conductor that loses no more than allowed_v [V] by the constant K: CM = 2 K I L / V.

    Raises ValueError where no drop is allowed or nothing flows, LookupError where no printed size is enough.
    """
    _refuse(load_a, length_in, allowed_v)
    constant, _ = _constant(f"k_{material}", edition)
    return smallest_of_area(
        _WAYS * constant.number("number") * load_a * (length_in / 12) / allowed_v, edition=edition
    )


def within_advice(branch_percent: float, *, feeder_percent: float, edition: Code) -> Verdict:
    """Whether drops [percent] keep to the code's advice for branch circuits and for the whole, 210.19 note.

    Advice only: nothing is forbidden by it.
    """
    branch, total = rule("branch_drop_advice", edition), rule("total_drop_advice", edition)
    reasons = []
    if not reaches(branch.number, branch_percent):
        reasons.append(f"{branch_percent:.1f} percent on the branch circuit, advice is {branch.number:g}")
    if not reaches(total.number, branch_percent + feeder_percent):
        reasons.append(f"{branch_percent + feeder_percent:.1f} percent in all, advice is {total.number:g}")
    return Verdict(
        not reasons,
        tuple(reasons),
        Working(
            name="voltage drop against the advice",
            formula="branch circuit alone, and feeder and branch circuit together, below the advised shares",
            inputs=(
                Input("branch circuit", f"{branch_percent:.2f} percent"),
                Input("feeder", f"{feeder_percent:.2f} percent"),
                rule_input(branch),
                rule_input(total),
            ),
            result="; ".join(reasons) or "within the advice",
            source=resting_on(branch.source.citation, branch.source, total.source),
            note="advice, not a requirement",
        ),
    )


def _refuse(load_a: float, length_in: float, supply_v: float) -> None:
    if load_a < 0 or length_in < 0 or supply_v <= 0:
        raise ValueError(
            f"need current, length and voltage, not {load_a:g} A, {length_in:g} in, {supply_v:g} V"
        )


def _constant(name: str, edition: Code) -> tuple[Row, Source]:
    table = load(_CONSTANTS)
    row = table.row(name)
    return row, table.source(row, edition=edition)


def effective_impedance(
    wire: WireSize, material: str, conduit: str, power_factor: float, edition: Code
) -> tuple[float, tuple[Input, ...], Source]:
    """Effective impedance to neutral [ohm/kft], Table 9: as printed at its power factor, else from R and X.

    Arguments and errors as in `drop_by_impedance`.
    """
    if not 0 < power_factor <= 1:
        raise ValueError(f"power factor is above 0 and at most 1, not {power_factor:g}")
    if conduit not in CONDUITS or material not in ("copper", "aluminum"):
        raise LookupError(f"copper or aluminum in {', '.join(CONDUITS)}, not {material} in {conduit}")
    table = load(_IMPEDANCE)
    row = table.row(table_cell(wire))
    metal = "copper" if material == "copper" else "aluminum_wire"
    named = Input("row", f"{wire} {material} in {conduit} conduit", f"power factor {power_factor:g}")
    if power_factor == _constant("table_9_power_factor", edition)[0].number("number"):
        column = f"z085_{metal}_{conduit}_conduit_ohm_per_kft"
        return row.number(column), (named,), table.source(row, column, edition)
    r_column = f"r_{metal}_{conduit}_conduit_ohm_per_kft"
    x_column = (
        "x_steel_conduit_ohm_per_kft" if conduit == "steel" else "x_pvc_or_aluminum_conduit_ohm_per_kft"
    )
    r, x = row.number(r_column), row.number(x_column)
    r_source, x_source = table.source(row, r_column, edition), table.source(row, x_column, edition)
    impedance = r * power_factor + x * math.sin(math.acos(power_factor))
    inputs = (named, Input("R", f"{r:g} ohm/kft", str(r_source)), Input("X", f"{x:g} ohm/kft", str(x_source)))
    return impedance, inputs, resting_on(r_source.citation, r_source, x_source)


def _drop(
    drop_v: float,
    supply_v: float,
    *,
    formula: str,
    inputs: tuple[Input, ...],
    source: Source,
    steps: tuple[Working, ...] = (),
) -> VoltageDrop:
    percent = 100 * drop_v / supply_v
    return VoltageDrop(
        drop_v,
        percent,
        Working(
            name="voltage drop, single phase",
            formula=formula,
            inputs=(*inputs, Input("supply", f"{supply_v:g} V")),
            result=f"{drop_v:.2f} V, {percent:.1f} percent",
            source=source,
            steps=steps,
        ),
    )
