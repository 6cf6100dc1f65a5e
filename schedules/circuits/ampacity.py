"""How much current may this conductor carry, where it runs and on the terminals where it lands?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Judgement, resting_on, rule_input
from schedules.tables.conductors import as_wire_size, table_cell
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Source, Working

if TYPE_CHECKING:
    from schedules.quantities.sizes import WireSize
    from schedules.tables.edition import Code
    from schedules.tables.table import Row, Table

AMPACITY = "nec_310_16_ampacity"
CORRECTION = "nec_310_15_b_1_temperature_correction"
_ADJUSTMENT = "nec_310_15_c_1_bundling_adjustment"
_TERMINATION = "nec_110_14_c_1_termination_temperature"

MATERIALS = ("copper", "aluminum", "copper-clad aluminum")


@dataclass(frozen=True, slots=True)
class Ampacity:
    """What one conductor may carry."""

    ampacity_a: float
    working: Working


@dataclass(frozen=True, slots=True)
class Factor:
    """What a table ampacity is multiplied by."""

    factor: float
    working: Working


@dataclass(frozen=True, slots=True)
class TerminationColumn:
    """Which temperature column of the ampacity table the terminations allow."""

    column_c: int
    working: Working
    judgements: tuple[Judgement, ...] = ()


@dataclass(frozen=True, slots=True)
class ConductorCount:
    """How many conductors count as current-carrying."""

    count: int
    working: Working


def termination_column(
    circuit_a: float, *, marked_c: int | None, wiring: str, edition: Code
) -> TerminationColumn:
    """The ampacity column [C] for terminations of a circuit rated circuit_a [A], 110.14(C)(1) and 334.80.

    marked_c: lowest temperature [C] marked on the terminations at both ends, None where nothing is marked.
    wiring: `NM` for nonmetallic-sheathed cable, which keeps its own column; others have no limit of theirs.
    Raises ValueError for a rating that is not positive or a marking that is no column of the table.
    """
    if circuit_a <= 0:
        raise ValueError(f"circuit rating must be above 0 A, not {circuit_a:g}")
    table = load(_TERMINATION)
    row = _termination_row(table, circuit_a)
    column, marking = row.count("column_c"), "nothing"
    if marked_c is not None:
        ampacity_column("copper", marked_c)
        column, marking = marked_c, f"{marked_c} C"
    sources = [table.source(row, edition=edition)]
    inputs = [Input("circuit rating", f"{circuit_a:g} A"), Input("terminations marked", marking)]
    if wiring == "NM":
        own = rule("nm_ampacity_column", edition)
        column = min(column, int(own.number))
        sources.append(own.source)
        inputs.append(rule_input(own))
    return TerminationColumn(
        column,
        Working(
            name="ampacity column for terminations",
            formula="column by circuit rating unless equipment is marked otherwise, at most the cable's own",
            inputs=tuple(inputs),
            result=f"{column} C column",
            source=resting_on(sources[0].citation, *sources),
            note=row.text("exception"),
        ),
        _high_marking(table, column, sources[0]),
    )


def ambient_factor(insulation_c: int, ambient_c: float, *, edition: Code) -> Factor:
    """What an ampacity at 30 C is multiplied by in a surrounding of ambient_c [C], Table 310.15(B)(1).

    insulation_c: rating of the insulation [C]. Raises LookupError where the table gives no factor,
    because the insulation may not be used that hot.
    """
    table = load(CORRECTION)
    column = f"factor_{insulation_c}c"
    if column not in table.columns:
        raise LookupError(f"{table.title}: no column for {insulation_c} C insulation")
    row = next((row for row in table.rows if ambient_c <= row.count("ambient_max_c")), None)
    if row is None or not row.has(column):
        raise LookupError(f"{table.title}: {insulation_c} C insulation has no ampacity at {ambient_c:g} C")
    factor = row.number(column)
    return Factor(
        factor,
        Working(
            name="ambient correction",
            formula="factor of the band that the surrounding temperature falls in",
            inputs=(
                Input("insulation", f"{insulation_c} C"),
                Input("ambient", f"{ambient_c:g} C"),
                Input("band", f"up to {row.count('ambient_max_c')} C"),
            ),
            result=f"{factor:g}",
            source=table.source(row, column, edition),
            note=table.edition_note(edition),
        ),
    )


def bundling_factor(current_carrying: int, *, bundled_length_in: float, edition: Code) -> Factor:
    """What an ampacity is multiplied by where conductors lie together over a length [in], 310.15(C)(1).

    current_carrying: how many of them carry current. The exception for bundled AC and MC cable is not taken.
    Raises ValueError for fewer than one conductor or a negative length.
    """
    if current_carrying < 1 or bundled_length_in < 0:
        raise ValueError(
            f"need a conductor and a length, not {current_carrying} over {bundled_length_in:g} in"
        )
    table = load(_ADJUSTMENT)
    short = rule("bundling_length", edition)
    row = [row for row in table.rows if row.count("conductors_min") <= current_carrying][-1]
    source = table.source(row, "percent_of_ampacity", edition)
    percent, note = row.count("percent_of_ampacity"), ""
    if bundled_length_in <= short.number:
        row, note = table.rows[0], f"no longer together than {short.number:g} in: not adjusted"
        percent, source = row.count("percent_of_ampacity"), short.source
    return Factor(
        percent / 100,
        Working(
            name="adjustment for conductors together",
            formula="share by the number of current-carrying conductors together beyond a short length",
            inputs=(
                Input("current-carrying conductors", str(current_carrying)),
                Input("length together", _long(bundled_length_in)),
                rule_input(short),
            ),
            result=f"{percent} percent",
            source=source,
            note=note,
        ),
    )


def current_carrying_conductors(
    *, ungrounded: int, loaded_neutrals: int, balancing_neutrals: int, edition: Code
) -> ConductorCount:
    """How many conductors count for adjustment, 310.15(E) and (F); equipment grounding conductors never do.

    loaded_neutrals: they carry their circuit's whole current (2-wire circuits). balancing_neutrals: those of
    120/240 V circuits that carry only the difference of the legs. Raises ValueError for a negative count.
    """
    if min(ungrounded, loaded_neutrals, balancing_neutrals) < 0:
        raise ValueError("a count of conductors can't be negative")
    neutral, grounding = rule("neutral_not_counted", edition), rule("egc_not_counted", edition)
    count = ungrounded + loaded_neutrals
    return ConductorCount(
        count,
        Working(
            name="current-carrying conductors",
            formula="ungrounded conductors + neutrals that carry their circuit's whole current",
            inputs=(
                Input("ungrounded", str(ungrounded)),
                Input("neutrals with whole current", str(loaded_neutrals)),
                Input(
                    "neutrals with the difference only",
                    str(balancing_neutrals),
                    f"not counted, {neutral.source}",
                ),
                Input("equipment grounding", "any number", f"not counted, {grounding.source}"),
            ),
            result=str(count),
            source=resting_on(neutral.source.citation, neutral.source, grounding.source),
        ),
    )


def table_ampacity(size: WireSize | str, *, material: str, column_c: int, edition: Code) -> Ampacity:
    """Ampacity [A] as Table 310.16 prints it: 30 C ambient, three current-carrying conductors.

    material: `copper`, `aluminum` or `copper-clad aluminum`. column_c: 60, 75 or 90.
    Raises LookupError for a size, material or column that the table doesn't print.
    """
    wire = as_wire_size(size)
    table = load(AMPACITY)
    column = ampacity_column(material, column_c)
    row = table.row(table_cell(wire))
    if not row.has(column):
        raise LookupError(f"{table.title}: no {column_c} C ampacity for {wire} {material}")
    ampacity = row.count(column)
    return Ampacity(
        ampacity,
        Working(
            name=f"table ampacity of {wire} {material}",
            formula="as printed",
            inputs=(Input("row", str(wire)), Input("column", f"{material} {column_c} C")),
            result=f"{ampacity} A",
            source=table.source(row, column, edition),
            note=row.text("note"),
        ),
    )


def conductor_ampacity(
    size: WireSize | str,
    *,
    material: str,
    insulation_c: int,
    column_c: int,
    ambient_c: float,
    current_carrying: int,
    bundled_length_in: float,
    edition: Code,
) -> Ampacity:
    """What a conductor may carry [A] in its surroundings and on its terminations, 310.15 with 110.14(C).

    insulation_c: rating of the insulation, the column that factors start from (90 for NM cable). column_c:
    column that terminations or cable allow in the end. The rest as in `ambient_factor` and `bundling_factor`.
    Raises LookupError where a table gives no value.
    """
    wire = as_wire_size(size)
    start = table_ampacity(wire, material=material, column_c=insulation_c, edition=edition)
    ambient = ambient_factor(insulation_c, ambient_c, edition=edition)
    bundle = bundling_factor(current_carrying, bundled_length_in=bundled_length_in, edition=edition)
    end = table_ampacity(wire, material=material, column_c=min(column_c, insulation_c), edition=edition)
    adjusted = start.ampacity_a * ambient.factor * bundle.factor
    ampacity = min(adjusted, end.ampacity_a)
    steps = (start.working, ambient.working, bundle.working, end.working)
    return Ampacity(
        ampacity,
        Working(
            name=f"ampacity of {wire} {material}",
            formula="insulation column x ambient correction x adjustment, not above the terminations' column",
            inputs=(
                Input("insulation column", start.working.result, start.working.source.citation),
                Input("ambient correction", ambient.working.result, ambient.working.source.citation),
                Input("adjustment", bundle.working.result, bundle.working.source.citation),
                Input("corrected and adjusted", f"{adjusted:g} A"),
                Input("terminations allow", end.working.result, end.working.source.citation),
            ),
            result=f"{ampacity:g} A",
            source=resting_on(f"NEC {edition} 310.15 and 110.14(C)", *(step.source for step in steps)),
            steps=steps,
        ),
    )


def ampacity_column(material: str, column_c: int) -> str:
    """Name of the ampacity table's column for a material and a temperature [C]. Raises LookupError."""
    if material not in MATERIALS:
        raise LookupError(f"no ampacities for {material!r}; there are: {', '.join(MATERIALS)}")
    metal = "copper" if material == "copper" else "aluminum"
    column = f"{metal}_{column_c}c_a"
    if column not in load(AMPACITY).columns:
        raise LookupError(f"{load(AMPACITY).title}: no {column_c} C column")
    return column


def _long(length_in: float) -> str:
    return f"{length_in:g} in" if math.isfinite(length_in) else "not measured, taken as longer"


def _termination_row(table: Table, circuit_a: float) -> Row:
    """The row without anything marked: the lowest column of the band that the circuit falls in."""
    band = [
        row
        for row in table.rows
        if row.number("circuit_over_a") < circuit_a
        and (not row.has("circuit_to_a") or circuit_a <= row.number("circuit_to_a"))
    ]
    return min(band, key=lambda row: row.count("column_c"))


def _high_marking(table: Table, column_c: int, source: Source) -> tuple[Judgement, ...]:
    if column_c <= max(row.count("column_c") for row in table.rows):
        return ()
    question = (
        f"Is the whole equipment, not only its lugs, listed and identified for {column_c} C conductors?"
    )
    return (Judgement(question, "inspector, by the listing", source),)
