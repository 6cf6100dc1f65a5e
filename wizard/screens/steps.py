"""The job's steps: the list at the left, questions in the middle, what the last answer did at the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.reactive import reactive
from textual.widgets import ContentSwitcher, Footer, OptionList, Static

from schedules.quantities.lengths import Style
from wizard import keys
from wizard.doors import behind
from wizard.fault_finding import FinderShelf
from wizard.questions import groups_of, measurements
from wizard.screens.answering import AnsweringScreen
from wizard.screens.diagnose import DiagnoseScreen
from wizard.screens.effect import EffectScreen
from wizard.screens.measure import MeasureScreen
from wizard.steps import STEPS, step_of
from wizard.widgets.effect import EffectPane
from wizard.widgets.question_panel import QuestionPanel
from wizard.widgets.step_list import StepList
from wizard.widgets.step_panel import StepPanel
from wizard.widgets.step_panels import PANELS
from wizard.wording import title_content, without_questions

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.messages import Door, PlanFailed, Sought
    from wizard.question import StepId
    from wizard.session import Session, Snapshot

_STYLES = (None, Style.US, Style.METRIC)
SHORT_EFFECT = 5
"""Lines of the effect pane where it stands under the questions."""


class StepsScreen(AnsweringScreen):
    """One job, step by step."""

    CSS_PATH = "steps.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.STEPS)
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012  the framework's own shape
    VERTICAL_BREAKPOINTS = [(0, "-tiny"), (20, "-short"), (36, "-tall")]  # noqa: RUF012  the framework's own shape
    AUTO_FOCUS = ""

    steps = getters.query_one(StepList)
    switcher = getters.query_one(ContentSwitcher)

    step: reactive[StepId] = reactive("equipment", init=False)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._style = 0
        self._showing: StepId | None = None
        self._unplanned: int | None = None
        self._finders = FinderShelf()

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Horizontal(id="body"):
            yield StepList()
            with Vertical(id="middle"):
                with ContentSwitcher(initial="questions"):
                    yield QuestionPanel(id="questions")
                    for step, panel in PANELS.items():
                        yield panel(id=step)
                yield EffectPane(id="effect-below")
            yield EffectPane(id="effect-beside")
        yield Footer(show_command_palette=False)

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
        panel = self._panel
        self.switcher.current = self.step if panel is not None else "questions"
        self.set_class(panel is not None, "-showing")
        self._widen(in_list=in_list)
        if panel is not None:
            panel.show(snapshot)
        else:
            groups = groups_of(self.step, snapshot, _STYLES[self._style])
            failed = snapshot.version == self._unplanned
            self.questions.show(groups, fresh=fresh, empty=without_questions(snapshot, failed=failed))
        if fresh:
            self._showing = self.step
            if not in_list:
                self._enter()

    @property
    def _panel(self) -> StepPanel | None:
        """What the step in view shows, None where it asks."""
        return self.query_one(f"#{self.step}", StepPanel) if self.step in PANELS else None

    def _widen(self, *, in_list: bool) -> None:
        """Give a wide panel the room of the list of steps, unless the cursor stands in the list."""
        panel = PANELS.get(self.step)
        self.set_class(panel is not None and panel.WHOLE_WIDTH and not in_list, "-table")
        self.set_class(panel is not None and panel.ALONE, "-alone")

    def _enter(self) -> None:
        """Put the cursor into the step in view."""
        (self._panel or self.questions).enter()

    # What a person does ------------------------------------------------------------------------------------------

    def on_sought(self, event: Sought) -> None:
        """Go to the question that asks for an answer."""
        snapshot = self.session.now
        self.steps.pick(step_of(event.answer))
        self.step = step_of(event.answer)
        self._fill(snapshot)
        if self._panel is not None:
            self._panel.seek(event.answer)
        else:
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
        self._widen(in_list=False)
        self._enter()

    # Keys ---------------------------------------------------------------------------------------------------------

    def action_next_group(self) -> None:
        """Go to the next group, or the next step."""
        self._turn(1)

    def action_previous_group(self) -> None:
        """Go to the group before, or the step before."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        if self.step in PANELS:
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
            self._widen(in_list=False)
            self._enter()
        else:
            self.remove_class("-table")
            self.steps.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A key that leads to the step in view has nothing to do."""
        return not (action == "step" and parameters == (self.step,))

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
        return self.step if self.step in PANELS else "steps"

    def action_effect(self) -> None:
        """Show all that the last answer changed."""
        self.app.push_screen(EffectScreen(self.session.now))

    def action_door(self, door: Door) -> None:
        """Go through one of the quick doors with this job."""
        if self.session.now.plan is not None:
            self.app.push_screen(behind(door, self.session))

    def action_diagnose(self) -> None:
        """Find a fault of the installation as it is planned."""
        plan = self.session.now.plan
        if plan is not None:
            self.app.push_screen(DiagnoseScreen(self._finders, plan.derived))

    def action_measure(self) -> None:
        """Ask for one measurement at a time, large: those that are missing, else all of them."""
        asked = measurements(self.session.now)
        if asked:
            self.app.push_screen(MeasureScreen(self.session, asked))

    def action_back(self) -> None:
        """Go to the first screen."""
        self.dismiss(None)

    def on_plan_failed(self, event: PlanFailed) -> None:
        """Say that there is no plan, and that nothing is lost."""
        self._unplanned = event.version
        self._fill(self.session.now)
        kept = "This job could not be planned. All is saved; u takes the last answer back."
        self.questions.about.update(Content(f"{kept}\n{event.words}"))
