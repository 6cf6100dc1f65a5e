"""One conductor at a time: a person says where its far end lands, and is told whether, and if not, why not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.terminations import conductors, re_marked
from schedules.teaching.chance import Chance
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.connections.points import Landing
    from schedules.plan import Plan
    from schedules.rows.terminations import ConductorRow


@dataclass(frozen=True, slots=True)
class Asked:
    """One question: this conductor starts here; where does it end?"""

    row: ConductorRow

    @property
    def says(self) -> str:
        """What is known of it."""
        row = self.row
        return (
            f"{re_marked(row.colour, row.mark)}, {row.size}, of {row.cable}, "
            f"on {row.from_enclosure} {row.from_terminal}"
        )

    @property
    def answer(self) -> str:
        """Where it ends: enclosure and terminal."""
        return f"{self.row.to_enclosure} {self.row.to_terminal}"


@dataclass(frozen=True, slots=True)
class Graded:
    """One answer. reason: why it is wrong; empty where it is right."""

    asked: Asked
    given: str
    reason: str

    @property
    def right(self) -> bool:
        """Whether the far end lands there."""
        return not self.reason


@dataclass(frozen=True, slots=True)
class Score:
    """How many of those answered are right, and those that are not."""

    right: int
    answered: int
    wrong: tuple[Graded, ...]

    @property
    def percent(self) -> int:
        """Right ones of those answered [%], rounded down."""
        return 100 * self.right // self.answered if self.answered else 0


def questions(plan: Plan, seed: int, count: int | None = None) -> tuple[Asked, ...]:
    """Conductors in an order that the seed draws; at most so many, None for all."""
    rows = conductors(plan).rows
    return tuple(Asked(row) for row in Chance(seed).some(rows, len(rows) if count is None else count))


def grade(plan: Plan, asked: Asked, given: str) -> Graded:
    """Hold an answer against the plan. given: a terminal such as `X1:1L`, with or without its enclosure before it."""
    return Graded(asked, given, _reason(plan, asked.row, given))


def score(graded: Iterable[Graded]) -> Score:
    """Count what was answered; of one question the last answer counts."""
    last = {item.asked.row.number: item for item in graded}
    wrong = tuple(item for item in last.values() if not item.right)
    return Score(len(last) - len(wrong), len(last), wrong)


def _reason(plan: Plan, row: ConductorRow, given: str) -> str:
    *boxes, terminal = given.upper().split() or [""]
    landings = {str(point).upper(): landing for point, landing in plan.derived.connections.landings.items()}
    if terminal not in landings:
        return f"there is no terminal {printable(given, 40) or 'without a name'} with these choices"
    landing = landings[terminal]
    if boxes and boxes != [landing.enclosure.upper()]:
        return f"{landing.point} is in {landing.enclosure}, not in {printable(boxes[0], 20)}"
    return "" if str(landing.point) == row.to_terminal else _elsewhere(plan, row, landing)


def _elsewhere(plan: Plan, row: ConductorRow, landing: Landing) -> str:
    """Why another terminal is not the far end."""
    right = f"wire {row.number} ends on {row.to_enclosure} {row.to_terminal}"
    if str(landing.point) == row.from_terminal:
        return f"that is where it starts; {right}"
    connections = plan.derived.connections
    landed = connections.landed(landing.point)
    if not landed:
        return f"nothing lands on {landing.point} with these choices; {right}"
    carries = connections.landings[connections.conductors[row.number].b].carries
    if landing.carries != carries:
        return f"{landing.point} carries {landing.carries}, this wire {carries}; {right}"
    numbers = ", ".join(conductor.number for conductor in landed)
    return f"wire {numbers} lands on {landing.point}; {right}"
