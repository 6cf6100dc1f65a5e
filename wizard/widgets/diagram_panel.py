"""The drawing: its table of ends, where it was written, and how to see it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, work
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from schedules.cautions import CAUTION
from schedules.errors import InputError
from schedules.questions.field import Field, Option
from schedules.rows.terminations import conductors
from schedules.text import printable
from wizard import keys
from wizard.answering import refusal_words
from wizard.drawing_files import open_in_viewer, write_drawings
from wizard.messages import Drawn, Printing
from wizard.printing import Stopped
from wizard.question import Question
from wizard.screens.pick import PickScreen
from wizard.widgets.schedule_table import ScheduleTable
from wizard.widgets.step_panel import StepPanel

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.plan import Plan
    from wizard.session import Snapshot


_GIVE_WAY = Question(
    Field(
        "drawings",
        "give_way",
        "These drawings are there already",
        "option",
        "Nothing is replaced unasked.",
        "",
    ),
    None,
    "",
    "",
    options=(Option("keep", "Keep them"), Option("replace", "Let them give way to the new ones")),
    picked=frozenset({"keep"}),
)


class DiagramPanel(StepPanel):
    """What the drawing shows, as a table that a screen reader can follow too."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.DIAGRAM)

    table = getters.query_one(ScheduleTable)
    status = getters.query_one("#drawing-status", Static)

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._snapshot: Snapshot | None = None
        self._ours: frozenset[Path] = frozenset()
        self._busy = False

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(Content.assemble(("Diagram", "bold"), "   every line drawn, end by end"))
        yield Static(id="drawing-status")
        yield ScheduleTable()
        yield Static(Content(CAUTION), classes="cautions")

    def on_mount(self) -> None:
        """Say what the keys do."""
        self.tell("g shows the drawings here. w writes them beside the job's file, o also opens the first.")

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

    def action_stop(self) -> None:
        """Stop drawing; nothing is written."""
        self.workers.cancel_group(self, "draw")
        self._rest("Stopped. Nothing was written.")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Escape stops only where there is something to stop."""
        return self._busy or action != "stop"

    def _begin(self, *, view: bool, replace: bool = False) -> None:
        snapshot = self._snapshot
        if snapshot is not None and snapshot.plan is not None and not self._busy:
            self._busy = True
            self.refresh_bindings()
            self._draw(snapshot.plan, Path(snapshot.draft.file).parent, view=view, replace=replace)

    @work(thread=True, exclusive=True, group="draw")
    def _draw(self, plan: Plan, folder: Path, *, view: bool, replace: bool) -> None:
        worker = get_current_worker()

        def tell(words: str) -> None:
            if worker.is_cancelled:
                raise Stopped
            self.post_message(Printing(words))

        try:
            files = write_drawings(plan, folder, ours=None if replace else self._ours, tell=tell)
        except Stopped:
            return
        except InputError as error:
            there = all(Path(mistake.file).exists() for mistake in error.mistakes)
            self.post_message(Drawn((), refusal_words(error), view=view, there=there))
        # The engine is another program: whatever it does, the person is told that nothing was written.
        except Exception as error:
            self.post_message(Drawn((), printable(str(error), 400), view=view))
        else:
            words = f"Proved and written beside the job: {files[0].name} and {len(files) - 1} more"
            self.post_message(Drawn(files, words, view=view))

    def on_printing(self, event: Printing) -> None:
        """Say how far the work is."""
        event.stop()
        if self._busy:
            self.tell(f"{event.words.capitalize()} …   esc stops; nothing is written before the end.")

    def on_drawn(self, event: Drawn) -> None:
        """Tell what was written, and open it where that was asked."""
        if event.there:
            self._rest("Nothing was written: drawings of these names are there already.")
            self._ask(view=event.view)
        elif not event.files:
            self._rest(f"Nothing was written: {event.words}")
        else:
            self._ours |= frozenset(event.files)
            trouble = open_in_viewer(event.files[0]) if event.view else ""
            self._rest(f"{event.words}. {trouble}" if trouble else event.words)

    def _ask(self, *, view: bool) -> None:
        """Whether what is there may give way."""

        def answered(values: tuple[str | int, ...] | None) -> None:
            if values == ("replace",):
                self._begin(view=view, replace=True)

        self.app.push_screen(PickScreen(_GIVE_WAY), answered)

    def _rest(self, words: str) -> None:
        self._busy = False
        self.refresh_bindings()
        self.tell(words)
