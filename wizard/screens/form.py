"""Several answers asked together, because nothing can be made of only some of them."""

from __future__ import annotations

from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import TYPE_CHECKING, ClassVar

from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Footer, Static

from schedules.quantities.numerals import UnitError
from schedules.questions.field import Field
from wizard import keys
from wizard.answering import refusal_words
from wizard.asking import as_text, shown_value, values_of
from wizard.question import Question
from wizard.screens.pick import PickScreen
from wizard.widgets.question_row import QuestionRow
from wizard.wording import question_content

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.questions.field import Option
    from wizard.messages import Looked, Pressed, Typed

Values = dict[str, object]


@dataclass(frozen=True, slots=True)
class Form:
    """What is asked, with the options of each question, and what comes of the answers.

    done: what the last row says that it does. finish: does it, and says in words why it can't, or nothing. topic: the
    page of help. given: answers that stand there already.
    """

    title: str
    done: str
    why: str
    asked: tuple[tuple[Field, tuple[Option, ...]], ...]
    finish: Callable[[Values], str]
    topic: str
    given: Values = dataclass_field(default_factory=dict)


class FormScreen(ModalScreen[bool]):
    """The questions as rows, and a last row that does what the form is for. Gives whether that was done."""

    CSS_PATH = "form.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.FORM)
    AUTO_FOCUS = "QuestionRow"

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form = form
        self._values: Values = dict(form.given)

    @property
    def TOPIC(self) -> str:  # noqa: N802  a constant on the other screens
        """The page of help for this form."""
        return self.form.topic

    def compose(self) -> ComposeResult:
        """Lay the questions out."""
        rows = [*(self._question(field, options) for field, options in self.form.asked), self._last()]
        with Vertical(id="form-box"):
            yield Static(Content.styled(self.form.title, "bold"))
            yield Static(Content(self.form.why), classes="why")
            with VerticalScroll(id="form-rows", can_focus=False):
                for row in rows:
                    yield QuestionRow(row, self._step)
            # The box takes its height from what stands here first.
            yield Static(question_content(rows[0]), id="about")
        yield Footer(show_command_palette=False)

    def _question(self, field: Field, options: tuple[Option, ...]) -> Question:
        value = self._values.get(field.key)
        return Question(
            field=field,
            row=None,
            written=as_text(value),
            shown=shown_value(field, value, options, None),
            needed=True,
            options=options,
            picked=frozenset(values_of(value)),
            several=field.reads == "options",
        )

    def _last(self) -> Question:
        lacking = [field.label for field, _ in self.form.asked if field.key not in self._values]
        closed = f"first: {', '.join(lacking).lower()}" if lacking else ""
        done = Field("", "done", self.form.done, "line", self.form.why, "", longest=1)
        return Question(done, None, "", "press enter", closed=closed, kind="add")

    def _refresh(self) -> None:
        rows = list(self.query(QuestionRow))
        for row, (field, options) in zip(rows, self.form.asked, strict=False):
            row.show(self._question(field, options), None, None)
        rows[-1].show(self._last(), None, None)

    def on_typed(self, event: Typed) -> None:
        """Take a typed value, or say why not."""
        row, field = self._row_of(event.question), event.question.field
        try:
            if event.text.strip():
                self._values[field.key] = field.read(event.text)
            else:
                self._values.pop(field.key, None)
        except UnitError as error:
            row.refuse(refusal_words(error))
            return
        row.accept()
        self._refresh()
        self._step(row, -1 if event.up else 1)

    def on_pressed(self, event: Pressed) -> None:
        """Open the options, or do what the form is for."""
        row = self._row_of(event.question)
        if event.question.kind != "add":
            self._pick(row)
            return
        words = self.form.finish(self._values)
        if words:
            row.refuse(words)
        else:
            self.dismiss(True)

    def _pick(self, row: QuestionRow) -> None:
        question = row.question

        def picked(values: tuple[str | int, ...] | None) -> None:
            if values:
                self._values[question.field.key] = list(values) if question.several else values[0]
                self._refresh()
                self._step(row, 1)

        self.app.push_screen(PickScreen(question), picked)

    def _row_of(self, question: Question) -> QuestionRow:
        return next(row for row in self.query(QuestionRow) if row.question.key == question.key)

    def _step(self, row: QuestionRow, by: int) -> None:
        rows = list(self.query(QuestionRow))
        self.set_focus(rows[max(0, min(len(rows) - 1, rows.index(row) + by))])

    def on_looked(self, event: Looked) -> None:
        """Explain the question under the cursor."""
        self.query_one("#about", Static).update(question_content(event.question))

    def action_back(self) -> None:
        """Go back; nothing is done."""
        self.dismiss(False)
