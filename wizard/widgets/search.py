"""The line in which a person types what is looked for."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.message import Message
from textual.widgets import Input

from wizard import keys

if TYPE_CHECKING:
    from textual.binding import BindingType


class SearchInput(Input):
    """Hidden until it is opened; enter keeps the words, escape forgets them."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SEARCH)

    class Closed(Message):
        """The person has done typing."""

    def __init__(self) -> None:
        super().__init__(
            placeholder="wire number, terminal, enclosure, colour", compact=True, select_on_focus=False
        )
        self.display = False

    def open(self) -> None:
        """Show the line and type in it."""
        self.display = True
        self.focus()

    async def action_submit(self) -> None:
        """Keep the words and go back."""
        self.display = bool(self.value)
        self.post_message(self.Closed())

    def action_forget(self) -> None:
        """Forget the words and go back."""
        self.value = ""
        self.display = False
        self.post_message(self.Closed())
