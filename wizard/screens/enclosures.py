"""One enclosure's terminations: every conductor end in it, as the screwdriver needs them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.content import Content
from textual.widgets import Static

from schedules.rows.terminations import terminations
from wizard import keys
from wizard.screens.browse import BrowseScreen
from wizard.widgets.schedule_table import ScheduleTable
from wizard.widgets.search import SearchInput

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.binding import BindingType
    from textual.widget import Widget
    from textual.widgets import Input

    from schedules.rows.schedule import Schedule
    from schedules.rows.terminations import Termination
    from wizard.session import Snapshot


class EnclosuresScreen(BrowseScreen):
    """The enclosures of a plan, and what lands in one of them."""

    TOPIC = "terminations"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.ENCLOSURE)
    HEADING = "Terminations"

    table = getters.query_one(ScheduleTable)
    field = getters.query_one(SearchInput)

    def __init__(self, snapshot: Snapshot) -> None:
        super().__init__(snapshot)
        self._place = 0
        self._all: Schedule[Termination] | None = terminations(snapshot.plan) if snapshot.plan else None
        rows = self._all.rows if self._all else ()
        self._enclosures = tuple(dict.fromkeys((row.enclosure, row.enclosure_name) for row in rows))

    def view(self) -> Iterable[Widget]:
        """Search line, table, note."""
        yield Static(id="view-head")
        yield SearchInput()
        yield ScheduleTable()
        yield Static(Content(self._all.note if self._all else ""), id="view-note")

    def prompts(self) -> Iterable[Content]:
        """Each enclosure with its name; where there is little room, without."""
        named = self.has_class("-wide")
        return (
            Content.assemble((tag, "bold"), f"  {name}" if named else "") for tag, name in self._enclosures
        )

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
        self.table.rows.focus()

    def action_search(self) -> None:
        """Begin to type what is looked for."""
        self.field.open()

    def _fill(self) -> None:
        if self._all is None or not self._enclosures:
            return
        tag, name = self._enclosures[self._place]
        rows = tuple(row for row in self._all.rows if row.enclosure == tag)
        self.table.show(replace(self._all, rows=rows, group=lambda _row: ""), self.field.value)
        self.query_one("#view-head", Static).update(
            Content.assemble((f"{tag}  {name}", "bold"), f"   {len(self.table.shown)} conductor ends")
        )
