"""How many volts are lost on a way of several cables, each with its own size, length and current?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import resting_on
from schedules.circuits.voltage_drop import VoltageDrop, conductor_resistance, effective_impedance
from schedules.tables.conductors import as_wire_size
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.quantities.sizes import WireSize
    from schedules.tables.edition import Code
    from schedules.working import Source

_IN_PER_KFT = 12_000


@dataclass(frozen=True, slots=True)
class Leg:
    """Conductors alike that the current passes one after the other.

    name: of their cable. count: how many, two where the current comes back in the same cable. length_in: of each [in].
    load_a: current in them [A]. stranding: `solid` or `stranded`. conduit: as in `drop_by_impedance`.
    """

    name: str
    size: WireSize
    stranding: str
    conduit: str
    count: int
    length_in: float
    load_a: float


def path_drop_by_resistance(
    legs: Sequence[Leg], *, material: str, supply_v: float, temperature_c: float, edition: Code
) -> VoltageDrop:
    """Drop [V] of a single-phase way from Table 8 resistance, its legs' drops added; reactance left out.

    temperature_c: of the conductors [C]. Raises ValueError for no leg or no supply, LookupError for what isn't printed.
    """
    _refuse(legs, supply_v)
    drop, inputs, sources = 0.0, [], []
    for leg in legs:
        one = conductor_resistance(
            leg.size,
            material=material,
            stranding=leg.stranding,
            length_in=leg.length_in,
            temperature_c=temperature_c,
            edition=edition,
        )
        lost = leg.count * leg.load_a * one.resistance_ohm
        drop += lost
        sources.append(one.working.source)
        inputs.append(
            Input(
                _words(leg, material),
                f"{leg.count} x {leg.load_a:.4g} A x {one.resistance_ohm:.4g} ohm = {lost:.3f} V",
                one.working.source.citation,
            )
        )
    return _total("Table 8", "sum over conductors: current x resistance", drop, supply_v, (inputs, sources))


def path_drop_by_impedance(
    legs: Sequence[Leg], *, material: str, power_factor: float, supply_v: float, edition: Code
) -> VoltageDrop:
    """Drop [V] of a single-phase way from Table 9: R x pf + X x sin(arccos pf), its legs' drops added.

    power_factor: of the load. Raises as `path_drop_by_resistance`, and ValueError for a power factor that is not one.
    """
    _refuse(legs, supply_v)
    drop, inputs, sources = 0.0, [], []
    for leg in legs:
        impedance, _, source = effective_impedance(
            as_wire_size(leg.size), material, leg.conduit, power_factor, edition
        )
        lost = leg.count * leg.load_a * impedance * leg.length_in / _IN_PER_KFT
        drop += lost
        sources.append(source)
        inputs.append(
            Input(
                f"{_words(leg, material)} as in {leg.conduit} conduit",
                f"{leg.count} x {leg.load_a:.4g} A x {impedance:.4g} ohm/kft x {leg.length_in / 12:.4g} ft = "
                f"{lost:.3f} V",
                source.citation,
            )
        )
    formula = f"sum over conductors: current x effective impedance at power factor {power_factor:g} x length"
    return _total("Table 9", formula, drop, supply_v, (inputs, sources))


def _words(leg: Leg, material: str) -> str:
    return f"{leg.name}: {leg.count} x {leg.size} {material}, {leg.stranding}, {leg.length_in / 12:.4g} ft"


def _refuse(legs: Sequence[Leg], supply_v: float) -> None:
    if not legs or supply_v <= 0:
        raise ValueError(f"need conductors and a supply, not {len(legs)} legs and {supply_v:g} V")
    for leg in legs:
        if leg.count < 1 or leg.length_in < 0 or leg.load_a < 0:
            raise ValueError(
                f"{leg.name}: need conductors, length and current, "
                f"not {leg.count}, {leg.length_in:g} in, {leg.load_a:g} A"
            )


def _total(
    table: str, formula: str, drop_v: float, supply_v: float, legs: tuple[list[Input], list[Source]]
) -> VoltageDrop:
    inputs, sources = legs
    percent = 100 * drop_v / supply_v
    return VoltageDrop(
        drop_v,
        percent,
        Working(
            name=f"voltage drop by Chapter 9 {table}",
            formula=formula,
            inputs=(*inputs, Input("supply", f"{supply_v:g} V")),
            result=f"{drop_v:.2f} V, {percent:.2f} percent",
            source=resting_on(sources[0].citation, *sources),
        ),
    )
