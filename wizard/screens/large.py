"""One conductor end at a time, large, to be read from a step away."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Digits, Footer, Static

from wizard import keys
from wizard.marking import told

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.rows.terminations import Termination
    from wizard.screens.enclosures import EnclosuresScreen


class LargeScreen(Screen[None]):
    """The rows of one enclosure, one in view."""

    TOPIC = "large"
    CSS_PATH = "large.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.LARGE)

    def __init__(self, behind: EnclosuresScreen, place: int) -> None:
        super().__init__()
        self._behind, self._place = behind, place
        self._rows: tuple[Termination, ...] = behind.table.shown

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        yield Static(id="terminal")
        yield Digits(id="number")
        with VerticalScroll(can_focus=False):
            yield Static(id="rest")
        yield Static(id="state")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Show the row."""
        self._show()

    def action_next_row(self) -> None:
        """Go to the next row."""
        self._go(1)

    def action_previous_row(self) -> None:
        """Go to the row before."""
        self._go(-1)

    def action_mark(self) -> None:
        """Mark the row as landed, or take that back."""
        self._behind.mark(self._rows[self._place], self._show)

    def action_back(self) -> None:
        """Go back to the table."""
        self.dismiss(None)

    def _go(self, by: int) -> None:
        self._place = max(0, min(len(self._rows) - 1, self._place + by))
        self._show()

    def _show(self) -> None:
        row, ends = self._rows[self._place], self._behind.ends
        done, all_ends = ends.count(row.enclosure)
        self.query_one("#title", Static).update(
            Content.assemble(
                (f"{row.enclosure}  {row.enclosure_name}", "bold"),
                f"   row {self._place + 1} of {len(self._rows)}   {done} of {all_ends} landed",
            )
        )
        terminal = Content.assemble("Terminal  ", (row.terminal, "bold"), "   wire")
        self.query_one("#terminal", Static).update(terminal)
        self.query_one("#number", Digits).update(row.number)
        rest = [
            (head, value)
            for head, value in told(ends.schedule, row)
            if value not in (row.terminal, row.number)
        ]
        self.query_one("#rest", Static).update(
            Content("\n\n").join(Content.assemble(f"{head:<12}", (value, "bold")) for head, value in rest)
        )
        words = "LANDED" if ends.is_done(row) else "not landed yet: space marks it"
        self.query_one("#state", Static).update(Content.styled(words, "bold"))
