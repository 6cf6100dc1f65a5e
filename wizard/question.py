"""One question as it stands, and a group of them: what the screens show of a job's answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from schedules.questions.field import Field, Option

Answer = tuple[str, str | None, str]
"""Where a job keeps an answer: table, row, field."""

StepId = str
"""The id of a step: a row of `wizard.steps.STEPS`."""

Kind = Literal["answer", "choices", "raceway", "add", "remove", "open"]
"""What answering does: fill a key, pick the sheet's choices, put a cable into a raceway, add or remove an entry, open
what is below."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question as it stands now.

    written: the answer as the file writes it, empty where there is none. shown: the same for the eye. needed: the
    plan waits for it. picked: the values taken, where there are options. closed: why it can't be answered yet. doubted:
    a finding bears on it. fault: what is wrong with the answer that stands there.
    """

    field: Field
    row: str | None
    written: str
    shown: str
    needed: bool = False
    options: tuple[Option, ...] = ()
    picked: frozenset[str | int] = frozenset()
    several: bool = False
    closed: str = ""
    doubted: bool = False
    kind: Kind = "answer"
    fault: str = ""

    @property
    def answer(self) -> Answer:
        """Where the job keeps it."""
        return self.field.table, self.row, self.field.key

    @property
    def key(self) -> str:
        """A name for widgets."""
        return "/".join((self.kind, self.field.table, self.row or "", self.field.key))

    @property
    def missing(self) -> bool:
        """Whether the plan waits for it in vain."""
        return self.needed and not self.written


@dataclass(frozen=True, slots=True)
class Group:
    """Questions that belong together. spread: its options are rows of the screen rather than a list to open."""

    id: str
    title: str
    why: str
    questions: tuple[Question, ...]
    spread: bool = False

    @property
    def missing(self) -> int:
        """How many answers the plan waits for."""
        return sum(1 for question in self.questions if question.missing)

    @property
    def answered(self) -> int:
        """How many are answered."""
        return sum(1 for question in self.questions if question.written)
