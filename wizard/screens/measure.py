"""One measurement at a time, large, for somebody who calls numbers from a ladder."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.containers import Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, Static

from schedules.errors import InputError
from schedules.quantities.numerals import UnitError
from wizard import keys
from wizard.answering import refusal_words, typed_answer

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.question import Group, Question
    from wizard.session import Session


class MeasureInput(Input):
    """Where the called number is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.MEASURE_INPUT)


class MeasureScreen(Screen[None]):
    """The measurements that are wanted, one after the other."""

    TOPIC = "measure"
    CSS_PATH = "measure.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.MEASURE)
    AUTO_FOCUS = "MeasureInput"

    field = getters.query_one(MeasureInput)

    def __init__(self, session: Session, asked: tuple[tuple[Group, Question], ...]) -> None:
        super().__init__()
        self.session = session
        self._asked = asked
        self._place = 0

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Vertical(id="measure-box"):
            yield Static(id="measure-thing")
            yield Static(id="measure-what")
            yield MeasureInput(select_on_focus=False)
            yield Static(id="measure-error")
            yield Static(id="measure-why")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Ask for the first."""
        self._ask()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the number and ask for the next, or say why it was not taken."""
        event.stop()
        _, question = self._asked[self._place]
        try:
            self.session.answer(*typed_answer(question, event.value))
        except (UnitError, InputError) as error:
            self.query_one("#measure-error", Static).update(Content(refusal_words(error)))
            return
        self.action_later()

    def action_later(self) -> None:
        """Ask for the next; after the last, go back."""
        if self._place + 1 == len(self._asked):
            self.dismiss(None)
            return
        self._place += 1
        self._ask()

    def action_before(self) -> None:
        """Ask for the one before again."""
        self._place = max(0, self._place - 1)
        self._ask()

    def action_back(self) -> None:
        """Stop measuring; what was taken is saved."""
        self.dismiss(None)

    def _ask(self) -> None:
        group, question = self._asked[self._place]
        written = self.session.now.written(*question.answer)
        self.query_one("#title", Static).update(
            Content.assemble(("Measuring", "bold"), f"   {self._place + 1} of {len(self._asked)}")
        )
        self.query_one("#measure-thing", Static).update(Content.styled(group.title.upper(), "bold"))
        self.query_one("#measure-what", Static).update(Content.styled(question.field.label.upper(), "bold"))
        self.query_one("#measure-error", Static).update(Content(""))
        self.query_one("#measure-why", Static).update(
            Content(
                f"{group.why}\n{question.field.why}\n{question.field.range}, for example {question.field.example}"
            )
        )
        self.field.value = "" if written is None else str(written)
        self.field.select_all()
