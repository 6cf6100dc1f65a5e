"""All schedules of the plan, one in view, with search."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.content import Content
from textual.widgets import Input, Static

from schedules.questions.field import Field, Option
from schedules.rows.every import SCHEDULES
from wizard import keys
from wizard.question import Question
from wizard.screens.pick import PickScreen
from wizard.widgets.schedule_table import ScheduleTable
from wizard.widgets.search import SearchInput
from wizard.widgets.step_panel import StepPanel

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.session import Snapshot

_NAMES = tuple(SCHEDULES)


class SchedulePanel(StepPanel):
    """The schedules of one plan."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SCHEDULES)

    head = getters.query_one(".schedule-title", Static)
    table = getters.query_one(ScheduleTable)
    field = getters.query_one(SearchInput)

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._place = 0
        self._snapshot: Snapshot | None = None

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(classes="schedule-title")
        yield SearchInput()
        yield ScheduleTable()
        yield Static(classes="schedule-note")

    def show(self, snapshot: Snapshot) -> None:
        """Take the plan as it stands now."""
        self._snapshot = snapshot
        self._fill()

    def enter(self) -> None:
        """Put the cursor into the table."""
        self.table.rows.focus()

    def action_search(self) -> None:
        """Begin to type what is looked for."""
        self.field.open()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Leave only the rows that match."""
        event.stop()
        self._fill()

    def on_search_input_closed(self) -> None:
        """Go back to the rows."""
        self.enter()

    def action_next_schedule(self) -> None:
        """Show the next schedule."""
        self._turn(1)

    def action_previous_schedule(self) -> None:
        """Show the schedule before."""
        self._turn(-1)

    def action_list(self) -> None:
        """Choose a table from the list of all."""
        if self._snapshot is None or self._snapshot.plan is None:
            return
        plan = self._snapshot.plan
        options = tuple(
            Option(place, schedule.title, f"{len(schedule.rows)} rows")
            for place, schedule in enumerate(make(plan) for make in SCHEDULES.values())
        )
        field = Field("", "schedule", "Which table", "option", "Everything that is derived from the job.", "")
        question = Question(field, None, "", "", options=options, picked=frozenset({self._place}))

        def chosen(values: tuple[str | int, ...] | None) -> None:
            if values is not None:
                self._turn(int(values[0]) - self._place)

        self.app.push_screen(PickScreen(question), chosen)

    def _turn(self, by: int) -> None:
        self._place = (self._place + by) % len(_NAMES)
        self._fill()
        self.enter()

    def _fill(self) -> None:
        if self._snapshot is None or self._snapshot.plan is None:
            return
        schedule = SCHEDULES[_NAMES[self._place]](self._snapshot.plan)
        self.table.show(schedule, self.field.value)
        shown = len(self.table.shown)
        rows = f"{shown} of {len(schedule.rows)} rows" if self.field.value else f"{shown} rows"
        self.head.update(
            Content.assemble(
                (schedule.title, "bold"), f"   {self._place + 1} of {len(_NAMES)}, l lists   {rows}"
            )
        )
        self.query_one(".schedule-note", Static).update(Content(schedule.note))
