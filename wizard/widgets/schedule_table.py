"""One schedule as a table: head, groups, rows, a cursor, and a search that leaves only the rows that match."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

from textual import getters
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from schedules.text import for_terminal
from schedules.writers.table_layout import lay_out

if TYPE_CHECKING:
    from textual import events
    from textual.app import ComposeResult

    from schedules.rows.schedule import Schedule

MARGIN = 4
"""Columns that the list's own edge and scroll bar take."""


class ScheduleTable(Vertical):
    """Rows of one schedule. Takes what it shows from outside, and keeps the cursor where it was."""

    head = getters.query_one(".table-head", Static)
    rows = getters.query_one(OptionList)

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._schedule: Schedule[Any] | None = None
        self._wanted = ""
        self.shown: tuple[Any, ...] = ()

    def compose(self) -> ComposeResult:
        """Lay the table out."""
        yield Static(classes="table-head")
        yield OptionList(compact=True, markup=False)

    def show(self, schedule: Schedule[Any], wanted: str = "") -> None:
        """Show a schedule's rows, those only that hold the wanted words."""
        self._schedule, self._wanted = schedule, wanted.casefold().strip()
        self.shown = tuple(row for row in schedule.rows if self._matches(schedule, row))
        self._fill()

    def wait(self, words: str) -> None:
        """Show no row, and say what is waited for."""
        self._schedule, self.shown = None, ()
        self.head.update(Content(""))
        self.rows.clear_options()
        self.rows.add_option(Option(Content(words), disabled=True))

    def on_resize(self, _event: events.Resize) -> None:
        """Lay the columns out anew for the room there is."""
        self._fill()

    @property
    def current(self) -> Any:
        """The row under the cursor, None where there is none."""
        place = self.rows.highlighted
        if place is None:
            return None
        row = self.rows.get_option_at_index(place).id
        return self.shown[int(row)] if row is not None else None

    def _matches(self, schedule: Schedule[Any], row: Any) -> bool:
        return self._wanted in " ".join((*schedule.cells(row), schedule.group(row))).casefold()

    def _fill(self) -> None:
        schedule = self._schedule
        if schedule is None or not self.size.width:
            return
        layout = lay_out(schedule, self.size.width - MARGIN)
        matching = [
            (row, lines)
            for row, lines in zip(schedule.rows, layout.rows, strict=True)
            if self._matches(schedule, row)
        ]
        self.head.update(Content("\n".join((*layout.head, layout.rule))) if matching else Content(""))
        at = self.rows.highlighted
        self.rows.clear_options()
        self.rows.add_options(self._options(schedule, matching))
        if matching:
            self.rows.highlighted = min(at or 0, self.rows.option_count - 1)
        else:
            words = "no row holds these words" if self._wanted else "none"
            self.rows.add_option(Option(Content(words), disabled=True))

    def _options(self, schedule: Schedule[Any], matching: list[tuple[Any, tuple[str, ...]]]) -> list[Option]:
        options = []
        numbered = enumerate(matching)
        for group, rows in itertools.groupby(numbered, lambda item: schedule.group(item[1][0])):
            if group:
                options.append(Option(Content.styled(for_terminal(group), "bold"), disabled=True))
            options += [Option(Content("\n".join(lines)), id=str(place)) for place, (_, lines) in rows]
        return options
