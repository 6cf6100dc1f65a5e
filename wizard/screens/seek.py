"""Choose one of many things by typing a part of its name."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Footer, Input, OptionList, Static
from textual.widgets.option_list import Option

from wizard import keys

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType


class SeekInput(Input):
    """Where a part of the name is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SEEK_INPUT)


class SeekScreen(ModalScreen[int | None]):
    """Gives the place of the thing chosen, None where the person went back."""

    TOPIC = "seek"
    CSS_PATH = "seek.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.SEEK)
    AUTO_FOCUS = "Input"

    field = getters.query_one(Input)
    lines = getters.query_one(OptionList)

    def __init__(self, title: str, why: str, things: tuple[str, ...]) -> None:
        super().__init__()
        self._title, self._why, self._things = title, why, things

    def compose(self) -> ComposeResult:
        """Lay the list out."""
        with Vertical(id="seek-box"):
            yield Static(Content.styled(self._title, "bold"))
            yield Static(Content(self._why), classes="why")
            yield SeekInput(placeholder="type a part of it", compact=True)
            yield OptionList(compact=True, markup=False)
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Show all of them."""
        self.lines.can_focus = False
        self._fill("")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Leave those that hold what is typed."""
        event.stop()
        self._fill(event.value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the thing under the cursor."""
        event.stop()
        if self.lines.highlighted is not None:
            self.lines.action_select()

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if event.option.id is not None:
            self.dismiss(int(event.option.id))

    def action_down(self) -> None:
        """Go to the thing below."""
        self.lines.action_cursor_down()

    def action_up(self) -> None:
        """Go to the thing above."""
        self.lines.action_cursor_up()

    def action_back(self) -> None:
        """Go back; nothing is chosen."""
        self.dismiss(None)

    def _fill(self, wanted: str) -> None:
        phrase = " ".join(wanted.casefold().split())
        holding = [
            (place, thing)
            for place, thing in enumerate(self._things)
            if all(word in thing.casefold() for word in phrase.split())
        ]
        # What begins with what was typed comes first, then what holds it as it was typed.
        holding.sort(key=lambda item: _rank(item[1].casefold(), phrase))
        self.lines.clear_options()
        self.lines.add_options(Option(Content(thing), id=str(place)) for place, thing in holding)
        if self.lines.option_count:
            self.lines.highlighted = 0
        else:
            self.lines.add_option(Option(Content("none holds these words"), disabled=True))


def _rank(thing: str, phrase: str) -> int:
    return 0 if thing.startswith(phrase) else 1 if phrase in thing else 2
