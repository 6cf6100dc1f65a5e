"""What an equipment sheet makes with all that fits together: its findings, then every termination."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Static

from schedules.rows.every import SCHEDULES
from schedules.writers.text import schedule_lines
from wizard import keys
from wizard.sheet_words import making_lines

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.plan import Plan

_SCHEDULES = ("terminations", "cables", "circuits", "openings", "interlocks")


class MakingScreen(Screen[None]):
    """The trial plan of a sheet, as it would be printed."""

    TOPIC = "making"
    CSS_PATH = "effect.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [keys.BACK]
    AUTO_FOCUS = "VerticalScroll"

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self._plan = plan

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(
            Content.styled("What the sheet makes, nothing of a kitchen measured", "bold"), id="title"
        )
        with VerticalScroll():
            yield Static(id="made")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Fill it."""
        self._fill()

    def on_resize(self) -> None:
        """Lay the tables out anew."""
        self._fill()

    def _fill(self) -> None:
        lines = list(making_lines(self._plan))
        for name in _SCHEDULES:
            lines.append(Content(""))
            lines += [
                Content(line) for line in schedule_lines(SCHEDULES[name](self._plan), self.size.width - 4)
            ]
        self.query_one("#made", Static).update(Content("\n").join(lines))

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)
