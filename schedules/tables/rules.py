"""A rule of a code by our name for it and an edition: words, numbers, source."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.tables.edition import Adopted
from schedules.tables.loading import load
from schedules.tables.table import weakest
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from schedules.tables.edition import Amendment, Code
    from schedules.tables.table import Row, Table


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule as one edition has it; `words` are ours, never the code's."""

    name: str
    words: str
    numbers: tuple[float, ...]
    unit: str
    source: Source
    note: str

    @property
    def number(self) -> float:
        """The rule's only number, in its unit. Raises LookupError where it gives none or several."""
        if len(self.numbers) != 1:
            raise LookupError(f"rule {self.name!r} gives {len(self.numbers)} numbers, not one")
        return self.numbers[0]


@lru_cache(maxsize=4096)
def rule(name: str, edition: Code, table: str = "nec_rules") -> Rule:
    """The rule of this name in this edition, e.g. `rule("free_conductor", "2023").number` [in].

    Where the edition's own text was not read, the nearest edition that was read stands in for it, its
    confidence falls to memory, and the citation says so. A local amendment puts its number in place of the code's,
    and the source says so. Raises LookupError for an unknown name or edition, and for a rule that the edition
    doesn't have.
    """
    published = _published(name, str(edition), table)
    amendment = edition.amendment_of(name) if isinstance(edition, Adopted) else None
    if amendment is None or unfit(amendment, published):
        return published
    return _amended(published, amendment)


def unfit(amendment: Amendment, published: Rule) -> str:
    """Why an amendment can't stand in for a rule, in words; empty where it can."""
    if len(published.numbers) != 1:
        return f"the rule gives {len(published.numbers)} numbers, an amendment changes the only one"
    if amendment.unit != published.unit:
        return f"the rule's unit is {published.unit or 'none'}"
    return ""


def has_rule(name: str, edition: Code, table: str = "nec_rules") -> bool:
    """Whether this edition has this rule at all. Raises LookupError for an unknown name."""
    rows = load(table).where(rule=name)
    if not rows:
        raise LookupError(f"no rule {name!r} in {load(table).title}")
    return not any(str(edition) in row.words("absent_in") for row in rows)


def _amended(published: Rule, amendment: Amendment) -> Rule:
    """The number as amended; the source keeps the code's citation and tells both numbers."""
    was, now = (f"{number:g} {published.unit}".rstrip() for number in (published.number, amendment.number))
    told = f"{now} instead of {was} by {amendment.source}"
    return replace(
        published,
        numbers=(amendment.number,),
        source=Source(published.source.citation, Confidence.JOB, (told,)),
    )


def _published(name: str, edition: str, table: str) -> Rule:
    published = load(table)
    if edition not in published.editions:
        known = ", ".join(published.editions)
        raise LookupError(f"{published.standard} rules: no edition {edition!r}; there are: {known}")
    rows = published.where(rule=name)
    if not rows:
        known = ", ".join(dict.fromkeys(row.text("rule") for row in published.rows))
        raise LookupError(f"no rule {name!r}; there are: {known}")
    if any(edition in row.words("absent_in") for row in rows):
        raise LookupError(f"{published.standard} {edition} has no rule {name!r}")
    return _as_rule(published, _nearest(rows, edition), edition)


def _nearest(rows: tuple[Row, ...], edition: str) -> Row:
    """The row read in this edition, else in the latest one before it, else in the earliest after it."""
    by_year = {year: row for row in rows for year in row.words("editions")}
    earlier = [year for year in by_year if year <= edition]
    return by_year[max(earlier) if earlier else min(by_year)]


def _as_rule(table: Table, row: Row, edition: str) -> Rule:
    read_in = row.words("editions")
    confidence = Confidence(row.text("confidence"))
    citation = f"{table.standard} {edition} {row.text('section')}"
    if edition not in read_in:
        confidence = weakest(confidence, Confidence.MEMORY)
        citation = f"{table.standard} {read_in[-1]} {row.text('section')}, standing in for {edition}"
    return Rule(
        name=row.text("rule"),
        words=row.text("words"),
        numbers=row.numbers("number"),
        unit=row.text("unit"),
        source=Source(citation, confidence),
        note=row.text("note"),
    )
