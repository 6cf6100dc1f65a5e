"""The shapes of an answer: a working's source, a yes or no with reasons, what somebody has to decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.tables.table import weakest
from schedules.working import Input, Source

if TYPE_CHECKING:
    from schedules.tables.rules import Rule
    from schedules.working import Working

# Relative noise of binary arithmetic; no published figure is this fine.
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Judgement:
    """A question that the code leaves open: what is asked, and who decides it."""

    question: str
    who_decides: str
    source: Source


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a thing is so (allowed, required), with every reason, and what remains to be decided."""

    holds: bool
    reasons: tuple[str, ...]
    working: Working
    judgements: tuple[Judgement, ...] = ()


def resting_on(citation: str, *sources: Source) -> Source:
    """The source of a number made from these: no better confirmed than the worst, amended where any of them is."""
    amended = dict.fromkeys(words for source in sources for words in source.amended)
    return Source(citation, weakest(*(source.confidence for source in sources)), tuple(amended))


def rule_input(rule: Rule) -> Input:
    """A rule's numbers as one input of a working."""
    numbers = " or ".join(f"{number:g}" for number in rule.numbers)
    return Input(rule.words, f"{numbers} {rule.unit}".strip(), str(rule.source))


def reaches(available: float, needed: float) -> bool:
    """Whether available is at least needed, arithmetic noise aside."""
    return available >= needed - _NOISE * max(abs(available), abs(needed))
