"""All schedules of the plan, one in view, with search."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from textual import getters, on, work
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from schedules.questions.field import Field, Option
from schedules.rows.catalogue import CATALOGUE
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

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule
    from wizard.session import Snapshot

_NAMES = tuple(SCHEDULES)


class SchedulePanel(StepPanel):
    """The schedules of one plan."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SCHEDULES)

    head = getters.query_one(".schedule-title", Static)
    table = getters.query_one(ScheduleTable)
    field = getters.query_one(SearchInput)

    class Made(Message):
        """The worker has made one schedule of a plan."""

        def __init__(self, plan: Plan, name: str, schedule: Schedule[Any]) -> None:
            super().__init__()
            self.plan, self.name, self.schedule = plan, name, schedule

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._place = 0
        self._plan: Plan | None = None
        self._made: dict[str, Schedule[Any]] = {}

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(classes="schedule-title")
        yield SearchInput()
        yield ScheduleTable()
        yield Static(classes="schedule-note")

    def show(self, snapshot: Snapshot) -> None:
        """Take the plan as it stands now."""
        if snapshot.plan is not self._plan:
            self._plan = snapshot.plan
            self._made.clear()
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
        options = tuple(Option(place, _words(name), CATALOGUE[name]) for place, name in enumerate(_NAMES))
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
        name = _NAMES[self._place]
        schedule = self._made.get(name)
        if schedule is not None:
            self._show(schedule)
        elif self._plan is not None:
            self._tell(_words(name), "")
            self.table.wait("being worked out …")
            self.query_one(".schedule-note", Static).update(Content(""))
            self._make(self._plan, name)

    @work(thread=True, exclusive=True, group="schedule")
    def _make(self, plan: Plan, name: str) -> None:
        # Some tables solve the installation for every fault; whoever goes on to another table does not wait for them.
        worker = get_current_worker()
        schedule = SCHEDULES[name](plan)
        if not worker.is_cancelled:
            self.post_message(self.Made(plan, name, schedule))

    @on(Made)
    def _take(self, event: Made) -> None:
        event.stop()
        if event.plan is self._plan:
            self._made[event.name] = event.schedule
            if event.name == _NAMES[self._place]:
                self._show(event.schedule)

    def _show(self, schedule: Schedule[Any]) -> None:
        self.table.show(schedule, self.field.value)
        shown = len(self.table.shown)
        rows = f"{shown} of {len(schedule.rows)} rows" if self.field.value else f"{shown} rows"
        self._tell(schedule.title, rows)
        self.query_one(".schedule-note", Static).update(Content(schedule.note))

    def _tell(self, title: str, rows: str) -> None:
        self.head.update(
            Content.assemble((title, "bold"), f"   {self._place + 1} of {len(_NAMES)}, l lists   {rows}")
        )


def _words(name: str) -> str:
    return name.replace("-", " ").capitalize()
