"""Which code holds here: an edition, or an edition with what the locality changed in it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Amendment:
    """A local amendment: another number for one rule, in that rule's unit. source: where it is published."""

    rule: str
    number: float
    unit: str
    source: str

    def __str__(self) -> str:
        return f"{self.rule} is {self.number:g} {self.unit}".rstrip() + f" ({self.source})"


@dataclass(frozen=True, slots=True)
class Adopted:
    """An edition as a locality adopted it. Prints as its year."""

    year: str
    amendments: tuple[Amendment, ...] = ()

    def __str__(self) -> str:
        return self.year

    def amendment_of(self, rule: str) -> Amendment | None:
        """What the locality changed in this rule; the last one stands."""
        return next((item for item in reversed(self.amendments) if item.rule == rule), None)


Code = str | Adopted
"""What every rule takes as `edition`: a year such as `2023`, or that year as adopted."""
