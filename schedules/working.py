"""How one number came about, recorded when it is made."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Confidence(StrEnum):
    """How well a published value was confirmed when it was carried over."""

    TWO_TEXTS = "two_texts"
    ONE_TEXT = "one_text"
    MEMORY = "memory"
    COMMON_PRACTICE = "common practice"
    SHEET = "equipment sheet"
    JOB = "job"
    DERIVED = "derived"

    @property
    def caveat(self) -> str:
        """Words that must stand beside a value of this confidence, empty where none are needed."""
        return _CAVEATS.get(self, "")


_CAVEATS = {
    Confidence.ONE_TEXT: "confirmed by one text only; check against the adopted code",
    Confidence.MEMORY: "from memory; check against the adopted code before use",
    Confidence.COMMON_PRACTICE: "common practice, no published source",
}


@dataclass(frozen=True, slots=True)
class Source:
    """Where a rule or value stands: standard, edition and table or section, e.g. `NEC 2023 300.14`.

    amended: each local amendment that it rests on, in words.
    """

    citation: str
    confidence: Confidence
    amended: tuple[str, ...] = ()

    def __str__(self) -> str:
        caveat = self.confidence.caveat
        cited = f"{self.citation} ({caveat})" if caveat else self.citation
        return ", ".join((cited, *(f"amended locally: {words}" for words in self.amended)))


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a working: its name in words, its value as printed, where it came from."""

    name: str
    value: str
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """One derived number.

    name: what it is, in words. formula: the rule in our own words or symbols. result: as printed, unit
    included. steps: the workings of inputs that were themselves derived.
    """

    name: str
    formula: str
    inputs: tuple[Input, ...]
    result: str
    source: Source
    note: str = ""
    steps: tuple[Working, ...] = ()
