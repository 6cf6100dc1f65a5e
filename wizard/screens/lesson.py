"""What a trainer does with one job: compare, demonstrate, tell a story, let practise, print a worksheet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.worker import get_current_worker

from schedules.text import printable
from wizard import keys
from wizard.screens.browse import BrowseScreen
from wizard.screens.compare import CompareScreen
from wizard.screens.practice import PracticeScreen
from wizard.screens.slides import SlidesScreen
from wizard.screens.story import StoryScreen
from wizard.slides import deck_slides

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.plan import Plan
    from wizard.slides import Slide

LESSONS = (
    ("Compare", "Two choices, or this job with another choice. l there shows it step by step, large."),
    (
        "Demonstrations",
        "The fewest combinations of choices that show every pair, in the order in which least wiring changes. Finding "
        "them takes some seconds.",
    ),
    ("Story", "Put up a state, cause a fire, break a wire, and see what each of them changes."),
    ("Practice", "One conductor at a time: where does it end? Graded, with the reason where it is wrong."),
    (
        "Worksheet",
        "Written beside the job as PDF and page, with the answers apart: ends to fill in, a drawing to label, slips "
        "and faults to find.",
    ),
)


class SeedInput(Input):
    """Which worksheet or practice: a number."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SEED_INPUT)

    def action_leave(self) -> None:
        """Go back to the list."""
        self.screen.query_one("#things").focus()


class LessonScreen(BrowseScreen):
    """The things that a trainer may do; enter does the one under the cursor."""

    TOPIC = "lesson"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.LESSON)
    HEADING = "Class"

    field = getters.query_one(SeedInput)

    class Ready(Message):
        """The worker has the slides of the deck, or has written a worksheet, or says why not."""

        def __init__(self, slides: tuple[Slide, ...], words: str) -> None:
            super().__init__()
            self.slides = slides
            self.words = words

    def view(self) -> Iterable[Widget]:
        """What the thing is for, the number, what came of it."""
        yield Static(id="view-head")
        yield SeedInput("1", type="integer", max_length=6, placeholder="1")
        with VerticalScroll(id="view-box", can_focus=False):
            yield Static(id="changes")

    def prompts(self) -> Iterable[Content]:
        """Each thing by its name."""
        return (Content(name) for name, _ in LESSONS)

    def look_at(self, place: int) -> None:
        """Say what the thing is for."""
        name, words = LESSONS[place]
        seeded = name in ("Practice", "Worksheet")
        begin = "\n\nEnter begins."
        number = "\nNumber below: the same number gives the same again; n changes it." if seeded else ""
        self.query_one("#view-head", Static).update(
            Content.assemble((name, "bold"), f"\n{words}{number}{begin}")
        )
        self.field.display = seeded

    def action_number(self) -> None:
        """Change the number."""
        if self.field.display:
            self.field.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the number and go back to the list."""
        event.stop()
        self.things.focus()

    @on(OptionList.OptionSelected, "#things")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        match LESSONS[event.option_index][0]:
            case "Compare":
                self.app.push_screen(CompareScreen(self.session))
            case "Demonstrations":
                self._tell("looking for the smallest deck …   esc stops.")
                self._find_deck(self.plan)
            case "Story":
                self.app.push_screen(StoryScreen(self.session))
            case "Practice":
                self.app.push_screen(PracticeScreen(self.plan, self._seed))
            case _:
                self._tell("setting and printing …   esc stops; nothing is written then.")
                self._print(self.plan, self._seed, Path(self.session.now.draft.file).parent)

    @property
    def _seed(self) -> int:
        text = self.field.value.strip()
        return int(text) if text.lstrip("-").isdigit() else 1

    @work(thread=True, exclusive=True, group="lesson")
    def _find_deck(self, plan: Plan) -> None:
        from schedules.teaching.deck import make_deck  # noqa: PLC0415  only a class pays for it

        worker = get_current_worker()
        sheet = plan.derived.sheet
        try:
            slides, words = deck_slides(sheet, make_deck(sheet, plan.derived.job)), ""
        except ValueError as error:
            slides, words = (), str(error)
        if not worker.is_cancelled:
            self.post_message(self.Ready(slides, words))

    @work(thread=True, exclusive=True, group="lesson")
    def _print(self, plan: Plan, seed: int, beside: Path) -> None:
        # The typesetter and the fault finder are loaded only when somebody prints.
        from schedules.drawings.picture import Paper  # noqa: PLC0415
        from schedules.package.folder import put  # noqa: PLC0415
        from schedules.package.worksheet import worksheet_files  # noqa: PLC0415
        from schedules.teaching.exercises import set_exercise  # noqa: PLC0415

        worker = get_current_worker()
        folder = beside / f"worksheet-{seed}"
        try:
            if folder.exists():
                words = f"{folder.name} is there already: move it away, or change the number."
            else:
                contents = worksheet_files(plan, set_exercise(plan, seed), Paper.LETTER)
                if worker.is_cancelled:
                    return
                put(folder, contents, replace=False)
                words = f"Wrote {folder.name} beside the job: {', '.join(contents)}"
        # Engine and typesetter are other programs: whatever they do, the person is told that nothing was written.
        except Exception as error:
            words = f"Nothing was written: {printable(str(error), 400)}"
        if not worker.is_cancelled:
            self.post_message(self.Ready((), words))

    def on_lesson_screen_ready(self, event: Ready) -> None:
        """Show the slides, or say what came of it."""
        self._tell(event.words)
        if event.slides:
            self.app.push_screen(SlidesScreen("Demonstrations", event.slides))

    def _tell(self, words: str) -> None:
        self.query_one("#changes", Static).update(Content(words))
