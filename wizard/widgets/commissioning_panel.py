"""The commissioning tests in their order: what to do, what is expected, what was found, what holds a test up."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from schedules.behaviour.commissioning import Verdict, commissioning
from schedules.job.testing import forget_test, record_test
from schedules.quantities.numerals import UnitError
from schedules.questions.fields import FIELDS
from wizard import keys
from wizard.answering import refusal_words
from wizard.behaviour import same_installation
from wizard.commissioning_wording import details_content, head_content, line_content, step_line
from wizard.messages import Recorded
from wizard.screens.form import Form, FormScreen
from wizard.today import today
from wizard.widgets.step_panel import StepPanel

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual import events
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.behaviour.commissioning import Commissioning, Test
    from schedules.derived import Derived
    from schedules.job.records import Job
    from schedules.job.testing import Tested
    from wizard.question import Answer
    from wizard.screens.form import Values
    from wizard.session import Snapshot

EDGE = 2
"""Columns that the list's own edge takes."""


class TestLines(OptionList):
    """The tests as lines."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.TEST_LINES)


class FoundInput(Input):
    """Where what was found is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.FOUND_INPUT)

    class Left(Message):
        """A person stopped writing down."""

    def action_leave(self) -> None:
        """Stop writing down."""
        self.post_message(self.Left())


