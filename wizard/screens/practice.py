"""Practice: one conductor at a time; a person says where it ends and is told whether that is so, and why not."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Digits, Footer, Input, Static

from schedules.teaching.grading import grade, questions, score
from wizard import keys

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.plan import Plan
    from schedules.teaching.grading import Graded


class PracticeInput(Input):
    """Where the answer is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.PRACTICE_INPUT)


class PracticeScreen(Screen[None]):
    """The conductors of a plan in an order that a seed draws."""

    TOPIC = "practice"
    CSS_PATH = "practice.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.PRACTICE)
    AUTO_FOCUS = "PracticeInput"

    field = getters.query_one(PracticeInput)

    def __init__(self, plan: Plan, seed: int) -> None:
        super().__init__()
        self._plan, self._seed = plan, seed
        self._asked = questions(plan, seed)
        self._place = 0
        self._graded: list[Graded] = []

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        with Vertical(id="practice-box"):
            yield Static(id="practice-what")
            yield Digits(id="practice-number")
            yield Static(id="practice-known")
            yield PracticeInput(placeholder="H X1:1L", select_on_focus=False)
            with VerticalScroll(id="practice-told", can_focus=False):
                yield Static(id="practice-last")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Ask for the first."""
        self._ask()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Grade the answer and ask for the next."""
        event.stop()
        if self._place < len(self._asked) and event.value.strip():
            graded = grade(self._plan, self._asked[self._place], event.value)
            self._graded.append(graded)
            self._tell(_told(graded))
            self.action_later()

    def action_later(self) -> None:
        """Ask for the next."""
        self._place = min(self._place + 1, len(self._asked))
        self._ask()

    def action_before(self) -> None:
        """Ask for the one before again."""
        self._place = max(self._place - 1, 0)
        self._ask()

    def action_finish(self) -> None:
        """Show the score and what was wrong."""
        self._place = len(self._asked)
        self._ask()

    def action_back(self) -> None:
        """Stop."""
        self.dismiss(None)

    def _ask(self) -> None:
        result = score(self._graded)
        counted = f"{result.right} of {result.answered} right"
        over = self._place == len(self._asked)
        where = "finished" if over else f"{self._place + 1} of {len(self._asked)}"
        self.query_one("#title", Static).update(
            Content.assemble(("Practice", "bold"), f" {self._seed}   {where}   ", (counted, "bold"))
        )
        self.field.value = ""
        self.field.display = not over
        number, known = self.query_one("#practice-number", Digits), self.query_one("#practice-known", Static)
        if over:
            self.query_one("#practice-what", Static).update(Content.styled("SCORE", "bold"))
            number.update(f"{result.percent}")
            known.update(Content(f"{counted}, in per cent"))
            self._tell(Content("\n").join(map(_told, result.wrong)))
            self.set_focus(None)
            return
        self.field.focus()
        asked = self._asked[self._place]
        self.query_one("#practice-what", Static).update(
            Content.styled("WHERE DOES THIS WIRE END? ENCLOSURE AND TERMINAL", "bold")
        )
        number.update(asked.row.number)
        known.update(Content(asked.says))

    def _tell(self, words: Content) -> None:
        self.query_one("#practice-last", Static).update(words)


def _told(graded: Graded) -> Content:
    row, given = graded.asked.row, graded.given.strip()
    if graded.right:
        return Content.styled(f"RIGHT   wire {row.number}: {graded.asked.answer}", "bold $text-success")
    words = f"   wire {row.number}, answered {given}: {graded.reason}"
    return Content.assemble(("WRONG", "bold $text-error"), words)
