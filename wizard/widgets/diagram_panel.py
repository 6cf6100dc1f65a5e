"""The drawing: its table of ends, where it was written, and how to see it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from schedules.cautions import CAUTIONS
from schedules.rows.terminations import conductors
from wizard import keys
from wizard.messages import DrawingAsked
from wizard.widgets.schedule_table import ScheduleTable

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.session import Snapshot


class DiagramPanel(Vertical):
    """What the drawing shows, as a table that a screen reader can follow too."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.DIAGRAM)

    table = getters.query_one(ScheduleTable)
    status = getters.query_one("#drawing-status", Static)

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(Content.assemble(("Diagram", "bold"), "   every line drawn, end by end"))
        yield Static(id="drawing-status")
        yield ScheduleTable()
        yield Static(Content(" ".join(CAUTIONS)), classes="cautions")

    def on_mount(self) -> None:
        """Say what the keys do."""
        self.tell("Nothing written yet. Press w to write the drawings beside the job's file.")

    def show(self, snapshot: Snapshot) -> None:
        """Take the plan as it stands now."""
        if snapshot.plan is not None:
            self.table.show(conductors(snapshot.plan))

    def tell(self, words: str) -> None:
        """Say what came of writing or opening."""
        self.status.update(Content(words))

    def enter(self) -> None:
        """Put the cursor into the table."""
        self.table.rows.focus()

    def action_write(self) -> None:
        """Write the drawings."""
        self.post_message(DrawingAsked(view=False))

    def action_open(self) -> None:
        """Write the drawings and open them in the system's viewer."""
        self.post_message(DrawingAsked(view=True))
