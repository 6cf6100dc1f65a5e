"""One option of a spread group as a row: its mark, its words, and, where it is not possible, the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from wizard import keys
from wizard.messages import Looked, Moved, Picked

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.field import Option
    from wizard.question import Question


class OptionRow(Widget, can_focus=True):
    """One option. One that is barred can be read, so that its reason is, but not picked."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.ROW)

    def __init__(self, question: Question, place: int) -> None:
        super().__init__()
        self.question = question
        self.place = place

    @property
    def option(self) -> Option:
        """The option that this row shows."""
        return self.question.options[self.place]

    def compose(self) -> ComposeResult:
        """Lay the row out."""
        yield Static(self._words(), classes="option")
        yield Static(classes="reason")

    def on_mount(self) -> None:
        """Show whether the option is possible."""
        self.show(self.question)

    def show(self, question: Question) -> None:
        """Take the question as it stands now."""
        self.question = question
        self.query_one(".option", Static).update(self._words())
        self.query_one(".reason", Static).update(self._reason())
        self.set_class(bool(self.option.barred), "-barred")

    def _words(self) -> Content:
        picked = self.option.value in self.question.picked
        shape = ("[x]" if picked else "[ ]") if self.question.several else ("(x)" if picked else "( )")
        return Content.assemble(f"{shape} ", (self.option.words, "bold" if picked else ""))

    def _reason(self) -> Content:
        barred = self.option.barred
        words = f"not possible: {'; '.join(barred)}" if barred else self.option.note
        self.query_one(".reason", Static).display = bool(words)
        return Content(words)

    def on_focus(self) -> None:
        """Tell that this option is under the cursor."""
        self.post_message(Looked(self.question))

    def action_answer(self) -> None:
        """Pick the option, or, where several are possible, switch it."""
        if not self.option.barred:
            self.post_message(Picked(self.question, self.option.value))

    def action_clear(self) -> None:
        """Take the option out."""
        if self.option.value in self.question.picked:
            self.post_message(Picked(self.question, self.option.value, out=True))

    def action_down(self) -> None:
        """Go to the row below."""
        self.post_message(Moved("down", self.question))

    def action_up(self) -> None:
        """Go to the row above."""
        self.post_message(Moved("up", self.question))
