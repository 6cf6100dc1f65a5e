"""Taking answers: what was typed, picked, pressed or applied on the screen of steps becomes a change of the job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import getters

from schedules.job.acknowledging import acknowledge
from schedules.quantities.numerals import UnitError
from wizard.answering import (
    added_entry,
    picked_answer,
    picked_choice,
    refusal_words,
    removed_entry,
    typed_answer,
)
from wizard.forms import acknowledge_form, entry_form
from wizard.screens.form import FormScreen
from wizard.screens.job_screen import JobScreen
from wizard.screens.pick import PickScreen
from wizard.today import today
from wizard.widgets.question_panel import QuestionPanel

if TYPE_CHECKING:
    from wizard.answering import Value
    from wizard.messages import Applied, Picked, Pressed, Recorded, Signing, Typed
    from wizard.question import Question
    from wizard.screens.form import Values
    from wizard.session import Session


class AnsweringScreen(JobScreen):
    """A screen with a panel of questions, whose answers it takes."""

    questions = getters.query_one("#questions", QuestionPanel)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._initials = ""

    def on_typed(self, event: Typed) -> None:
        """Take a typed answer, or say beside the field why not."""
        row = self.questions.row_of(event.question.key)
        try:
            if event.text.strip() == event.question.written:
                words = ""
            else:
                words = self.take(*typed_answer(event.question, event.text))
        except UnitError as error:
            words = refusal_words(error)
        if row is None:
            return
        if words:
            row.refuse(words)
            return
        row.accept()
        if not event.stay:
            self.questions.move(row, -1 if event.up else 1)

    def on_pressed(self, event: Pressed) -> None:
        """Open a question's options, or do what the row does."""
        question = event.question
        if question.kind == "remove":
            self._tell(self.take(*removed_entry(question)))
        elif question.kind == "add":
            self._add(question.field.table)
        else:
            self._pick(question)

    def _pick(self, question: Question) -> None:
        def picked(values: tuple[Value, ...] | None) -> None:
            if values is None or frozenset(values) == question.picked:
                return
            words = self.take(*picked_answer(self.session.now.draft.job, question, values))
            row = self.questions.row_of(question.key)
            if row is not None:
                row.refuse(words)

        self.app.push_screen(PickScreen(question), picked)

    def _add(self, table: str) -> None:
        plan = self.session.now.plan
        if plan is not None:
            job = self.session.now.draft.job
            form = entry_form(table, plan.derived, lambda values: self.take(*added_entry(job, table, values)))
            self.app.push_screen(FormScreen(form))

    def _tell(self, words: str) -> None:
        if words:
            self.notify(words, severity="error", markup=False)

    def on_picked(self, event: Picked) -> None:
        """Take one of the sheet's choices."""
        if self.snapshot is None:
            return
        try:
            edits, did = picked_choice(self.session.now, event.value, out=event.out)
        except UnitError as error:
            self._tell(refusal_words(error))
            return
        # To pick again what is picked is no answer: what the last one did stays in view.
        if self.session.now.draft.edited(edits) != self.session.now.draft:
            self._tell(self.take(edits, did))

    def on_signing(self, event: Signing) -> None:
        """Ask who answers for a finding and why, and record it."""
        finding = event.finding

        def sign(values: Values) -> str:
            self._initials = str(values["initials"])
            edits = acknowledge(
                finding,
                initials=self._initials,
                reason=str(values["reason"]),
                date=today(),
                decided_by=str(values["decided_by"]) if "decided_by" in values else None,
            )
            return self.take(edits, f"Acknowledged by {self._initials}: {finding.severity} {finding.subject}")

        self.app.push_screen(FormScreen(acknowledge_form(finding, self._initials, sign)))

    def on_applied(self, event: Applied) -> None:
        """Apply a remedy."""
        words = self.take(event.edits, event.words)
        self.notify(words or f"{event.words}. Press u to take it back.", markup=False)

    def on_recorded(self, event: Recorded) -> None:
        """Keep in the job what was done on site."""
        self._tell(self.take(event.edits, event.words))
