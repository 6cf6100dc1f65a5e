"""Open, start or copy a job: from a file to a session."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.errors import InputError, Mistake
from schedules.files.whole_file import write_all
from schedules.findings import Edit
from schedules.job.copying import copy_job
from schedules.job.draft import read_draft
from schedules.job.starting import start_job
from schedules.planned import read_sheet_of
from schedules.sheet.reading import read_sheet
from schedules.text import for_filename
from wizard.messages import Opened, Refused
from wizard.recent import remember
from wizard.session import Session

if TYPE_CHECKING:
    from schedules.job.draft import Draft
    from wizard.messages import Door


def opened(path: Path, door: Door | None) -> Opened | Refused:
    """A job's file as a session, planned already where it goes through a door; or what is wrong with it."""
    try:
        draft = read_draft(path)
        session = Session(draft, read_sheet_of(draft))
        if door is None:
            remember(path)
        else:
            session.plan_now()
        return Opened(session, door)
    except InputError as error:
        return Refused(error.mistakes)
    # Whatever else goes wrong with this file, the person is told, and the other jobs can still be opened.
    except Exception as error:
        found = f"a fault of the program itself: {type(error).__name__}: {error}"
        return Refused(
            (Mistake(str(path), None, "", found, "please report it, with this file and its sheet"),)
        )


def opened_copy(path: Path, folder: Path) -> Opened | Refused:
    """A copy of a job in the folder, as a session; or what is wrong with it."""
    try:
        return opened(copy_of(path, folder), None)
    except InputError as error:
        return Refused(error.mistakes)


def new_job(folder: Path, sheet_file: Path, name: str, code: int, tolerance: str) -> Path:
    """Write a new job into the folder and give its file.

    Raises InputError where the sheet has mistakes or the file is there already.
    """
    file = folder / f"{for_filename(name)}.toml"
    draft = start_job(
        read_sheet(sheet_file),
        file=file,
        sheet_file=sheet_file,
        name=name,
        date=datetime.date.today().isoformat(),
        code=code,
    )
    _write_new(draft.edited((Edit("site", None, "tolerance", tolerance),)))
    return file


def copy_of(path: Path, folder: Path) -> Path:
    """Copy a job into the folder under a name that is free there, and give its file.

    Raises InputError with the job's mistakes.
    """
    draft = read_draft(path)
    copy = copy_job(draft, _free(folder, path.stem))
    _write_new(copy)
    return Path(copy.file)


def _write_new(draft: Draft) -> None:
    write_all({Path(draft.file): draft.text}, replace=False)


def _free(folder: Path, stem: str) -> Path:
    names = (f"{stem}.toml", *(f"{stem}-{number}.toml" for number in range(2, 1000)))
    for name in names:
        if not (folder / name).exists():
            return folder / name
    raise InputError((Mistake(str(folder), None, "", "a thousand copies", "a folder with fewer"),))
