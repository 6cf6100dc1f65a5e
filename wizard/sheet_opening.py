"""Open or begin an equipment sheet that is to be written."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.errors import InputError
from schedules.files.whole_file import write_all
from schedules.questions.field import Field, Option
from schedules.sheet.drafting import read_sheet_draft
from schedules.sheet.starting import EMPTY, sheet_file, start_sheet
from schedules.templates import sheet_template
from schedules.text import printable
from wizard.answering import refusal_words
from wizard.question import Question
from wizard.recent import found_sheets, samples
from wizard.screens.form import Form
from wizard.sheet_session import SheetSession

if TYPE_CHECKING:
    from collections.abc import Callable

    from wizard.screens.form import Values

NEW = "new"


class Begin(StrEnum):
    """What a new sheet may be begun from, beside another sheet's file."""

    GENERIC = "generic"
    EMPTY = "empty"


_NAME = Field(
    "sheet",
    "name",
    "Name of the equipment",
    "line",
    "Stands on every page, and names the file.",
    "Wall hood 36",
)
_ORIGIN = Field(
    "sheet",
    "origin",
    "Begin from",
    "option",
    "Every entry can be replaced by what the manual says.",
    "generic",
)


def sheet_session(path: Path) -> SheetSession:
    """A sheet's file, begun from the generic sheet where there is none yet.

    Raises InputError where it can't be read, is no TOML, or can't be written.
    """
    if not path.exists():
        write_all({path: start_sheet(sheet_template(), path, path.stem).text}, replace=False)
    return SheetSession(read_sheet_draft(path))


def sheets_question(folder: Path) -> Question:
    """Which sheet to write on: those in the folder, or a new one."""
    own = [found for found in found_sheets(folder) if not found.path.is_relative_to(samples())]
    options = (
        *(Option(str(found.path), printable(found.name), found.path.name) for found in own),
        Option(NEW, "A new sheet", "from the generic one, from another one, or empty"),
    )
    field = Field(
        "", "sheet", "Write an equipment sheet", "option", "From the maker's manual, page by page.", ""
    )
    return Question(field, None, "", "", options=options)


def sheet_form(folder: Path, begun: Callable[[Path], object]) -> Form:
    """What a new sheet can't do without. begun: takes its file once it is written."""

    def finish(values: Values) -> str:
        name, origin = str(values["name"]), str(values["origin"])
        file = sheet_file(folder, name)
        try:
            draft = start_sheet(_text(origin), file, name)
            write_all({file: draft.text}, replace=False)
        except InputError as error:
            return refusal_words(error)
        begun(file)
        return ""

    origins = (
        Option(Begin.GENERIC, "the small generic sheet", "complete, with a comment beside every key"),
        Option(Begin.EMPTY, "nothing", "an empty sheet: the check lists all that is wanted"),
        *(
            Option(str(found.path), f"like {printable(found.name)}", found.path.name)
            for found in found_sheets(folder)
        ),
    )
    return Form(
        title="New equipment sheet",
        done="Begin the sheet",
        why=f"Its file is written into {printable(folder.name) or 'this folder'}.",
        asked=((_NAME, ()), (_ORIGIN, origins)),
        finish=finish,
        topic="sheet",
    )


def _text(origin: str) -> str:
    """The text that a new sheet is begun from."""
    match origin:
        case Begin.GENERIC:
            return sheet_template()
        case Begin.EMPTY:
            return EMPTY
    return read_sheet_draft(Path(origin)).text
