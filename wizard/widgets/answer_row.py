"""One question as a row: label, answer, and, where an answer was refused, the reason in words beneath."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from wizard import keys
from wizard.messages import Looked, Moved, Typed

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.question import Question


class AnswerInput(Input):
    """The field that a person types in."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.TYPING)

    class Left(Message):
        """The person stopped typing without accepting."""

    def __init__(self, text: str, hint: str) -> None:
        super().__init__(value=text, placeholder=hint, compact=True, select_on_focus=True)
        self.leaving_up = False

    def action_leave(self) -> None:
        """Stop typing; the text stays."""
        self.post_message(self.Left())

    async def action_submit_up(self) -> None:
        """Accept, then go up instead of down."""
        self.leaving_up = True
        await self.action_submit()


class AnswerRow(Widget, can_focus=True):
    """One question. It is a line to be read until a person answers it, then a field to be typed in."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.ROW)

    def __init__(self, question: Question, typed: str | None = None) -> None:
        super().__init__()
        self.question = question
        self.typed = typed
        self._error = ""

    def compose(self) -> ComposeResult:
        """Lay the row out."""
        with Horizontal(classes="line"):
            yield Static(Content(self.question.field.label), classes="label")
            yield Static(self._answer(), classes="answer")
        yield Static(classes="error")

    def show(self, question: Question) -> None:
        """Take the question as it stands now."""
        self.question = question
        self.query_one(".answer", Static).update(self._answer())

    def refuse(self, words: str) -> None:
        """Say why the typed text was not taken; the text stays."""
        self._error = words
        error = self.query_one(".error", Static)
        error.update(Content(words))
        self.set_class(bool(words), "-refused")
        self.scroll_visible()

    async def accept(self) -> None:
        """The typed text was taken: become a line again."""
        self.typed = None
        self.refuse("")
        await self._close()

    @property
    def typing(self) -> bool:
        """Whether a person is typing here."""
        return bool(self.query(AnswerInput))

    def _answer(self) -> Content:
        question = self.question
        if self.typed is not None:
            return Content.assemble((self.typed or "nothing", "bold"), ("  not accepted yet", "italic"))
        if question.closed:
            return Content.styled(question.closed, "italic")
        if question.kind in ("add", "remove"):
            return Content.styled(question.shown, "italic")
        if question.shown:
            return Content.styled(question.shown, "bold")
        return Content("missing" if question.needed else "asked for" if question.doubted else "–")

    def on_focus(self) -> None:
        """Tell that this question is under the cursor."""
        self.post_message(Looked(self.question))

    async def action_answer(self) -> None:
        """Open the field, or the list of options."""
        if self.question.closed:
            self.refuse(self.question.closed)
        elif self.question.options or self.question.kind in ("add", "remove"):
            self.post_message(Moved("open", self.question))
        else:
            await self._open()

    async def _open(self) -> None:
        if self.typing:
            return
        text = self.typed if self.typed is not None else self.question.written
        field = AnswerInput(text, self.question.field.example)
        self.add_class("-typing")
        await self.query_one(".line", Horizontal).mount(field)
        field.focus()
        self.post_message(Looked(self.question))

    async def _close(self) -> None:
        had_focus = self.has_focus_within
        await self.query(AnswerInput).remove()
        self.remove_class("-typing")
        self.query_one(".answer", Static).update(self._answer())
        if had_focus:
            self.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Hand the typed text on."""
        event.stop()
        self.typed = event.value
        up = isinstance(event.input, AnswerInput) and event.input.leaving_up
        self.post_message(Typed(self.question, event.value, up=up))

    async def on_answer_input_left(self, event: AnswerInput.Left) -> None:
        """Keep what was typed, marked as not accepted, unless it is what stands there already."""
        event.stop()
        text = self.query_one(AnswerInput).value
        self.typed = None if text == self.question.written else text
        if self.typed is None:
            self.refuse("")
        await self._close()

    def action_clear(self) -> None:
        """Take the answer out."""
        if not self.question.written:
            return
        self.typed = None
        if self.question.kind == "raceway":
            self.post_message(Moved("open", self.question))
            return
        self.post_message(Typed(self.question, "", up=False, stay=True))

    def action_down(self) -> None:
        """Go to the row below."""
        self.post_message(Moved("down", self.question))

    def action_up(self) -> None:
        """Go to the row above."""
        self.post_message(Moved("up", self.question))
