"""What the quick doors share: things to choose from at the left, what is known of one of them at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, OptionList, Static
from textual.widgets.option_list import Option

from wizard import keys

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual import events
    from textual.app import ComposeResult
    from textual.binding import BindingType
    from textual.widget import Widget

    from wizard.session import Session


WIDE = 110
"""Columns from which there is room for names beside tags."""


class BrowseScreen(Screen[None]):
    """A list and a view. Each kind says what stands in the list and what is shown of the thing under the cursor.

    It is abstract in what it raises: the framework's metaclass leaves no room for the language's own way.
    """

    CSS_PATH = "browse.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.BROWSE)
    AUTO_FOCUS = "#things"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE, "-wide")]  # noqa: RUF012  the framework's own shape
    HEADING = ""

    things = getters.query_one("#things", OptionList)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.plan = session.plan_now()

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        job = self.session.now.draft.job.job
        yield Static(
            Content.assemble((self.HEADING, "bold"), f"   {job.name}   revision {job.revision}"), id="title"
        )
        with Horizontal(id="body"):
            yield OptionList(id="things", compact=True, markup=False)
            with Vertical(id="view"):
                yield from self.view()
        yield Footer(show_command_palette=False)

    def view(self) -> Iterable[Widget]:
        """The widgets of the right side."""
        raise NotImplementedError

    def prompts(self) -> Iterable[Content]:
        """The list's lines."""
        raise NotImplementedError

    def look_at(self, place: int) -> None:
        """Show what is known of one thing."""
        raise NotImplementedError

    def on_mount(self) -> None:
        """Fill the list."""
        self.things.add_options(Option(prompt) for prompt in self.prompts())
        if self.things.option_count:
            self.things.highlighted = 0

    def on_resize(self, _event: events.Resize) -> None:
        """Say as much of each thing as there is room for."""
        for place, prompt in enumerate(self.prompts()):
            self.things.replace_option_prompt_at_index(place, prompt)

    @on(OptionList.OptionHighlighted, "#things")
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self.look_at(event.option_index)

    def action_next_thing(self) -> None:
        """Look at the next thing."""
        self.things.action_cursor_down()

    def action_previous_thing(self) -> None:
        """Look at the thing before."""
        self.things.action_cursor_up()

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)
