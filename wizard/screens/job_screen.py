"""A screen that works on one job: answers change it, a worker plans it anew, undo and redo."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import work
from textual.reactive import reactive
from textual.screen import Screen
from textual.worker import get_current_worker

from schedules.errors import InputError
from wizard.answering import refusal_words
from wizard.planning import plan_and_cure

if TYPE_CHECKING:
    from schedules.findings import Edit
    from wizard.messages import Planned
    from wizard.session import Session, Snapshot


class JobScreen(Screen[None]):
    """The job as it changes. What shows it watches `snapshot`."""

    snapshot: reactive[Snapshot | None] = reactive(None, init=False, always_update=True)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def on_mount(self) -> None:
        """Plan the job as it was opened."""
        self.become(self.session.now)

    def on_screen_resume(self) -> None:
        """Take up what another screen has answered meanwhile."""
        if self.snapshot is not None and self.snapshot.version != self.session.now.version:
            self.become(self.session.now)

    def take(self, edits: tuple[Edit, ...], did: str) -> str:
        """Apply an answer; why it was not taken, in words, or nothing."""
        try:
            self.become(self.session.answer(edits, did))
        except InputError as error:
            return refusal_words(error)
        return ""

    def become(self, snapshot: Snapshot) -> None:
        """Show a snapshot and plan it."""
        # What was said in passing was about the job as it stood before.
        self.app.clear_notifications()
        self.snapshot = snapshot
        self._plan(snapshot)

    def action_undo(self) -> None:
        """Take the last answer back."""
        if not self.session.can_undo:
            self.notify("Nothing to take back.", markup=False)
            return
        self.become(self.session.undo())

    def action_redo(self) -> None:
        """Give the answer again that was taken back."""
        if not self.session.can_redo:
            self.notify("Nothing was taken back.", markup=False)
            return
        self.become(self.session.redo())

    @work(thread=True, exclusive=True, group="plan")
    def _plan(self, snapshot: Snapshot) -> None:
        worker = get_current_worker()
        for message in plan_and_cure(snapshot, lambda: worker.is_cancelled):
            self.post_message(message)

    def on_planned(self, event: Planned) -> None:
        """Take a plan, unless the job has moved on."""
        settled = self.session.settle(event.version, event.plan)
        if settled is not None:
            self.snapshot = settled
