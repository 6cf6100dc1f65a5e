"""The package: for whom, on which paper, which files, into which folder; made while it says how far it is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, work
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static
from textual.worker import get_current_worker

from schedules.cautions import CAUTIONS
from schedules.errors import InputError
from schedules.package.ordering import ASKED, usual_answers
from schedules.quantities.numerals import UnitError
from schedules.questions.field import Field, Option
from schedules.text import printable
from schedules.writers.listing import verdict
from wizard import keys
from wizard.answering import refusal_words
from wizard.asking import as_text, shown_value, values_of
from wizard.drawing_files import open_in_viewer
from wizard.messages import Printed, Printing
from wizard.printing import Stopped, print_package, rooms
from wizard.question import Question
from wizard.screens.pick import PickScreen
from wizard.widgets.question_row import QuestionRow
from wizard.widgets.step_panel import StepPanel
from wizard.wording import question_content

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.messages import Looked, Pressed, Typed
    from wizard.session import Snapshot

_MAKE = Field("package", "make", "Make the package", "line", "It is written whole or not at all.", "")
_GIVE_WAY = Field(
    "package",
    "give_way",
    "This folder holds an earlier package",
    "option",
    "Nothing is replaced unless you say so.",
    "",
    options=(
        Option("keep", "Keep it; write another folder"),
        Option("replace", "Let the earlier package give way", "its files are removed"),
    ),
)


class PrintPanel(StepPanel):
    """What is wanted, as rows; under them how far the work is, and what was written."""

    WHOLE_WIDTH = False
    BINDINGS: ClassVar[list[BindingType]] = list(keys.PRINT)

    about = getters.query_one("#print-about", Static)
    status = getters.query_one("#print-status", Static)

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._snapshot: Snapshot | None = None
        self._answers: dict[str, object] = {}
        self._written: tuple[Path, ...] = ()
        self._busy = False

    def compose(self) -> ComposeResult:
        """Lay the panel out; the rows come with the first plan."""
        yield Static(
            Content.assemble(("Print", "bold"), "   the package that each person on site works from")
        )
        yield Static(id="print-verdict")
        yield VerticalScroll(id="print-rows", can_focus=False)
        yield Static(id="print-about")
        with VerticalScroll(id="print-box", can_focus=False):
            yield Static(id="print-status")
            yield Static(Content(" ".join(CAUTIONS)), classes="cautions")

    def show(self, snapshot: Snapshot) -> None:
        """Take the job as it stands now; answers given here stay."""
        self._snapshot = snapshot
        if snapshot.plan is None:
            return
        self.query_one("#print-verdict", Static).update(Content(verdict(snapshot.plan)))
        first = not self._answers
        self._answers = {**usual_answers(snapshot.plan), **self._answers}
        questions = [*(self._question(field) for field in ASKED), self._last()]
        if first:
            rows = self.query_one("#print-rows", VerticalScroll)
            rows.mount_all(QuestionRow(question, self._step) for question in questions)
            self.call_after_refresh(self._enter_fresh)
            return
        for row, question in zip(self.query(QuestionRow), questions, strict=False):
            row.show(question, None, None)

    def enter(self) -> None:
        """Put the cursor on the row that makes the package."""
        rows = list(self.query(QuestionRow))
        if rows:
            self.screen.set_focus(rows[-1])

    def _enter_fresh(self) -> None:
        if self.screen.focused is None and self.display:
            self.enter()

    def _question(self, field: Field) -> Question:
        value = self._answers[field.key]
        return Question(
            field=field,
            row=None,
            written=as_text(value),
            shown=shown_value(field, value, field.options, None),
            options=field.options,
            picked=frozenset(values_of(value)),
            several=field.reads == "options",
        )

    def _last(self) -> Question:
        closed = "" if self._answers["parts"] else "first: which files"
        shown = "working" if self._busy else "press enter"
        return Question(_MAKE, None, "", shown, closed=closed, kind="add")

    # What a person does -------------------------------------------------------------------------------------------

    def on_looked(self, event: Looked) -> None:
        """Explain the question under the cursor."""
        event.stop()
        self.about.update(question_content(event.question))

    def on_typed(self, event: Typed) -> None:
        """Take the folder."""
        event.stop()
        row = self._row_of(event.question)
        try:
            folder = event.question.field.read(event.text)
        except UnitError as error:
            row.refuse(refusal_words(error))
            return
        row.accept()
        self.answer("folder", folder)
        if not event.stay:
            self._step(row, -1 if event.up else 1)

    def on_pressed(self, event: Pressed) -> None:
        """Open a list, or make the package."""
        event.stop()
        if event.question.kind == "add":
            self._begin()
        else:
            self._pick(event.question)

    def _pick(self, question: Question) -> None:
        def picked(values: tuple[str | int, ...] | None) -> None:
            if values is not None:
                self.answer(question.field.key, list(values) if question.several else values[0])

        self.app.push_screen(PickScreen(question), picked)

    def answer(self, key: str, value: object) -> None:
        """Take one answer and show it."""
        self._answers[key] = value
        self._refresh()

    def _begin(self) -> None:
        """Make the package; ask first where an earlier one would have to give way."""
        if self._busy or self._snapshot is None:
            return
        may, must, words = rooms(self._folder)
        if may:
            self._start(replace=False)
        elif not must:
            self._rows()[-1].refuse(words)
        else:
            question = Question(
                _GIVE_WAY, None, "", "", options=_GIVE_WAY.options, picked=frozenset({"keep"})
            )

            def answered(values: tuple[str | int, ...] | None) -> None:
                if values == ("replace",):
                    self._start(replace=True)

            self.app.push_screen(PickScreen(question), answered)

    def _start(self, *, replace: bool) -> None:
        if self._snapshot is not None:
            self._busy, self._written = True, ()
            self._rows()[-1].refuse("")
            self._refresh()
            self._make(self._snapshot, dict(self._answers), self._folder, replace=replace)

    @work(thread=True, exclusive=True, group="print")
    def _make(self, snapshot: Snapshot, answers: dict[str, object], folder: Path, *, replace: bool) -> None:
        worker = get_current_worker()

        def tell(words: str) -> None:
            if worker.is_cancelled:
                raise Stopped
            self.post_message(Printing(words))

        try:
            files = print_package(snapshot, answers, folder, replace=replace, tell=tell)
        except Stopped:
            return
        except InputError as error:
            self.post_message(Printed((), refusal_words(error)))
        # Drawing engine, typesetter and disk are others' programs: the person is told that nothing was written.
        except Exception as error:
            self.post_message(Printed((), printable(f"{type(error).__name__}: {error}", 400)))
        else:
            self.post_message(Printed(files, ""))

    def on_printing(self, event: Printing) -> None:
        """Say how far the work is."""
        if self._busy:
            self.status.update(
                Content(f"Making: {event.words} …   esc stops; nothing is written before the end.")
            )

    def on_printed(self, event: Printed) -> None:
        """Say what was written, or why nothing was."""
        self._busy, self._written = False, event.files
        self._refresh()
        if not event.files:
            self.status.update(Content.styled(f"Nothing was written. {event.words}", "bold $text-error"))
            return
        folder = printable(str(self._folder), 200)
        names = ", ".join(str(file.relative_to(self._folder)) for file in event.files)
        lines = (f"Written: {len(event.files)} files in {folder}. o opens the first.", names)
        self.status.update(
            Content("\n").join((Content.styled(lines[0], "bold $text-success"), Content(lines[1])))
        )

    def action_stop(self) -> None:
        """Stop the work; nothing is written."""
        self.workers.cancel_group(self, "print")
        self._busy = False
        self._refresh()
        self.status.update(Content("Stopped. Nothing was written."))

    def action_open(self) -> None:
        """Open the first file that was written in the system's viewer."""
        if not self._written:
            self.app.notify("Nothing is written yet: the last row makes the package.", markup=False)
            return
        trouble = open_in_viewer(self._written[0])
        if trouble:
            self.app.notify(trouble, severity="warning", markup=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Escape stops only where there is something to stop."""
        return self._busy or action != "stop"

    # The parts ----------------------------------------------------------------------------------------------------

    @property
    def _folder(self) -> Path:
        """Where the package goes: beside the job's file unless a whole path was written."""
        home = Path(self._snapshot.draft.file).parent if self._snapshot is not None else Path()
        return (home / Path(str(self._answers["folder"])).expanduser()).absolute()

    def _rows(self) -> list[QuestionRow]:
        return list(self.query(QuestionRow))

    def _row_of(self, question: Question) -> QuestionRow:
        return next(row for row in self._rows() if row.question.key == question.key)

    def _refresh(self) -> None:
        self.refresh_bindings()
        if self._snapshot is not None:
            self.show(self._snapshot)

    def _step(self, row: QuestionRow, by: int) -> None:
        rows = self._rows()
        self.screen.set_focus(rows[max(0, min(len(rows) - 1, rows.index(row) + by))])
