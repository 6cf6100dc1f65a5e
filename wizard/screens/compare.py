"""Side by side: this job and the same with another choice, or another job or revision."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from schedules.comparison import compare
from schedules.errors import InputError
from schedules.findings import Edit
from schedules.plan import plan_job
from schedules.planned import plan_file
from schedules.questions.picking import leave, pick
from schedules.text import for_filename, printable
from wizard import keys
from wizard.answering import refusal_words
from wizard.messages import Compared
from wizard.recent import found_jobs
from wizard.screens.browse import BrowseScreen
from wizard.screens.slides import SlidesScreen
from wizard.slides import comparison_slides
from wizard.wording import comparison_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.plan import Plan
    from schedules.questions.picking import Picking
    from schedules.sheet.choices import Choice
    from wizard.recent import Found
    from wizard.session import Session, Snapshot


@dataclass(frozen=True, slots=True)
class _OtherChoice:
    """One choice that is not as it is now, and the choices that would then stand."""

    choice: Choice
    picking: Picking
    leaving: bool

    @property
    def words(self) -> tuple[str, str]:
        """With or without, and what."""
        return ("without" if self.leaving else "with"), self.choice.title

    @property
    def file(self) -> str:
        """What a folder of its drawing is called."""
        return f"{self.words[0]}-{self.choice.id}"

    def follows(self) -> Iterator[str]:
        """What else would change with it."""
        yield from (f"with it comes: {item.title}" for item in self.picking.brought)
        yield from (f"with it goes: {item.title}" for item in self.picking.dropped)

    def plan(self, snapshot: Snapshot) -> Plan:
        """The job's plan with it. Raises InputError."""
        draft = snapshot.draft.edited((Edit("", None, "choices", list(self.picking.choices)),))
        return plan_job(snapshot.sheet, draft.job)


@dataclass(frozen=True, slots=True)
class _OtherJob:
    """Another job's file, or another revision of this one."""

    found: Found

    @property
    def words(self) -> tuple[str, str]:
        """That it is a job, and which."""
        return "job", printable(f"{self.found.name} ({self.found.path.name})", 100)

    @property
    def file(self) -> str:
        """What a folder of its drawing is called."""
        return for_filename(self.found.path.stem)

    def follows(self) -> Iterator[str]:
        """Nothing else."""
        yield from ()

    def plan(self, _snapshot: Snapshot) -> Plan:
        """That job's own plan. Raises InputError."""
        return plan_file(self.found.path, remedies=False).plan


class CompareScreen(BrowseScreen):
    """Every choice that could be otherwise, and every other job at hand: what would then differ."""

    TOPIC = "compare"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.COMPARE)
    HEADING = "Compare"

    class Written(Message):
        """The worker has written the marked drawing, or says why not."""

        def __init__(self, words: str) -> None:
            super().__init__()
            self.words = words

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._others: tuple[_OtherChoice | _OtherJob, ...] = (
            *_others(session.now),
            *_other_jobs(session.now),
        )
        self._shown: Compared | None = None

    def view(self) -> Iterable[Widget]:
        """What would be chosen, then every change."""
        yield Static(id="view-head")
        with VerticalScroll(id="view-box"):
            yield Static(id="changes")

    def prompts(self) -> Iterable[Content]:
        """Each choice, with or without; then each other job."""
        return (Content.assemble((f"{other.words[0]:9}", "bold"), other.words[1]) for other in self._others)

    def look_at(self, place: int) -> None:
        """Plan the job with the other choice, or the other job."""
        self._shown = None
        other = self._others[place]
        lines = [Content.styled(f"As it is  →  {self._words(place)}", "bold")]
        lines += map(Content, other.follows())
        self.query_one("#view-head", Static).update(Content("\n").join(lines))
        if isinstance(other, _OtherChoice) and other.picking.barred:
            self._show(f"Not possible: {'; '.join(other.picking.barred)}")
        else:
            self._show("planning …")
            self._plan(place)

    @work(thread=True, exclusive=True, group="compare")
    def _plan(self, place: int) -> None:
        worker = get_current_worker()
        snapshot, other = self.session.now, self._others[place]
        try:
            after = other.plan(snapshot)
            message = Compared(place, compare(self.plan, after, interlocks=True), "", after)
        except InputError as error:
            message = Compared(place, None, refusal_words(error))
        # A fault of the program in one comparison is told in its place; the others can still be made.
        except Exception as error:
            message = Compared(place, None, f"A fault of the program itself: {type(error).__name__}: {error}")
        if not worker.is_cancelled:
            self.post_message(message)

    def on_compared(self, event: Compared) -> None:
        """Show the changes, if the cursor is still there."""
        if event.place != self.things.highlighted:
            return
        self._shown = event
        if event.comparison is None:
            self._show(event.words)
        elif event.comparison.same:
            self._show("Changes no termination, cable, circuit, opening or finding.")
        else:
            self.query_one("#changes", Static).update(Content("\n").join(comparison_lines(event.comparison)))

    def action_large(self) -> None:
        """Show what changes step by step, large."""
        if self._shown is not None and self._shown.comparison is not None:
            slides = comparison_slides(self._words(self._shown.place), self._shown.comparison)
            if slides:
                self.app.push_screen(SlidesScreen("Compare", slides))

    def action_write(self) -> None:
        """Write the marked drawing beside the job's file."""
        shown = self._shown
        if shown is None or shown.after is None or shown.comparison is None:
            return
        if not shown.comparison.conductors:
            self.notify("No conductor differs: there is nothing to draw.", markup=False)
            return
        name = f"differs-{self._others[shown.place].file}"
        self.notify("Drawing and proving …   esc stops; nothing is written then.", markup=False)
        self._write(shown.after, Path(self.session.now.draft.file).parent / name)

    @work(thread=True, exclusive=True, group="compare-drawing")
    def _write(self, after: Plan, folder: Path) -> None:
        # The drawing engine is loaded only when somebody draws.
        from schedules.drawings.marked import marked_files  # noqa: PLC0415
        from schedules.package.folder import put  # noqa: PLC0415

        worker = get_current_worker()
        try:
            files = marked_files(self.plan, after)
            if worker.is_cancelled:
                return
            put(folder, files, replace=False)
            words = f"Proved and written to {printable(str(folder), 200)}"
        # The engine is another program: whatever it does, the person is told that nothing was written.
        except Exception as error:
            words = f"Nothing was written: {printable(str(error), 400)}"
        if not worker.is_cancelled:
            self.post_message(self.Written(words))

    def on_compare_screen_written(self, event: Written) -> None:
        """Say what came of it."""
        self.notify(event.words, markup=False)

    def _words(self, place: int) -> str:
        return ": ".join(self._others[place].words)

    def _show(self, words: str) -> None:
        self.query_one("#changes", Static).update(Content(words))


def _others(snapshot: Snapshot) -> Iterator[_OtherChoice]:
    """Every choice of the sheet, the other way round."""
    chosen = frozenset(snapshot.draft.job.choices)
    for group in snapshot.sheet.group:
        for choice in group.choice:
            if choice.id not in chosen:
                yield _OtherChoice(choice, pick(snapshot.sheet, chosen, choice), leaving=False)
            elif group.pick != "one":
                yield _OtherChoice(choice, leave(snapshot.sheet, chosen, choice), leaving=True)


def _other_jobs(snapshot: Snapshot) -> Iterator[_OtherJob]:
    """The jobs at hand, but for this one."""
    here = Path(snapshot.draft.file).resolve()
    return (_OtherJob(found) for found in found_jobs(here.parent) if found.path.resolve() != here)
