"""A job as the start of another one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import tomlkit

from schedules.job.draft import draft_from_text
from schedules.job.starting import path_from_job

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.job.draft import Draft


def copy_job(draft: Draft, file: Path) -> Draft:
    """The same answers under another file's name; nothing is written to disk.

    What was found, done or answered for on the other site is left out. Raises InputError where the sheet's path can't
    stand in a job.
    """
    document = tomlkit.parse(draft.text)
    document["job"]["sheet"] = path_from_job(draft.sheet_path, file)
    for table in ("as_built", "acknowledged", "tested"):
        document.pop(table, None)
    return draft_from_text(tomlkit.dumps(document), str(file))
