"""A sketch in characters, as large as the room that it has."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from wizard.messages import Resketch


class Sketch(Static):
    """The lines of a sketch; asks for others when it has more or less room."""

    def show(self, lines: tuple[str, ...]) -> None:
        """Show these lines."""
        self.update(Content("\n".join(lines)))

    def on_resize(self) -> None:
        """Ask for a sketch that fits."""
        self.post_message(Resketch())
