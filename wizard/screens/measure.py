"""One measurement at a time, large, for somebody who calls numbers from a ladder."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, work
from textual.containers import Container, Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, Static
from textual.worker import get_current_worker

from schedules.drawings.measured_sketch import measured_sketch
from schedules.errors import InputError
from schedules.quantities.numerals import UnitError
from wizard import keys
from wizard.answering import refusal_words, typed_answer
from wizard.messages import Sketched
from wizard.widgets.sketch import Sketch

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.question import Group, Question
    from wizard.session import Session


class MeasureInput(Input):
    """Where the called number is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.MEASURE_INPUT)


class MeasureScreen(Screen[None]):
    """The measurements that are wanted, one after the other, with a sketch of the wall as it is typed."""

    TOPIC = "measure"
    CSS_PATH = "measure.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.MEASURE)
    AUTO_FOCUS = "MeasureInput"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012  the framework's own shape

    field = getters.query_one(MeasureInput)
    sketch = getters.query_one(Sketch)

    def __init__(self, session: Session, asked: tuple[tuple[Group, Question], ...]) -> None:
        super().__init__()
        self.session = session
        self._asked = asked
        self._place = 0

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Container(id="measure-body"):
            with Vertical(id="measure-box"):
                yield Static(id="measure-thing")
                yield Static(id="measure-what")
                yield MeasureInput(select_on_focus=False)
                yield Static(id="measure-error")
                yield Static(id="measure-why")
            yield Sketch()
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

    def on_input_changed(self, event: Input.Changed) -> None:
        """Sketch the wall with what is typed."""
        event.stop()
        self._resketch()

    def on_resketch(self) -> None:
        """Sketch the wall in the room that there is now."""
        self._resketch()

    def on_sketched(self, event: Sketched) -> None:
        """Show the wall as it was sketched."""
        self.sketch.show(event.lines)

    def _resketch(self) -> None:
        _, question = self._asked[self._place]
        size = self.sketch.content_size
        self._draw(question, self.field.value, size.width, size.height)

    @work(thread=True, exclusive=True, group="sketch")
    def _draw(self, question: Question, typed: str, columns: int, rows: int) -> None:
        """Sketch the draft with a typed value, or as it stands while that can't be read."""
        worker = get_current_worker()
        now = self.session.now
        try:
            job = now.draft.edited(typed_answer(question, typed)[0]).job
        except (UnitError, InputError):
            job = now.draft.job
        lines = measured_sketch(now.sheet, job, question.answer, columns=columns, rows=rows)
        if not worker.is_cancelled:
            self.post_message(Sketched(lines))

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
