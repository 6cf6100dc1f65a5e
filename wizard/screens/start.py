"""The first screen: cautions, the jobs at hand, three quick doors, and how to begin."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, OptionList, Static
from textual.widgets.option_list import Option

from schedules.cautions import CAUTION, CAUTIONS
from schedules.errors import InputError
from schedules.text import printable
from wizard import keys
from wizard.doors import behind
from wizard.forms import job_form
from wizard.opening import opened, opened_copy
from wizard.recent import found_jobs, found_sheets, is_first_start, sample_jobs
from wizard.screens.form import FormScreen
from wizard.screens.pick import PickScreen
from wizard.screens.sheet import SheetScreen
from wizard.screens.steps import StepsScreen
from wizard.screens.tour import TourScreen
from wizard.screens.trouble import TroubleScreen
from wizard.sheet_opening import NEW, sheet_form, sheet_session, sheets_question
from wizard.tour import Ground

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.messages import Door, Opened, Refused
    from wizard.recent import Found


class JobLines(OptionList):
    """Jobs at hand and ways to begin, as lines."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.START_LIST)

    def on_resize(self) -> None:
        """Show the list from its beginning, as far as the cursor lets it."""
        self.scroll_home(animate=False, immediate=True)
        self.scroll_to_highlight()


class StartScreen(Screen[None]):
    """Where a person begins."""

    TOPIC = "start"
    CSS_PATH = "start.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.START)
    VERTICAL_BREAKPOINTS = [(0, "-tiny"), (20, "-short")]  # noqa: RUF012  the framework's own shape

    jobs = getters.query_one("#jobs", JobLines)

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self._folder = folder
        self._jobs: tuple[Found, ...] = ()
        self._samples: tuple[Found, ...] = ()
        self._opening = False

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(
            Content.assemble(
                ("hoodwright", "bold"), "   field wiring of one range hood with fire suppression"
            ),
            id="title",
        )
        yield Static(Content("\n".join(CAUTIONS)), id="cautions")
        yield Static(Content(CAUTION), id="caution")
        yield JobLines(id="jobs", compact=True, markup=False)
        yield Static(id="doors")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Fill the list."""
        self.query_one("#doors", Static).update(
            Content.assemble(
                ("t", "bold"),
                " one enclosure's terminations   ",
                ("r", "bold"),
                " one cable's reach   ",
                ("c", "bold"),
                " compare two choices\n",
                ("L", "bold"),
                " for a class: demonstrations, stories, practice, worksheets",
                *(("\n", ("g", "bold"), " first time here? be shown round") if is_first_start() else ()),
            )
        )

    def on_screen_resume(self) -> None:
        """Look for jobs anew: one may have been written meanwhile."""
        self._jobs, self._samples = found_jobs(self._folder), sample_jobs()
        at = self.jobs.highlighted
        self.jobs.clear_options()
        self.jobs.add_options(self._options())
        self.jobs.highlighted = at if at is not None and at < self.jobs.option_count else self._first()
        self.jobs.focus()

    def _options(self) -> list[Option]:
        heading = "Jobs" if self._jobs else "No job in this folder yet"
        options = [Option(Content.styled(heading, "bold"), disabled=True)]
        options += [Option(self._line(found), id=f"job-{place}") for place, found in enumerate(self._jobs)]
        options.append(Option(Content.styled("Begin", "bold"), disabled=True))
        options.append(Option(Content("  New job from an equipment sheet"), id="new"))
        options.append(Option(Content("  Equipment sheet from a maker's manual"), id="sheet"))
        options.append(Option(Content("  Tour of an invented kitchen, eight stations"), id="tour"))
        for place, found in enumerate(self._samples):
            options.append(
                Option(Content(f"  Copy of sample: {printable(found.name)}"), id=f"sample-{place}")
            )
        return options

    def _line(self, found: Found) -> Content:
        inside = found.path.is_relative_to(self._folder)
        shown = found.path.relative_to(self._folder) if inside else Path("…", *found.path.parts[-2:])
        return Content.assemble("  ", (printable(found.name), "bold"), f"   {printable(str(shown))}")

    def _first(self) -> int:
        """Where the cursor begins: on the first job; on the tour where nobody has opened a job yet."""
        if not self._jobs and is_first_start():
            return self.jobs.get_option_index("tour")
        return next(place for place, option in enumerate(self.jobs.options) if not option.disabled)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        kind, _, place = (event.option_id or "").partition("-")
        if kind == "job":
            self._open(self._jobs[int(place)].path, None)
        elif kind == "sample":
            self._copy(self._samples[int(place)].path)
        elif kind == "new":
            self.action_new()
        elif kind == "sheet":
            self.action_write_sheet()
        elif kind == "tour":
            self.action_tour()

    def action_new(self) -> None:
        """Begin a job."""
        if not found_sheets(self._folder):
            self.notify(
                "No equipment sheet here. Press w to write one from the maker's manual.", markup=False
            )
            return
        self.app.push_screen(FormScreen(job_form(self._folder, lambda file: self._open(file, None))))

    def action_copy(self) -> None:
        """Begin another job as a copy of the one under the cursor."""
        job = self._job()
        if job is None:
            self.notify("There is no job here yet: press n to begin one.", markup=False)
        else:
            self._copy(job.path)

    def action_write_sheet(self) -> None:
        """Write an equipment sheet, a new one or one of those at hand."""
        question = sheets_question(self._folder)
        self.app.push_screen(PickScreen(question), self._write_on)

    def _write_on(self, values: tuple[str | int, ...] | None) -> None:
        if values is None:
            return
        if values[0] == NEW:
            # The form is still in view when it hands the file on.
            begun = partial(self.call_later, self._open_sheet)
            self.app.push_screen(FormScreen(sheet_form(self._folder, begun)))
        else:
            self._open_sheet(Path(str(values[0])))

    def _open_sheet(self, file: Path) -> None:
        try:
            self.app.push_screen(SheetScreen(sheet_session(file), file))
        except InputError as error:
            self.app.push_screen(TroubleScreen(error.mistakes))

    def action_sample(self) -> None:
        """Open a copy of the first sample."""
        if self._samples:
            self._copy(self._samples[0].path)
        else:
            self.notify("No samples came with this installation.", markup=False)

    def action_tour(self) -> None:
        """Show round on an invented kitchen."""
        ground = Ground()
        steps = StepsScreen(ground.session)
        self.app.push_screen(steps)
        self.app.push_screen(TourScreen(ground, steps))

    def action_door(self, door: Door) -> None:
        """Go through one of the quick doors with the job under the cursor."""
        job = self._job()
        if job is None:
            self.notify("There is no job here yet: press n to begin one.", markup=False)
        else:
            self._open(job.path, door)

    def _job(self) -> Found | None:
        place = self.jobs.highlighted
        kind, _, number = (
            (self.jobs.get_option_at_index(place).id if place is not None else "") or ""
        ).partition("-")
        if kind == "job":
            return self._jobs[int(number)]
        if kind == "sample":
            return self._samples[int(number)]
        return next(iter((*self._jobs, *self._samples)), None)

    def _open(self, path: Path, door: Door | None) -> None:
        self._begin(partial(opened, path, door))

    def _copy(self, path: Path) -> None:
        self._begin(partial(opened_copy, path, self._folder))

    def _begin(self, read: Callable[[], Opened | Refused]) -> None:
        """Open one job at a time: a key pressed twice neither opens nor copies one twice."""
        if not self._opening:
            self._opening = True
            self._read(read)

    @work(thread=True)
    def _read(self, read: Callable[[], Opened | Refused]) -> None:
        self.post_message(read())

    def on_opened(self, event: Opened) -> None:
        """Show the job, or what is behind the door."""
        self._opening = False
        if event.door is None:
            self.app.push_screen(StepsScreen(event.session))
        else:
            self.app.push_screen(behind(event.door, event.session))

    def on_refused(self, event: Refused) -> None:
        """Say what is wrong with the file."""
        self._opening = False
        self.app.push_screen(TroubleScreen(event.mistakes))
