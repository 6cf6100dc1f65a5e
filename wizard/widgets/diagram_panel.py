"""The drawing: its table of ends, where it was written, and how to see it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, work
from textual.content import Content
from textual.widgets import Static

from schedules.cautions import CAUTIONS
from schedules.rows.terminations import conductors
from schedules.text import printable
from wizard import keys
from wizard.drawing_files import open_in_viewer, write_drawings
from wizard.messages import Drawn
from wizard.widgets.schedule_table import ScheduleTable
from wizard.widgets.step_panel import StepPanel

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.plan import Plan
    from wizard.session import Snapshot


class DiagramPanel(StepPanel):
    """What the drawing shows, as a table that a screen reader can follow too."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.DIAGRAM)

    table = getters.query_one(ScheduleTable)
    status = getters.query_one("#drawing-status", Static)

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._snapshot: Snapshot | None = None

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(Content.assemble(("Diagram", "bold"), "   every line drawn, end by end"))
        yield Static(id="drawing-status")
        yield ScheduleTable()
        yield Static(Content(" ".join(CAUTIONS)), classes="cautions")

    def on_mount(self) -> None:
        """Say what the keys do."""
        self.tell("Nothing written yet. w writes the drawings beside the job's file, o also opens the first.")

    def show(self, snapshot: Snapshot) -> None:
        """Take the plan as it stands now."""
        self._snapshot = snapshot
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
        self._begin(view=False)

    def action_open(self) -> None:
        """Write the drawings and open them in the system's viewer."""
        self._begin(view=True)

    def _begin(self, *, view: bool) -> None:
        snapshot = self._snapshot
        if snapshot is not None and snapshot.plan is not None:
            self.tell("Drawing and proving …")
            self._draw(snapshot.plan, Path(snapshot.draft.file).parent, view=view)

    @work(thread=True, exclusive=True, group="draw")
    def _draw(self, plan: Plan, folder: Path, *, view: bool) -> None:
        try:
            files = write_drawings(plan, folder)
        # The engine is another program: whatever it does, the person is told that nothing was written.
        except Exception as error:
            self.post_message(Drawn((), f"Nothing was written: {printable(str(error), 400)}", view=view))
            return
        names = ", ".join(file.name for file in files)
        self.post_message(
            Drawn(files, f"Proved and written to {printable(str(folder), 200)}: {names}", view=view)
        )

    def on_drawn(self, event: Drawn) -> None:
        """Tell what was written, and open it where that was asked."""
        trouble = open_in_viewer(event.files[0]) if event.view and event.files else ""
        self.tell(f"{event.words}. {trouble}" if trouble else event.words)
