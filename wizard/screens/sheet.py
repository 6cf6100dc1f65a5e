"""Write an equipment sheet from a maker's manual: one place of it at a time, checked while it is written."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, work
from textual.containers import Horizontal, VerticalScroll
from textual.screen import Screen
from textual.widgets import Footer, Static
from textual.worker import get_current_worker

from schedules.errors import InputError
from schedules.files.toml_positions import dotted
from schedules.planned import plan_unmeasured
from schedules.questions.sheet_keys import key_at
from schedules.sheet.drafting import within
from schedules.text import printable
from wizard import keys
from wizard.answering import refusal_words
from wizard.messages import PlanFailed, SheetPlanned
from wizard.screens.making import MakingScreen
from wizard.screens.pick import PickScreen
from wizard.sheet_asking import CONDITION, mistake_words, place_group
from wizard.sheet_words import check_content, place_content, place_of
from wizard.widgets.question_panel import QuestionPanel

if TYPE_CHECKING:
    from pathlib import Path

    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.files.toml_positions import TomlPath
    from schedules.sheet.drafting import SheetDraft
    from wizard.messages import Pressed, Typed
    from wizard.question import Question
    from wizard.sheet_session import SheetSession, SheetSnapshot
    from wizard.widgets.question_row import QuestionRow

WIDE = 110
"""Columns from which the check stands beside the entries, not below them."""

WORDS = 400
"""Letters of a fault of the program that are told."""


class SheetScreen(Screen[None]):
    """The sheet as nested lists: a row opens what is below it, escape goes back up."""

    TOPIC = "sheet"
    CSS_PATH = "sheet.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.SHEET)
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE, "-wide")]  # noqa: RUF012  the framework's own shape

    panel = getters.query_one(QuestionPanel)

    def __init__(self, session: SheetSession, file: Path) -> None:
        super().__init__()
        self.session = session
        self.place: TomlPath = ()
        self._file = file

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Horizontal():
            yield QuestionPanel(id="place")
            with VerticalScroll(id="check-beside", can_focus=False):
                yield Static(classes="check")
        with VerticalScroll(id="check-below", can_focus=False):
            yield Static(classes="check")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Show the whole sheet, and what it makes."""
        self._show(fresh=True)
        self._plan()

    def on_typed(self, event: Typed) -> None:
        """Write what was typed, or take the entry out, or say why not."""
        path = self._path(event.question)
        if not event.text.strip():
            self._take(self.session.now.draft.without(path), f"{event.question.field.label}: taken out")
            return
        key = key_at(self.session.now.draft.document, path)
        if key is not None and self._write(event.question, path, key.read(event.text)) and not event.stay:
            row = self.panel.row_of(event.question.key)
            if row is not None:
                self.panel.move(row, -1 if event.up else 1)

    def on_pressed(self, event: Pressed) -> None:
        """Go into what is below, add an entry, or open the list of answers."""
        question = event.question
        if question.kind == "open":
            self._go((*self.place, self._last(question)))
        elif question.options:
            self.app.push_screen(PickScreen(question), lambda values: self._picked(question, values))
        elif question.kind == "add":
            self._add({})

    def _picked(self, question: Question, values: tuple[str | int, ...] | None) -> None:
        if values is None:
            return
        path = self._path(question)
        if question.kind == "add":
            self._add({"kind": values[0]})
        elif question.several:
            self._write(question, path, list(values))
        elif values[0] == CONDITION:
            if not isinstance(self.session.now.draft.at(path), dict):
                self._write(question, path, {"all": []})
            self._go(path)
        else:
            self._write(question, path, values[0])

    def _write(self, question: Question, path: TomlPath, value: object) -> bool:
        """Write one value; where the format refuses it, say why beside the field and leave the sheet as it was."""
        row = self.panel.row_of(question.key)
        try:
            draft = self.session.now.draft.with_value(path, value)
        except InputError as error:
            words = refusal_words(error)
        else:
            words = " ".join(mistake_words(slip) for slip in draft.slips if within(slip, path))
        if words:
            if row is not None:
                row.refuse(words)
            return False
        if row is not None:
            row.accept()
        said = ", ".join(map(str, value)) if isinstance(value, list) else value
        self._take(draft, f"{question.field.label}: {said}")
        return True

    def _add(self, entry: dict[str, object]) -> None:
        place = len(self.session.now.draft.at(self.place) or ())
        self._take(self.session.now.draft.with_entry(self.place, entry), "Added an entry")
        self._go((*self.place, place))

    def _take(self, draft: SheetDraft, did: str) -> None:
        self.session.take(draft, did)
        self._show()
        self._plan()

    def _path(self, question: Question) -> TomlPath:
        return (*self.place, self._last(question))

    def _last(self, question: Question) -> str | int:
        """The last step to what a question is about: entries of a list are numbered."""
        in_list = isinstance(self.session.now.draft.at(self.place), list)
        return int(question.field.key) if in_list and question.field.key.isdigit() else question.field.key

    def _go(self, place: TomlPath) -> None:
        """Show another place; the cursor stands on where it was left, when it goes up."""
        before, self.place = self.place, place
        self._show(fresh=True)
        if before[: len(place)] == place and len(before) > len(place):
            self.panel.seek((dotted(place), None, str(before[len(place)])), "")
        else:
            self.panel.enter()

    def _show(self, *, fresh: bool = False) -> None:
        now = self.session.now
        self.query_one("#title", Static).update(place_content(now, self.place))
        self.panel.show((place_group(now.draft, self.place),), fresh=fresh, empty="Nothing to ask here")
        for pane in self.query(".check").results(Static):
            pane.update(check_content(now, self.place))
        if fresh:
            self.panel.enter()

    @work(thread=True, exclusive=True, group="sheet-plan")
    def _plan(self) -> None:
        """Plan what the sheet makes, away from the keys."""
        now = self.session.now
        sheet = now.draft.sheet
        if sheet is None or not now.draft.sound:
            return
        worker = get_current_worker()
        try:
            planned: SheetPlanned | PlanFailed = SheetPlanned(now.version, plan_unmeasured(sheet, self._file))
        # Whatever goes wrong here, the entries are saved and the person is told; a traceback would help nobody.
        except Exception as error:
            planned = PlanFailed(now.version, f"{type(error).__name__}: {error}")
        if not worker.is_cancelled:
            self.post_message(planned)

    def on_sheet_planned(self, event: SheetPlanned) -> None:
        """Show what the sheet makes."""
        if self.session.settle(event.version, event.plan) is not None:
            self._show()

    def on_plan_failed(self, event: PlanFailed) -> None:
        """Say that it can't be shown what the sheet makes, and that nothing is lost."""
        if event.version == self.session.now.version:
            kept = "What this makes could not be planned. All is saved; u takes the last entry back."
            self.notify(f"{kept}\n{printable(event.words, WORDS)}", severity="error", markup=False)

    def on_question_panel_past_end(self, event: QuestionPanel.PastEnd) -> None:
        """Beyond the last row there is nothing; the cursor stays."""
        event.stop()

    def action_back(self) -> None:
        """Go up one level; from the top, back to the first screen."""
        if self.place:
            self._go(self.place[:-1])
        else:
            self.dismiss(None)

    def action_undo(self) -> None:
        """Take the last entry back."""
        self._moved(self.session.undo())

    def action_redo(self) -> None:
        """Give the entry again that was taken back."""
        self._moved(self.session.redo())

    def _moved(self, now: SheetSnapshot | None) -> None:
        if now is None:
            self.notify("Nothing to take back or to give again.", markup=False)
            return
        # What is no longer there can't be looked at.
        while self.place and now.draft.at(self.place) is None:
            self.place = self.place[:-1]
        self._show(fresh=True)
        self._plan()

    def action_mend(self) -> None:
        """Go to the next thing that is wrong or missing."""
        mistakes = self.session.now.draft.mistakes
        if not mistakes:
            self.notify("Nothing to mend: jobs can be planned by this sheet.", markup=False)
            return
        places = [place_of(mistake) for mistake in mistakes]
        here = (*self.place, self._last(row.question)) if (row := self._row()) is not None else self.place
        path = places[(places.index(here) + 1) % len(places)] if here in places else places[0]
        self._go(path[:-1])
        self.panel.seek((dotted(path[:-1]), None, str(path[-1])), "")

    def _row(self) -> QuestionRow | None:
        """The row under the cursor."""
        return next((row for row in self.panel.in_view if row.has_focus_within), None)

    def action_making(self) -> None:
        """Show what the sheet makes, whole."""
        plan = self.session.now.plan
        if plan is None:
            self.notify("It makes nothing yet: mend what is listed first.", markup=False)
        else:
            self.app.push_screen(MakingScreen(plan))