class CommissioningPanel(StepPanel):
    """The tests of one installation, one under the cursor."""

    ALONE = True
    BINDINGS: ClassVar[list[BindingType]] = list(keys.COMMISSIONING)

    lines = getters.query_one(TestLines)
    field = getters.query_one(FoundInput)

    class Listed(Message):
        """The worker has listed every test."""

        def __init__(self, whole: Commissioning) -> None:
            super().__init__()
            self.whole = whole

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._snapshot: Snapshot | None = None
        self._derived: Derived | None = None
        self._whole: Commissioning | None = None
        self._initials = ""
        self._awaited = ""

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(id="record-head")
        yield TestLines(compact=True, markup=False)
        yield FoundInput(compact=True, select_on_focus=False)
        yield Static(id="found-error")
        with VerticalScroll(id="test-box", can_focus=False):
            yield Static(id="test")

    def on_mount(self) -> None:
        """Nothing is being written down yet."""
        self.field.display = False

    def show(self, snapshot: Snapshot) -> None:
        """List the tests of this installation anew where it has changed, and show what is recorded."""
        self._snapshot = snapshot
        plan = snapshot.plan
        if plan is not None and not same_installation(plan.derived, self._derived):
            self._derived = plan.derived
            self.query_one("#record-head", Static).update(Content("Working out every reading …"))
            self._list(plan.derived)
        else:
            self._fill()
            self._go_on()

    def enter(self) -> None:
        """Put the cursor into the list."""
        self.lines.focus()

    def seek(self, answer: Answer) -> None:
        """Bring a recorded test under the cursor."""
        if answer[1] is not None:
            self._stand_on(answer[1])
        self.enter()

    @work(thread=True, exclusive=True, group="commissioning")
    def _list(self, derived: Derived) -> None:
        worker = get_current_worker()
        whole = commissioning(derived)
        if not worker.is_cancelled:
            self.post_message(self.Listed(whole))

    @on(Listed)
    def _take_listed(self, event: Listed) -> None:
        event.stop()
        self._whole = event.whole
        self._fill()

    # What a person does ------------------------------------------------------------------------------------------

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._detail()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        test = self.current
        if test is None or self._whole is None:
            return
        held = self._whole.held_by(test, self._job)
        if held:
            self.app.notify("Not yet: what holds it up is said below.", severity="error", markup=False)
        else:
            self._with_initials(lambda: self._open(test))

    def _with_initials(self, then: Callable[[], None]) -> None:
        """Whoever takes the tests is asked for initials once."""
        if self._initials:
            then()
            return
        field = FIELDS["tested", "initials"]

        def finish(values: Values) -> str:
            self._initials = str(values[field.key])
            return ""

        def asked(done: bool | None) -> None:
            if done:
                then()

        why = "They stand beside every test that you record."
        form = Form("Who takes the tests?", "Go on", why, ((field, ()),), finish, "commissioning")
        self.app.push_screen(FormScreen(form), asked)

    def _open(self, test: Test) -> None:
        self.field.value = ""
        self.field.placeholder = (
            f"what it shows [{test.unit}]" if test.unit else "yes or no: is it as it should be?"
        )
        self.query_one("#found-error", Static).update(Content(""))
        self.field.display = True
        self.field.focus()

    def _close(self) -> None:
        self.field.display = False
        self.query_one("#found-error", Static).update(Content(""))
        self.lines.focus()

    def on_found_input_left(self, event: FoundInput.Left) -> None:
        """Go back to the list."""
        event.stop()
        self._close()

    def on_input_changed(self, event: Input.Changed) -> None:
        """What is typed here is nobody else's business."""
        event.stop()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Record what was found, or say why it can't be read."""
        event.stop()
        test = self.current
        if test is None:
            return
        try:
            found = test.read(event.value)
        except UnitError as error:
            self.query_one("#found-error", Static).update(Content(refusal_words(error)))
            return
        self._record(test, found, None)

    def _record(self, test: Test, found: str, reason: str | None) -> None:
        self._awaited = test.id
        edits = record_test(
            test.id,
            found=found,
            expected=test.passes,
            initials=self._initials,
            date=today(),
            reason=reason,
        )
        self.post_message(Recorded(edits, f"Test {test.id}: {found}"))

    def action_accept(self) -> None:
        """Accept a test that doesn't pass, with a reason."""
        test, record = self.current, self._record_of(self.current)
        if test is None or record is None or self._verdicts.get(test.id) is not Verdict.FAILED:
            self.app.notify("Only a test that failed is accepted with a reason.", markup=False)
            return
        field = FIELDS["tested", "reason"]

        def finish(values: Values) -> str:
            self._record(test, record.found, str(values[field.key]))
            return ""

        why = f"{test.id}: found {record.found}, passes {test.passes}."
        form = Form("Accept it all the same?", "Accept", why, ((field, ()),), finish, "commissioning")

        def ask() -> None:
            self.app.push_screen(FormScreen(form))

        self._with_initials(ask)

    def action_forget(self) -> None:
        """Take the test under the cursor out of the record."""
        test = self.current
        if test is not None and self._record_of(test) is not None:
            self.post_message(Recorded(forget_test(test.id), f"Test {test.id} taken out of the record"))

    def action_next_open(self) -> None:
        """Go to the next test that isn't recorded."""
        self._next_open()

    def _next_open(self) -> Test | None:
        tests = () if self._whole is None else self._whole.tests
        at = next((n for n, test in enumerate(tests) if test is self.current), -1)
        verdicts = self._verdicts
        for test in (*tests[at + 1 :], *tests[: at + 1]):
            if test.id not in verdicts:
                self._stand_on(test.id)
                return test
        return None

    def _go_on(self) -> None:
        """After a test was recorded: to the next one of its step, still writing; else back to the list."""
        test = self.current
        if not self._awaited or test is None or self._awaited != test.id or self._whole is None:
            return
        came_to = self._verdicts.get(test.id)
        if came_to is None:
            return
        self._awaited = ""
        following = self._next_open() if came_to.good else None
        if following is None or following.step != test.step or self._whole.held_by(following, self._job):
            self._close()
        else:
            self._open(following)

    # What is shown ------------------------------------------------------------------------------------------------

    @property
    def current(self) -> Test | None:
        """The test under the cursor."""
        place = self.lines.highlighted
        if place is None or self._whole is None:
            return None
        name = self.lines.get_option_at_index(place).id
        return self._whole.by_id.get(name) if name is not None else None

    @property
    def _job(self) -> Job:
        if self._snapshot is None:
            raise ValueError("no job is shown yet")
        return self._snapshot.draft.job

    @property
    def _verdicts(self) -> dict[str, Verdict]:
        return {} if self._whole is None else self._whole.verdicts(self._job)

    def _record_of(self, test: Test | None) -> Tested | None:
        if test is None:
            return None
        return next((record for record in self._job.tested if record.test == test.id), None)

    def _stand_on(self, name: str) -> None:
        if self._whole is not None and name in self._whole.by_id and self.lines.option_count:
            self.lines.highlighted = self.lines.get_option_index(name)

    def on_resize(self, _event: events.Resize) -> None:
        """Lay the lines out anew for the room there is."""
        self._fill()

    def _fill(self) -> None:
        whole, width = self._whole, self.size.width - EDGE
        if whole is None or self._snapshot is None or width <= 0:
            return
        verdicts = self._verdicts
        good = sum(1 for item in verdicts.values() if item.good)
        failed = sum(1 for item in verdicts.values() if item is Verdict.FAILED)
        self.query_one("#record-head", Static).update(head_content(good, failed, len(whole.tests)))
        before = self.current
        self.lines.clear_options()
        self.lines.add_options(self._options(whole, verdicts, width))
        if before is not None and before.id in whole.by_id:
            self._stand_on(before.id)
        elif whole.tests:
            self._stand_on(
                next((test.id for test in whole.tests if test.id not in verdicts), whole.tests[0].id)
            )
        self._detail()

    def _options(self, whole: Commissioning, verdicts: dict[str, Verdict], width: int) -> list[Option]:
        records = {record.test: record for record in self._job.tested}
        options: list[Option] = []
        step = ""
        for test in whole.tests:
            if test.step != step:
                step = test.step
                of_step = [item.id for item in whole.tests if item.step == step]
                good = sum(1 for item in of_step if item in verdicts and verdicts[item].good)
                options.append(Option(step_line(test.order, test.title, good, len(of_step)), disabled=True))
            line = line_content(test, verdicts.get(test.id), records.get(test.id), width)
            options.append(Option(line, id=test.id))
        return options

    def _detail(self) -> None:
        test, whole = self.current, self._whole
        if test is None or whole is None or self._derived is None:
            return
        held = whole.held_by(test, self._job)
        record = self._record_of(test)
        words = details_content(
            test,
            self._derived,
            whole.cautions(test),
            held=held,
            came_to=self._verdicts.get(test.id),
            record=record,
        )
        self.query_one("#test", Static).update(words)
