"""All that the last answer changed, on a screen of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Static

from wizard import keys
from wizard.wording import effect_content

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.session import Snapshot


class EffectScreen(Screen[None]):
    """The effect of the last answer, whole."""

    TOPIC = "effect"
    CSS_PATH = "effect.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.EFFECT)
    AUTO_FOCUS = "VerticalScroll"

    def __init__(self, snapshot: Snapshot) -> None:
        super().__init__()
        self._snapshot = snapshot

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(Content.styled("What the last answer did", "bold"), id="title")
        with VerticalScroll():
            yield Static(effect_content(self._snapshot))
        yield Footer(show_command_palette=False)

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)
