"""A file that can't be used: every mistake in it, with line, key, what was found and what is allowed."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Static

from schedules.text import for_terminal
from wizard import keys

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.errors import Mistake


class TroubleScreen(Screen[None]):
    """What is wrong with a file. Nothing was changed in it."""

    TOPIC = "trouble"
    CSS_PATH = "trouble.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [keys.BACK]

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        super().__init__()
        self._mistakes = mistakes

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        number = len(self._mistakes)
        head = f"This file can't be used: {number} {'mistake' if number == 1 else 'mistakes'}. Nothing was changed."
        yield Static(Content.styled(head, "bold"), id="title")
        with VerticalScroll():
            for mistake in self._mistakes:
                yield Static(_words(mistake), classes="mistake")
        yield Footer(show_command_palette=False)

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)


def _words(mistake: Mistake) -> Content:
    line = f", line {mistake.line}" if mistake.line is not None else ""
    return Content.assemble(
        (for_terminal(f"{mistake.file}{line}  {mistake.key}"), "bold"),
        f"\n  found    {for_terminal(mistake.found)}\n  allowed  {for_terminal(mistake.allowed)}",
    )
