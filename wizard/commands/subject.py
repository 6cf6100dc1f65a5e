"""What a command about choices is asked about: a job, or an equipment sheet with an empty kitchen."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse

    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet

_NOBODY_S_DATE = "2000-01-01"
_EDITION = 2023


def add_subject(parser: argparse.ArgumentParser) -> None:
    """Take a job's or a sheet's file."""
    parser.add_argument(
        "subject",
        metavar="SHEET|JOB",
        type=Path,
        help="an equipment sheet, or a job, whose kitchen then gives lengths and circuits; .toml",
    )


def read_subject(path: Path) -> tuple[Sheet, Job]:
    """The sheet and the kitchen that a file is about; of a sheet alone, a kitchen in which nothing is measured.

    Raises InputError with every mistake of the file that can't be used.
    """
    from schedules.files.toml_reading import read_toml  # noqa: PLC0415
    from schedules.job.draft import read_draft  # noqa: PLC0415
    from schedules.job.starting import start_job  # noqa: PLC0415
    from schedules.planned import read_sheet_of  # noqa: PLC0415
    from schedules.sheet.reading import read_sheet  # noqa: PLC0415

    data, _ = read_toml(path)
    if "sheet" not in data:
        draft = read_draft(path)
        return read_sheet_of(draft), draft.job
    sheet = read_sheet(path)
    empty = start_job(
        sheet,
        file=path.with_name("nowhere.toml"),
        sheet_file=path,
        name="No kitchen measured",
        date=_NOBODY_S_DATE,
        code=_EDITION,
    )
    return sheet, empty.job
