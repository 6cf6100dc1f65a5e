"""One enclosure's terminations: every conductor end in it, as the screwdriver needs them, marked as work goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.content import Content
from textual.widgets import Static

from schedules.errors import InputError
from schedules.job.landing import mark_landed, take_back
from schedules.questions.fields import FIELDS
from wizard import keys
from wizard.answering import refusal_words
from wizard.marking import ends_of
from wizard.screens.browse import WIDE, BrowseScreen
from wizard.screens.form import Form, FormScreen
from wizard.screens.large import LargeScreen
from wizard.today import today
from wizard.widgets.schedule_table import ScheduleTable
from wizard.widgets.search import SearchInput

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from textual.binding import BindingType
    from textual.widget import Widget
    from textual.widgets import Input

    from schedules.rows.terminations import Termination
    from wizard.marking import Ends
    from wizard.session import Session


class EnclosuresScreen(BrowseScreen):
    """The enclosures of a plan, and what lands in one of them."""

    TOPIC = "terminations"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.ENCLOSURE)
    HEADING = "Terminations"

    table = getters.query_one(ScheduleTable)
    field = getters.query_one(SearchInput)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._place = 0
        self._initials = ""

    @property
    def ends(self) -> Ends:
        """The ends as the job has them now."""
        return ends_of(self.session.now, self.plan)

    @property
    def tag(self) -> str:
        """The enclosure in view."""
        return self.ends.enclosures[self._place][0]

    def view(self) -> Iterable[Widget]:
        """Search line, table, note."""
        yield Static(id="view-head")
        yield SearchInput()
        yield ScheduleTable()
        yield Static(Content(self.ends.schedule.note), id="view-note")

    def prompts(self) -> Iterable[Content]:
        """Each enclosure with its name; where there is little room, without."""
        named = self.size.width >= WIDE
        for tag, name in self.ends.enclosures:
            done, all_ends = self.ends.count(tag)
            yield Content.assemble((tag, "bold"), f"  {done}/{all_ends}  {name}" if named else "")

    def look_at(self, place: int) -> None:
        """Show one enclosure's rows."""
        self._place = place
        self._fill()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Leave only the rows that match."""
        event.stop()
        self._fill()

    def on_search_input_closed(self) -> None:
        """Go to the rows."""
        self.set_focus(self.table.rows)

    def action_search(self) -> None:
        """Begin to type what is looked for."""
        self.field.open()

    def action_large(self) -> None:
        """Show one row at a time, large."""
        if self.table.current is not None:
            self.app.push_screen(LargeScreen(self, self.table.shown.index(self.table.current)))

    def action_mark(self) -> None:
        """Mark the row under the cursor as landed, or take that back."""
        if self.table.current is not None:
            self.mark(self.table.current, self._refill)

    def mark(self, row: Termination, then: Callable[[], None]) -> None:
        """Record one end as landed, or not after all; whoever marks is asked for initials once."""
        if not self._initials and not self.ends.is_done(row):
            self._ask_initials(lambda: self.mark(row, then))
            return
        job = self.session.now.draft.job
        if self.ends.is_done(row):
            edits, did = (
                take_back(job, row.cable, row.terminal),
                f"Not landed: {row.number} at {row.terminal}",
            )
        else:
            edits = mark_landed(job, row.cable, row.terminal, self._initials, today())
            did = f"Landed: {row.number} at {row.terminal}"
        try:
            self.session.answer(edits, did)
        except InputError as error:
            self.notify(refusal_words(error), severity="error", markup=False)
        then()

    def _ask_initials(self, then: Callable[[], None]) -> None:
        field = FIELDS["as_built", "initials"]

        def finish(values: dict[str, object]) -> str:
            self._initials = str(values[field.key])
            return ""

        def asked(done: bool | None) -> None:
            if done:
                then()

        why = "They stand beside every end that you mark."
        form = Form("Who marks?", "Go on", why, ((field, ()),), finish, "terminations")
        self.app.push_screen(FormScreen(form), asked)

    def on_screen_resume(self) -> None:
        """Show what was marked on another screen."""
        if self.things.option_count:
            self._refill()

    def _refill(self) -> None:
        self._fill()
        for place, prompt in enumerate(self.prompts()):
            self.things.replace_option_prompt_at_index(place, prompt)

    def _fill(self) -> None:
        ends = self.ends
        if not ends.enclosures:
            return
        tag, name = ends.enclosures[self._place]
        self.table.show(ends.at(tag), self.field.value)
        done, all_ends = ends.count(tag)
        found = f", {len(self.table.shown)} found" if self.field.value else ""
        self.query_one("#view-head", Static).update(
            Content.assemble((f"{tag}  {name}", "bold"), f"   {done} of {all_ends} ends landed{found}")
        )
