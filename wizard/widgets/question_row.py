"""One question, or one of its options, as a row: what it is, its answer, and in words what is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from wizard import keys
from wizard.messages import Looked, Moved, Picked, Typed

if TYPE_CHECKING:
    from textual import events
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.questions.field import Option
    from wizard.question import Question

_MEASURED = ("length", "quantity", "percent", "count", "number", "points", "bends")
_BEGINS = frozenset("0123456789.-½¼¾")


class AnswerInput(Input):
    """The field that a person types in."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.TYPING)

    class Left(Message):
        """The person stopped typing without accepting."""

    def __init__(self) -> None:
        super().__init__(compact=True, select_on_focus=False)
        self.display = False
        self.leaving_up = False

    def action_leave(self) -> None:
        """Stop typing; the text stays."""
        self.post_message(self.Left())

    def on_blur(self) -> None:
        """Whoever goes elsewhere has stopped typing, unless it is the whole terminal that lost the focus."""
        if self.app.app_focus:
            self.post_message(self.Left())

    async def action_submit_up(self) -> None:
        """Accept, then go up instead of down."""
        self.leaving_up = True
        await self.action_submit()


class QuestionRow(Widget, can_focus=True):
    """A line to be read until a person answers it, then a field to be typed in.

    place: which of the question's options it shows; None for the question itself. Rows are never taken away while a
    person may be typing ahead: the panel gives them other questions.
    """

    BINDINGS: ClassVar[list[BindingType]] = list(keys.ROW)

    label = getters.query_one(".label", Static)
    answer = getters.query_one(".answer", Static)
    field = getters.query_one(AnswerInput)
    words = getters.query_one(".words", Static)

    def __init__(self, question: Question, place: int | None = None, typed: str | None = None) -> None:
        super().__init__()
        self.question, self.place, self.typed = question, place, typed
        self._error = ""

    def compose(self) -> ComposeResult:
        """Lay the row out."""
        with Horizontal(classes="line"):
            yield Static(classes="label")
            yield Static(classes="answer")
            yield AnswerInput()
        yield Static(classes="words")

    def on_mount(self) -> None:
        """Show what it was made for."""
        self._update()

    @property
    def option(self) -> Option | None:
        """The option that it shows."""
        return None if self.place is None else self.question.options[self.place]

    @property
    def picked(self) -> bool:
        """Whether its option is picked."""
        return self.option is not None and self.option.value in self.question.picked

    @property
    def typing(self) -> bool:
        """Whether a person is typing here."""
        return self.field.display

    def show(self, question: Question, place: int | None, typed: str | None) -> None:
        """Take a question as it stands now; another one than before closes the field."""
        if (question.key, place) != (self.question.key, self.place):
            self._error = ""
            self.typed = typed
            if self.is_mounted and self.typing:
                self._close()
        self.question, self.place = question, place
        if self.is_mounted:
            self._update()

    def refuse(self, words: str) -> None:
        """Say why the answer was not taken; what was typed stays."""
        self._error = words
        self._update()
        self.scroll_visible()

    def accept(self) -> None:
        """The answer was taken: become a line again."""
        self.typed, self._error = None, ""
        if self.typing:
            self._close()
        self._update()

    def _update(self) -> None:
        option = self.option
        self.set_class(option is not None, "-option")
        self.set_class(option is not None and bool(option.barred), "-barred")
        self.set_class(bool(self._error), "-refused")
        self.label.update(self._label())
        self.answer.update(self._answer())
        words = self._error or ("" if option is None else _reason(option))
        self.words.update(Content(words))
        self.words.display = bool(words)

    def _label(self) -> Content:
        option = self.option
        if option is None:
            return Content(self.question.field.label)
        shape = "[x]" if self.picked else "[ ]"
        if not self.question.several:
            shape = "(x)" if self.picked else "( )"
        return Content.assemble(f"{shape} ", (option.words, "bold" if self.picked else ""))

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

    def on_key(self, event: events.Key) -> None:
        """A figure begins an answer that is measured; while the field opens, letters typed ahead go into it."""
        if event.character is None or not event.is_printable or self.place is not None:
            return
        if self.typing:
            self.field.insert_text_at_cursor(event.character)
        elif event.character in _BEGINS and self.question.field.reads in _MEASURED and self._may_type():
            self._open(event.character)
        else:
            return
        event.stop()
        event.prevent_default()

    def _may_type(self) -> bool:
        return not self.question.closed and not self.question.options and self.question.kind == "answer"

    def action_answer(self) -> None:
        """Open the field or the list of options; pick the option."""
        option = self.option
        if option is not None:
            if not option.barred:
                self.post_message(Picked(self.question, option.value))
        elif self.question.closed:
            self.refuse(self.question.closed)
        elif self._may_type():
            text = self.typed if self.typed is not None else self.question.written
            self._open(text)
            self.field.select_all()
        else:
            self.post_message(Moved("open", self.question))

    def action_clear(self) -> None:
        """Take the answer or the option out."""
        option = self.option
        if option is not None:
            if self.picked:
                self.post_message(Picked(self.question, option.value, out=True))
        elif self.question.kind == "raceway":
            self.post_message(Moved("open", self.question))
        elif self.question.written:
            self.post_message(Typed(self.question, "", stay=True))

    def action_down(self) -> None:
        """Go to the row below."""
        self.post_message(Moved("down", self.question))

    def action_up(self) -> None:
        """Go to the row above."""
        self.post_message(Moved("up", self.question))

    def _open(self, text: str) -> None:
        self.field.value = text
        self.field.placeholder = self.question.field.example
        self.field.cursor_position = len(text)
        self.field.display = True
        self.field.leaving_up = False
        self.answer.display = False
        self.screen.set_focus(self.field)
        self.post_message(Looked(self.question))

    def _close(self) -> None:
        if self.field.has_focus:
            self.screen.set_focus(self)
        self.field.display = False
        self.answer.display = True

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Hand the typed text on."""
        event.stop()
        self.typed = event.value
        self.post_message(Typed(self.question, event.value, up=self.field.leaving_up))

    def on_answer_input_left(self, event: AnswerInput.Left) -> None:
        """Keep what was typed, marked as not accepted, unless it is what stands there already."""
        event.stop()
        if not self.typing:
            return
        text = self.field.value
        self.typed = None if text == self.question.written else text
        if self.typed is None:
            self._error = ""
        self._close()
        self._update()


def _reason(option: Option) -> str:
    return f"not possible: {'; '.join(option.barred)}" if option.barred else option.note
