"""Begin a job: which sheet, what it is called, which code edition, how well it is measured."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Input, OptionList, Static
from textual.widgets.option_list import Option

from schedules.errors import InputError
from schedules.fields import FIELDS
from schedules.numerals import UnitError
from schedules.text import printable
from wizard import keys
from wizard.answering import refusal_words
from wizard.opening import new_job
from wizard.recent import found_sheets

if TYPE_CHECKING:
    from pathlib import Path

    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.field import Field

_ASKED = (FIELDS["job", "name"], FIELDS["job", "code"], FIELDS["site", "tolerance"])


class NewJobScreen(Screen["Path | None"]):
    """Gives the new job's file, or None where the person went back."""

    TOPIC = "new_job"
    CSS_PATH = "new_job.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.NEW_JOB)
    AUTO_FOCUS = "#sheets"

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self._folder = folder
        self._sheets = found_sheets(folder)

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(
            Content.assemble(("New job", "bold"), f"   in {printable(str(self._folder))}"), id="title"
        )
        with VerticalScroll(can_focus=False):
            yield Static(Content.styled("Equipment sheet", "bold"))
            yield Static(Content(FIELDS["job", "sheet"].why), classes="why")
            yield OptionList(
                *(Option(_sheet_line(found.name, str(found.path))) for found in self._sheets),
                id="sheets",
                compact=True,
                markup=False,
            )
            for field in _ASKED:
                with Horizontal(classes="line"):
                    yield Static(Content.styled(field.label, "bold"), classes="label")
                    yield Input(placeholder=field.example, id=_id(field), compact=True, select_on_focus=False)
                yield Static(Content(f"{field.why} {field.range}."), classes="why")
                yield Static(id=f"{_id(field)}-error", classes="error")
            yield Static(id="refused", classes="error")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Say what is missing where no sheet is at hand."""
        if not self._sheets:
            self.query_one("#refused", Static).update(
                Content(
                    "No equipment sheet in this folder. `hoodwright sheet template` writes one to begin with."
                )
            )
        else:
            self.query_one("#sheets", OptionList).highlighted = 0

    @on(OptionList.OptionSelected, "#sheets")
    def _sheet_chosen(self) -> None:
        self.query_one(f"#{_id(_ASKED[0])}", Input).focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go on to the next question; from the last, begin the job."""
        event.stop()
        place = next(place for place, field in enumerate(_ASKED) if _id(field) == event.input.id)
        if self._read(_ASKED[place]) is None:
            return
        if place + 1 < len(_ASKED):
            self.query_one(f"#{_id(_ASKED[place + 1])}", Input).focus()
        else:
            self.action_begin()

    def action_begin(self) -> None:
        """Write the job, if every answer can be read."""
        values = {field.key: self._read(field) for field in _ASKED}
        chosen = self.query_one("#sheets", OptionList).highlighted
        if chosen is None or not self._sheets or None in values.values():
            return
        name, code, tolerance = values["name"], values["code"], values["tolerance"]
        try:
            file = new_job(self._folder, self._sheets[chosen].path, str(name), int(str(code)), str(tolerance))
        except InputError as error:
            self.query_one("#refused", Static).update(Content(refusal_words(error)))
            return
        self.dismiss(file)

    def action_back(self) -> None:
        """Go back; nothing is written."""
        self.dismiss(None)

    def _read(self, field: Field) -> object | None:
        """The answer in a field, or None, with the reason beside it."""
        error = self.query_one(f"#{_id(field)}-error", Static)
        try:
            value = field.read(self.query_one(f"#{_id(field)}", Input).value)
        except UnitError as refusal:
            error.update(Content(refusal_words(refusal)))
            return None
        error.update(Content(""))
        return value


def _id(field: Field) -> str:
    return f"{field.table}-{field.key}"


def _sheet_line(name: str, path: str) -> Content:
    return Content.assemble("  ", (printable(name), "bold"), f"   {printable(path)}")
