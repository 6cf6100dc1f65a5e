"""How well fault finding works: every single fault planted in turn, and sought by what the finder proposes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.diagnose import Finder, Found
    from schedules.behaviour.fault_list import Fault


@dataclass(frozen=True, slots=True)
class Search:
    """One planted fault: the readings taken until nothing tells any more, and whether what is left is its class."""

    fault: Fault
    found: tuple[Found, ...]
    named: bool


@dataclass(frozen=True, slots=True)
class Score:
    """All of them: faults, classes that some reading tells apart, readings on average and at most, faults not named."""

    faults: int
    classes: int
    mean_readings: float
    most_readings: int
    missed: tuple[str, ...]

    @property
    def bits(self) -> float:
        """Yes/no readings that would be needed at least, on average: log2 of the number of classes."""
        return math.log2(self.classes)


def seek(finder: Finder, fault: Fault) -> tuple[Found, ...]:
    """Take each proposed reading as the fault gives it, until nothing tells any more."""
    found: list[Found] = []
    while (proposal := finder.propose(found)) is not None:
        probe = proposal.probe
        found.append(finder.found(probe, finder.foretell(probe.id, fault)))
    return tuple(found)


def searches(finder: Finder) -> Iterator[Search]:
    """Plant every single fault in turn."""
    classes = finder.classes()
    of = {suspect.fault: members for members in classes for suspect in members}
    for hypothesis in finder.hypotheses:
        if hypothesis.fault is not None:
            found = seek(finder, hypothesis.fault)
            left = {suspect.fault for suspect in finder.suspects(found)}
            yield Search(hypothesis.fault, found, left == {suspect.fault for suspect in of[hypothesis.fault]})


def score(finder: Finder) -> Score:
    """Plant every single fault and count."""
    done = tuple(searches(finder))
    return Score(
        faults=len(done),
        classes=len(finder.classes()),
        mean_readings=sum(len(item.found) for item in done) / len(done),
        most_readings=max(len(item.found) for item in done),
        missed=tuple(item.fault.id for item in done if not item.named),
    )
