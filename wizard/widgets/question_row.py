"""One question, or one of its options, as a row: what it is, its answer, and in words what is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import events, getters
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from wizard import keys
from wizard.messages import Looked, Picked, Pressed, Typed

if TYPE_CHECKING:
    from collections.abc import Callable

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

    class SubmittedBy(Message):
        """The person accepted what is typed. up: and goes to the question above."""

        def __init__(self, *, up: bool) -> None:
            super().__init__()
            self.up = up

    def __init__(self) -> None:
        super().__init__(compact=True, select_on_focus=False)
        self.display = False

    def action_leave(self) -> None:
        """Stop typing; the text stays."""
        self.post_message(self.Left())

    def action_accept(self, up: bool) -> None:
        """Accept what is typed."""
        self.post_message(self.SubmittedBy(up=up))

    def on_blur(self) -> None:
        """Whoever goes elsewhere has stopped typing, unless it is the whole terminal that lost the focus."""
        if self.app.app_focus:
            self.post_message(self.Left())


class QuestionRow(Widget, can_focus=True):
    """A line to be read until a person answers it, then a field to be typed in.

    place: which of the question's options it shows; None for the question itself. move: takes the cursor to another
    row, so many down. Rows are never taken away while a person may be typing ahead: the panel gives them other
    questions.
    """

    BINDINGS: ClassVar[list[BindingType]] = list(keys.ROW)

    label = getters.query_one(".label", Static)
    answer = getters.query_one(".answer", Static)
    field = getters.query_one(AnswerInput)
    words = getters.query_one(".words", Static)

    def __init__(
        self, question: Question, move: Callable[[QuestionRow, int], None], place: int | None = None
    ) -> None:
        super().__init__()
        self.question, self.place = question, place
        self.typed: str | None = None
        self._move = move
        self._error = ""
        self._composed = False

    def compose(self) -> ComposeResult:
        """Lay the row out."""
        with Horizontal(classes="line"):
            yield Static(classes="label")
            yield Static(classes="answer")
            yield AnswerInput()
        yield Static(classes="words")

    def on_mount(self) -> None:
        """Show what it was made for."""
        self._composed = True
        self._update()

    @property
    def _laid_out(self) -> bool:
        """Whether its parts are there: not before it is mounted, nor while the program ends."""
        return self._composed and self.is_attached

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

    @property
    def unaccepted(self) -> str | None:
        """What was typed and not accepted."""
        return self.field.value if self._laid_out and self.typing else self.typed

    def show(self, question: Question, place: int | None, typed: str | None) -> None:
        """Take a question as it stands now; another one than before closes the field."""
        if (question.key, place) != (self.question.key, self.place):
            self._error = ""
            if self._laid_out and self.typing:
                self._close()
            self.typed = typed
        self.question, self.place = question, place
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
        if not self._laid_out:
            return
        option = self.option
        self.set_class(option is not None, "-option")
        self.set_class(option is not None and bool(option.barred), "-barred")
        self.set_class(bool(self._error or self.question.fault), "-refused")
        self.label.update(self._label())
        self.answer.update(self._answer())
        words = self._error or (self.question.fault if option is None else _reason(option))
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
        """Begin to type: a figure begins an answer that is measured."""
        figure = event.character is not None and event.character in _BEGINS
        measured = self.question.field.reads in _MEASURED
        if figure and event.character and measured and self._may_type() and not self.typing:
            self._open(event.character)
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
        elif self._may_type():
            text = self.typed if self.typed is not None else self.question.written
            self._open(text)
            self.field.select_all()
        elif not self.question.closed:
            self.post_message(Pressed(self.question))

    def action_clear(self) -> None:
        """Take the answer or the option out."""
        option = self.option
        if option is not None:
            if self.picked:
                self.post_message(Picked(self.question, option.value, out=True))
        elif self.question.kind == "raceway":
            self.post_message(Pressed(self.question))
        elif self.question.written:
            self.post_message(Typed(self.question, "", stay=True))

    def action_down(self) -> None:
        """Go to the row below."""
        self._move(self, 1)

    def action_up(self) -> None:
        """Go to the row above."""
        self._move(self, -1)

    def _open(self, text: str) -> None:
        self.field.value = text
        self.field.placeholder = self.question.field.example
        self.field.cursor_position = len(text)
        self.field.display = True
        self.add_class("-typing")
        self.screen.set_focus(self.field)
        self.post_message(Looked(self.question))

    def _close(self) -> None:
        if self.field.has_focus:
            self.screen.set_focus(self)
        self.field.display = False
        self.remove_class("-typing")

    def _submit(self, *, up: bool) -> None:
        """Hand the typed text on."""
        self.typed = self.field.value
        self.post_message(Typed(self.question, self.field.value, up=up))

    def _leave(self) -> None:
        """Keep what was typed, marked as not accepted, unless it is what stands there already."""
        text = self.field.value
        self.typed = None if text == self.question.written else text
        if self.typed is None:
            self._error = ""
        self._close()
        self._update()

    def on_answer_input_submitted_by(self, event: AnswerInput.SubmittedBy) -> None:
        """Accept what was typed."""
        event.stop()
        self._submit(up=event.up)

    def on_answer_input_left(self, event: AnswerInput.Left) -> None:
        """Stop typing."""
        event.stop()
        if self.typing:
            self._leave()


def _reason(option: Option) -> str:
    return f"not possible: {'; '.join(option.barred)}" if option.barred else option.note
