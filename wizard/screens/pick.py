"""A list of possible answers to one question; what is not possible stands there with its reason."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Footer, OptionList, Static
from textual.widgets.option_list import Option

from wizard import keys

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.questions import field
    from wizard.question import Question

Value = str | int


class PickLines(OptionList):
    """The possible answers, as lines."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.PICK_LIST)


class PickScreen(ModalScreen[tuple[Value, ...] | None]):
    """Gives the values picked, or None where the person went back. several: enter switches, escape is done."""

    TOPIC = "pick"
    CSS_PATH = "pick.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.PICK)

    offers = getters.query_one(PickLines)

    def __init__(self, question: Question) -> None:
        super().__init__()
        self.question = question
        self._picked = question.picked

    def compose(self) -> ComposeResult:
        """Lay the list out."""
        with Vertical(id="pick-box"):
            yield Static(Content.styled(self.question.field.label, "bold"))
            yield Static(Content(self.question.field.why), classes="why")
            yield PickLines(compact=True, markup=False)
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Fill the list; the cursor stands on what is picked."""
        self.offers.add_options(Option(self._prompt(option)) for option in self.question.options)
        self.offers.highlighted = next(
            (place for place, option in enumerate(self.question.options) if option.value in self._picked), 0
        )
        self.offers.focus()

    def _prompt(self, option: field.Option) -> Content:
        picked = option.value in self._picked
        shape = ("[x]" if picked else "[ ]") if self.question.several else ("(x)" if picked else "( )")
        note = f"\n    not possible: {'; '.join(option.barred)}" if option.barred else ""
        if not option.barred and option.note:
            note = f"\n    {option.note}"
        return Content.assemble(f"{shape} ", (option.words, "bold" if not option.barred else "italic"), note)

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        option = self.question.options[event.option_index]
        if option.barred:
            self.app.notify(f"Not possible: {'; '.join(option.barred)}", markup=False)
        elif self.question.several:
            self._picked ^= {option.value}
            self.offers.replace_option_prompt_at_index(event.option_index, self._prompt(option))
        else:
            self.dismiss((option.value,))

    def action_back(self) -> None:
        """Go back; where several are possible, with what is picked."""
        if not self.question.several:
            self.dismiss(None)
            return
        self.dismiss(tuple(option.value for option in self.question.options if option.value in self._picked))
