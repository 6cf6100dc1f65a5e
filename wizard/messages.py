"""Every message that widgets and screens send upwards."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from textual.message import Message

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.comparison import Comparison
    from schedules.errors import Mistake
    from schedules.findings import Edit, Finding
    from schedules.plan import Plan
    from wizard.question import Answer, Question
    from wizard.session import Session

Door = Literal["terminations", "reach", "compare", "drawings", "class"]
"""A quick door: what a person may want from a job without going through its steps."""


class Opened(Message):
    """The worker has opened a job; door: what a person wants of it, None for its steps."""

    def __init__(self, session: Session, door: Door | None) -> None:
        super().__init__()
        self.session = session
        self.door = door


class Refused(Message):
    """The worker could not open a file: every mistake in it."""

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        super().__init__()
        self.mistakes = mistakes


class Typed(Message):
    """A person typed an answer and accepted it; empty text takes the answer out.

    up: the cursor goes to the question above afterwards, not to the one below. stay: it goes nowhere.
    """

    def __init__(self, question: Question, text: str, *, up: bool = False, stay: bool = False) -> None:
        super().__init__()
        self.question = question
        self.text = text
        self.up = up
        self.stay = stay


class Picked(Message):
    """A person picked an option, or, where several are possible, switched one. out: took it out."""

    def __init__(self, question: Question, value: str | int, *, out: bool = False) -> None:
        super().__init__()
        self.question = question
        self.value = value
        self.out = out


class Pressed(Message):
    """A person wants a row's options opened, or done what the row does."""

    def __init__(self, question: Question) -> None:
        super().__init__()
        self.question = question


class Applied(Message):
    """A person asked for a finding's remedy."""

    def __init__(self, edits: tuple[Edit, ...], words: str) -> None:
        super().__init__()
        self.edits = edits
        self.words = words


class Recorded(Message):
    """A person recorded what was done on site, or took that back."""

    def __init__(self, edits: tuple[Edit, ...], words: str) -> None:
        super().__init__()
        self.edits = edits
        self.words = words


class Signing(Message):
    """A person wants to acknowledge a finding."""

    def __init__(self, finding: Finding) -> None:
        super().__init__()
        self.finding = finding


class Sought(Message):
    """A person wants to see where an answer is given; subject: the thing that it is about."""

    def __init__(self, answer: Answer, subject: str) -> None:
        super().__init__()
        self.answer = answer
        self.subject = subject


class Looked(Message):
    """Another question came under the cursor."""

    def __init__(self, question: Question) -> None:
        super().__init__()
        self.question = question


class Planned(Message):
    """The worker has planned one version of the job."""

    def __init__(self, version: int, plan: Plan) -> None:
        super().__init__()
        self.version = version
        self.plan = plan


class PlanFailed(Message):
    """The worker could not plan one version of the job."""

    def __init__(self, version: int, words: str) -> None:
        super().__init__()
        self.version = version
        self.words = words


class SheetPlanned(Message):
    """The worker has planned what one version of an equipment sheet makes."""

    def __init__(self, version: int, plan: Plan) -> None:
        super().__init__()
        self.version = version
        self.plan = plan


class Drawn(Message):
    """The worker has written the drawings, or says why it did not.

    view: open the first of them. there: only because others of these names are there already.
    """

    def __init__(self, files: tuple[Path, ...], words: str, *, view: bool, there: bool = False) -> None:
        super().__init__()
        self.there = there
        self.files = files
        self.words = words
        self.view = view


class Printing(Message):
    """The worker that makes files says how far it is."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class Printed(Message):
    """The worker has written a package, or says why it did not."""

    def __init__(self, files: tuple[Path, ...], words: str) -> None:
        super().__init__()
        self.files = files
        self.words = words


class Compared(Message):
    """The worker has planned the other choice at one place of the list, or says why it can't. after: that plan."""

    def __init__(
        self, place: int, comparison: Comparison | None, words: str, after: Plan | None = None
    ) -> None:
        super().__init__()
        self.after = after
        self.place = place
        self.comparison = comparison
        self.words = words


class Resketch(Message):
    """A sketch has more or less room than before."""


class Sketched(Message):
    """The worker has sketched the wall that is measured."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        super().__init__()
        self.lines = lines
