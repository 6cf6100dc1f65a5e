"""Which equipment grounding conductor does this circuit need?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Judgement, resting_on
from schedules.quantities.sizes import WireSize
from schedules.tables.conductors import as_wire_size, circular_mils, smallest_of_area
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables.conductors import SizeByArea
    from schedules.tables.edition import Code
    from schedules.tables.rules import Rule

_TABLE = "nec_250_122_egc_size"

# Table 8 prints areas to three or four figures, so a ratio of two of them is good to about this share.
_PRINTED_TO = 0.002


@dataclass(frozen=True, slots=True)
class GroundingConductor:
    """An equipment grounding conductor of the wire type."""

    size: WireSize
    working: Working
    judgements: tuple[Judgement, ...] = ()


def table_grounding_conductor(device_a: float, *, material: str, edition: Code) -> GroundingConductor:
    """The least equipment grounding conductor behind a device of this rating [A], Table 250.122.

    material: of the grounding conductor itself, `copper`, `aluminum` or `copper-clad aluminum`.
    Raises ValueError for a rating that is not positive, LookupError above the table's end or for another
    material.
    """
    if device_a <= 0:
        raise ValueError(f"device rating must be above 0 A, not {device_a:g}")
    if material not in ("copper", "aluminum", "copper-clad aluminum"):
        raise LookupError(f"no grounding conductor of {material!r}; copper, aluminum or copper-clad aluminum")
    table = load(_TABLE)
    column = "copper_size" if material == "copper" else "aluminum_size"
    row = next((row for row in table.rows if device_a <= row.count("overcurrent_device_to_a")), None)
    if row is None:
        raise LookupError(f"{table.title}: no row for {device_a:g} A")
    size = WireSize.from_table(row.text(column))
    return GroundingConductor(
        size,
        Working(
            name="least equipment grounding conductor",
            formula="row of the first device rating that is not below the circuit's",
            inputs=(
                Input("device", f"{device_a:g} A"),
                Input("row", f"not over {row.count('overcurrent_device_to_a')} A"),
                Input("material", material),
            ),
            result=f"{size} {material}",
            source=table.source(row, column, edition),
        ),
    )


def grounding_conductor(
    device_a: float,
    *,
    material: str,
    least_circuit_size: WireSize | str,
    circuit_size: WireSize | str,
    only_for_heat: bool,
    edition: Code,
) -> GroundingConductor:
    """The equipment grounding conductor of a circuit, grown with its conductors, 250.122(A) and (B).

    device_a: rating [A]. least_circuit_size: smallest ungrounded conductor with enough ampacity for the
    installation; circuit_size: the one installed, of the same metal. only_for_heat: it was enlarged for
    surrounding temperature or bundling alone, so that nothing else grows. Never larger than the circuit's own
    conductor. Raises ValueError where the installed conductor is smaller than the least.
    """
    least, installed = as_wire_size(least_circuit_size), as_wire_size(circuit_size)
    if installed < least:
        raise ValueError(f"circuit conductor {installed} is smaller than the least allowed, {least}")
    from_table = table_grounding_conductor(device_a, material=material, edition=edition)
    cap, growth = rule("egc_not_above_circuit", edition), rule("egc_increase", edition)
    grown = None
    if installed > least and not only_for_heat:
        grown = _in_proportion(from_table.size, least, installed, edition)
    size = min(from_table.size if grown is None else grown.size, installed)
    steps = (from_table.working,) if grown is None else (from_table.working, grown.working)
    return GroundingConductor(
        size,
        Working(
            name="equipment grounding conductor",
            formula="table size x area of circuit conductor / its least area; at most that conductor's size",
            inputs=(
                Input("table size", str(from_table.size), from_table.working.source.citation),
                Input("least circuit conductor", str(least)),
                Input("circuit conductor installed", str(installed)),
                Input("enlarged for heat alone", "yes" if only_for_heat else "no"),
                Input(growth.words, "", str(growth.source)),
                Input(cap.words, "", str(cap.source)),
            ),
            result=f"{size} {material}",
            source=resting_on(growth.source.citation, growth.source, cap.source, *(s.source for s in steps)),
            note="not larger than the circuit conductors" if size == installed else "",
            steps=steps,
        ),
        _rounding(grown, size, growth, edition),
    )


def _in_proportion(table_size: WireSize, least: WireSize, installed: WireSize, edition: Code) -> SizeByArea:
    areas = [circular_mils(size, edition=edition).circular_mils for size in (table_size, installed, least)]
    return smallest_of_area(areas[0] * areas[1] / areas[2], edition=edition)


def _rounding(grown: SizeByArea | None, size: WireSize, growth: Rule, edition: Code) -> tuple[Judgement, ...]:
    """Ask, where the next smaller size misses the area by no more than the table's own rounding."""
    if grown is None or grown.smaller is None or size != grown.size:
        return ()
    area = circular_mils(grown.smaller, edition=edition).circular_mils
    if grown.shortfall_cmil > area * _PRINTED_TO:
        return ()
    question = (
        f"Does {grown.smaller} do? It misses the area by {grown.shortfall_cmil:.0f} cmil of {area}, "
        "within the rounding of the printed areas."
    )
    return (Judgement(question, "authority having jurisdiction", growth.source),)
