"""The job's steps: the list at the left, questions in the middle, what the last answer did at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.reactive import reactive
from textual.screen import Screen
from textual.widgets import ContentSwitcher, Footer, OptionList, Static
from textual.worker import get_current_worker

from schedules.errors import InputError
from schedules.quantities.lengths import Style
from schedules.quantities.numerals import UnitError
from wizard import keys
from wizard.answering import (
    added_entry,
    picked_answer,
    picked_choice,
    refusal_words,
    removed_entry,
    typed_answer,
)
from wizard.doors import behind
from wizard.forms import entry_form
from wizard.planning import plan_and_cure
from wizard.questions import groups_of, measurements
from wizard.screens.effect import EffectScreen
from wizard.screens.form import FormScreen
from wizard.screens.measure import MeasureScreen
from wizard.screens.pick import PickScreen
from wizard.steps import STEPS, step_of
from wizard.widgets.diagram_panel import DiagramPanel
from wizard.widgets.effect import EffectPane
from wizard.widgets.finding_panel import FindingPanel
from wizard.widgets.question_panel import QuestionPanel
from wizard.widgets.schedule_panel import SchedulePanel
from wizard.widgets.step_list import StepList
from wizard.wording import title_content, without_questions

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.findings import Edit
    from wizard.answering import Value
    from wizard.messages import (
        Applied,
        Door,
        Picked,
        PlanFailed,
        Planned,
        Pressed,
        Sought,
        Typed,
    )
    from wizard.question import Question, StepId
    from wizard.session import Session, Snapshot

_STYLES = (None, Style.US, Style.METRIC)
_SHOWING: dict[StepId, str] = {"findings": "findings", "schedules": "schedules", "diagram": "diagram"}
SHORT_EFFECT = 5
"""Lines of the effect pane where it stands under the questions."""


class StepsScreen(Screen[None]):
    """One job, step by step."""

    CSS_PATH = "steps.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.STEPS)
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012  the framework's own shape
    VERTICAL_BREAKPOINTS = [(0, "-tiny"), (20, "-short"), (36, "-tall")]  # noqa: RUF012  the framework's own shape
    AUTO_FOCUS = ""

    steps = getters.query_one(StepList)
    switcher = getters.query_one(ContentSwitcher)
    questions = getters.query_one("#questions", QuestionPanel)
    findings = getters.query_one("#findings", FindingPanel)
    tables = getters.query_one("#schedules", SchedulePanel)
    diagram = getters.query_one("#diagram", DiagramPanel)

    snapshot: reactive[Snapshot | None] = reactive(None, init=False, always_update=True)
    step: reactive[StepId] = reactive("equipment", init=False)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._style = 0
        self._showing: StepId | None = None
        self._unplanned: int | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Horizontal(id="body"):
            yield StepList()
            with Vertical(id="middle"):
                with ContentSwitcher(initial="questions"):
                    yield QuestionPanel(id="questions")
                    yield FindingPanel(id="findings")
                    yield SchedulePanel(id="schedules")
                    yield DiagramPanel(id="diagram")
                yield EffectPane(id="effect-below")
            yield EffectPane(id="effect-beside")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Plan the job as it was opened."""
        self._become(self.session.now)

    def on_screen_resume(self) -> None:
        """Take up what another screen has answered meanwhile."""
        if self.snapshot is not None and self.snapshot.version != self.session.now.version:
            self._become(self.session.now)

    def watch_snapshot(self, snapshot: Snapshot) -> None:
        """Hand the snapshot to everything that shows it, unless the program ends."""
        if not self.is_attached:
            return
        self.query_one("#title", Static).update(title_content(snapshot, self.step))
        self.query_one("#effect-below", EffectPane).show(snapshot, SHORT_EFFECT)
        self.query_one("#effect-beside", EffectPane).show(snapshot, None)
        self.steps.show(snapshot, self.step)
        self._fill(snapshot)

    def watch_step(self, step: StepId) -> None:
        """Show another step."""
        if not self.is_attached:
            return
        self.refresh_bindings()
        self.steps.pick(step)
        if self.snapshot is not None:
            self.query_one("#title", Static).update(title_content(self.snapshot, step))
            self.steps.show(self.snapshot, step)
            self._fill(self.snapshot)

    def _fill(self, snapshot: Snapshot) -> None:
        """Give the step in view what it shows."""
        in_list = self.steps.has_focus
        fresh = self._showing != self.step and snapshot.plan is not None
        panel = _SHOWING.get(self.step, "questions")
        self.switcher.current = panel
        self.set_class(panel != "questions", "-showing")
        self.set_class(panel in ("schedules", "diagram") and not in_list, "-table")
        if panel == "findings":
            self.findings.show(snapshot)
        elif panel == "schedules":
            self.tables.show(snapshot)
        elif panel == "diagram":
            self.diagram.show(snapshot)
        else:
            groups = groups_of(self.step, snapshot, _STYLES[self._style])
            failed = snapshot.version == self._unplanned
            self.questions.show(groups, fresh=fresh, empty=without_questions(snapshot, failed=failed))
        if fresh:
            self._showing = self.step
            if not in_list:
                self._enter()

    def _enter(self) -> None:
        """Put the cursor into the step in view."""
        match self.step:
            case "findings":
                self.findings.enter()
            case "schedules":
                self.tables.enter()
            case "diagram":
                self.diagram.enter()
            case _:
                self.questions.enter()

    # What a person does ------------------------------------------------------------------------------------------

    def on_typed(self, event: Typed) -> None:
        """Take a typed answer, or say beside the field why not."""
        row = self.questions.row_of(event.question.key)
        try:
            if event.text.strip() == event.question.written:
                words = ""
            else:
                words = self._take(*typed_answer(event.question, event.text))
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
            self._tell(self._take(*removed_entry(question)))
        elif question.kind == "add":
            self._add(question.field.table)
        else:
            self._pick(question)

    def _pick(self, question: Question) -> None:
        def picked(values: tuple[Value, ...] | None) -> None:
            if values is None or frozenset(values) == question.picked:
                return
            words = self._take(*picked_answer(self.session.now.draft.job, question, values))
            row = self.questions.row_of(question.key)
            if row is not None:
                row.refuse(words)

        self.app.push_screen(PickScreen(question), picked)

    def _add(self, table: str) -> None:
        plan = self.session.now.plan
        if plan is not None:
            job = self.session.now.draft.job
            form = entry_form(
                table, plan.derived, lambda values: self._take(*added_entry(job, table, values))
            )
            self.app.push_screen(FormScreen(form))

    def _tell(self, words: str) -> None:
        if words:
            self.notify(words, severity="error", markup=False)

    def on_picked(self, event: Picked) -> None:
        """Take one of the sheet's choices."""
        if self.snapshot is None:
            return
        try:
            words = self._take(*picked_choice(self.session.now, event.value, out=event.out))
        except UnitError as error:
            words = refusal_words(error)
        self._tell(words)

    def on_applied(self, event: Applied) -> None:
        """Apply a remedy."""
        words = self._take(event.edits, event.words)
        self.notify(words or f"{event.words}. Press u to take it back.", markup=False)

    def on_sought(self, event: Sought) -> None:
        """Go to the question that asks for an answer."""
        snapshot = self.session.now
        self.steps.pick(step_of(event.answer))
        self.step = step_of(event.answer)
        self._fill(snapshot)
        self.questions.seek(event.answer, event.subject)

    def on_question_panel_past_end(self, event: QuestionPanel.PastEnd) -> None:
        """Go on to the next step, or back to the one before."""
        self._go(1 if event.forward else -1)

    @on(OptionList.OptionHighlighted, "#steps")
    def _step_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        if self.steps.has_focus:
            self.step = STEPS[event.option_index].id

    @on(OptionList.OptionSelected, "#steps")
    def _step_selected(self, event: OptionList.OptionSelected) -> None:
        self.step = STEPS[event.option_index].id
        self.set_class(self.step in ("schedules", "diagram"), "-table")
        self._enter()

    # Keys ---------------------------------------------------------------------------------------------------------

    def action_next_group(self) -> None:
        """Go to the next group, or the next step."""
        self._turn(1)

    def action_previous_group(self) -> None:
        """Go to the group before, or the step before."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        if self.step in _SHOWING:
            self._go(by)
        else:
            self.questions.turn(by)

    def _go(self, by: int) -> None:
        place = next(place for place, step in enumerate(STEPS) if step.id == self.step) + by
        if 0 <= place < len(STEPS):
            self.action_step(STEPS[place].id)

    def action_enter_step(self) -> None:
        """Put the cursor into the step in view."""
        self._enter()

    def action_next_step(self) -> None:
        """Go to the next step."""
        self._go(1)

    def action_previous_step(self) -> None:
        """Go to the step before."""
        self._go(-1)

    def action_step(self, step: StepId) -> None:
        """Show one step and put the cursor into it."""
        if self.steps.has_focus:
            self.set_focus(None)
        self.step = step

    def action_other_pane(self) -> None:
        """Go between the list of steps and what is beside it."""
        if self.steps.has_focus:
            self.set_class(self.step in ("schedules", "diagram"), "-table")
            self._enter()
        else:
            self.remove_class("-table")
            self.steps.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A key that leads to the step in view has nothing to do."""
        return not (action == "step" and parameters == (self.step,))

    def action_undo(self) -> None:
        """Take the last answer back."""
        if not self.session.can_undo:
            self.notify("Nothing to take back.", markup=False)
            return
        self._become(self.session.undo())

    def action_redo(self) -> None:
        """Give the answer again that was taken back."""
        if not self.session.can_redo:
            self.notify("Nothing was taken back.", markup=False)
            return
        self._become(self.session.redo())

    def action_units(self) -> None:
        """Show lengths in the next style."""
        self._style = (self._style + 1) % len(_STYLES)
        style = _STYLES[self._style]
        self.notify(f"Lengths: {style or 'as written'}", markup=False)
        if self.snapshot is not None:
            self._fill(self.snapshot)

    @property
    def TOPIC(self) -> str:  # noqa: N802  a constant on the other screens
        """The page of help for the step in view."""
        return _SHOWING.get(self.step, "steps")

    def action_effect(self) -> None:
        """Show all that the last answer changed."""
        self.app.push_screen(EffectScreen(self.session.now))

    def action_door(self, door: Door) -> None:
        """Go through one of the quick doors with this job."""
        if self.session.now.plan is not None:
            self.app.push_screen(behind(door, self.session))

    def action_measure(self) -> None:
        """Ask for one measurement at a time, large: those that are missing, else all of them."""
        asked = measurements(self.session.now)
        if asked:
            self.app.push_screen(MeasureScreen(self.session, asked))

    def action_back(self) -> None:
        """Go to the first screen."""
        self.dismiss(None)

    # The job ------------------------------------------------------------------------------------------------------

    def _take(self, edits: tuple[Edit, ...], did: str) -> str:
        """Apply an answer; why it was not taken, in words, or nothing."""
        try:
            self._become(self.session.answer(edits, did))
        except InputError as error:
            return refusal_words(error)
        return ""

    def _become(self, snapshot: Snapshot) -> None:
        self.snapshot = snapshot
        self._plan(snapshot)

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

    def on_plan_failed(self, event: PlanFailed) -> None:
        """Say that there is no plan, and that nothing is lost."""
        self._unplanned = event.version
        self._fill(self.session.now)
        kept = "This job could not be planned. All is saved; u takes the last answer back."
        self.questions.about.update(Content(f"{kept}\n{event.words}"))
