"""Which local amendments are in force, and is each one of a rule that it can change?"""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.framing.framing_plan import FRAMING_RULES, framing_code
from schedules.mechanical_code import fuel_gas_code, residential_code
from schedules.tables import load, rule
from schedules.tables.rules import unfit
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.derived import Derived
    from schedules.tables import Amendment, Rule

NEC_TABLES = ("nec_rules", "nec_circuit_limits", "nec_ch9_notes")
MECHANICAL_TABLES = {
    "IRC": ("irc_mechanical_rules", "ifgc_rules"),
    "IMC": ("imc_rules", "irc_mechanical_rules", "ifgc_rules"),
}
"""By the book that holds for the air: a rule of one name in both is that book's."""

RULE_TABLES = (*NEC_TABLES, FRAMING_RULES, *MECHANICAL_TABLES["IMC"])
"""Where a rule that can be amended stands."""


def check_amendments(derived: Derived) -> Iterator[Finding]:
    """Name every amendment in force with both numbers, and refuse those that can't stand in for a rule."""
    years = dict.fromkeys(NEC_TABLES, str(derived.job.job.code))
    years[FRAMING_RULES] = str(framing_code(derived.job))
    code = residential_code(derived.job)
    if code is not None:
        years |= dict.fromkeys(MECHANICAL_TABLES[derived.job.air.book or "IRC"], code.year)
        years["ifgc_rules"] = (fuel_gas_code(derived.job) or code).year
    for amendment in derived.job.adopted.amendments:
        published = _published(amendment.rule, years)
        if published is None:
            hint = _hint(amendment.rule)
            yield _refused(
                amendment, f"the rules that can be amended have none called {amendment.rule}{hint}"
            )
        elif reason := unfit(amendment, published):
            yield _refused(amendment, f"{amendment} can't stand in for {published.source.citation}: {reason}")
        else:
            yield _in_force(amendment, published)


def _published(name: str, years: Mapping[str, str]) -> Rule | None:
    for table, year in years.items():
        if load(table).where(rule=name):
            try:
                return rule(name, year, table)
            except LookupError:
                return None
    return None


def _hint(name: str) -> str:
    known = {row.text("rule") for table in RULE_TABLES for row in load(table).rows}
    close = difflib.get_close_matches(name, sorted(known), n=1)
    return f"; did you mean {close[0]}?" if close else ""


def _refused(amendment: Amendment, says: str) -> Finding:
    return Finding(
        code="amendment-refused",
        severity=Severity.FIX,
        subject=amendment.rule,
        says=says,
        rule="an amendment changes the only number of one rule, in the rule's unit",
        source=Source(amendment.source, Confidence.JOB),
        answer=("amendment", amendment.rule, "unit"),
        remedies=(
            Remedy(
                "take the amendment out: what the code prints holds",
                (Edit("amendment", amendment.rule, "", None),),
            ),
        ),
    )


def _in_force(amendment: Amendment, published: Rule) -> Finding:
    unit = published.unit
    return Finding(
        code="amendment",
        severity=Severity.NOTE,
        subject=amendment.rule,
        says=(
            f"amended locally: {amendment.number:g} {unit} instead of {published.number:g} {unit} "
            f"({published.words}); every number that rests on it says so"
        ),
        rule="the authority having jurisdiction may amend the code",
        source=Source(f"{amendment.source}, in place of {published.source}", Confidence.JOB),
        numbers=(
            Input("the code", f"{published.number:g} {unit}", str(published.source)),
            Input("here", f"{amendment.number:g} {unit}", amendment.source),
        ),
        answer=("amendment", amendment.rule, "number"),
    )
