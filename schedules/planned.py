"""From a job's file to its plan: the one way that every program takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.errors import InputError
from schedules.files.validation import located, shown
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.questions.picking import everything
from schedules.remedies import with_remedies
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.job.draft import Draft
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet


# A sheet is tried without a kitchen: no day and no edition of the code is anybody's answer then.
_ANY_DAY, _ANY_EDITION = "2000-01-01", 2023


@dataclass(frozen=True, slots=True)
class Planned:
    """A job's file, the equipment sheet that it names, and the plan that both give."""

    draft: Draft
    sheet: Sheet
    plan: Plan


def plan_file(path: Path, *, remedies: bool = True) -> Planned:
    """Read a job and its sheet, plan it and prove its remedies.

    remedies: False leaves the findings without what costs one more plan each. Raises InputError with every mistake
    of the file that can't be used.
    """
    draft = read_draft(path)
    sheet = read_sheet_of(draft)
    plan = plan_job(sheet, draft.job)
    return Planned(draft, sheet, with_remedies(sheet, draft, plan) if remedies else plan)


def read_sheet_of(draft: Draft) -> Sheet:
    """Read the equipment sheet that a job names.

    Raises InputError with the sheet's mistakes, or with the job's line where there is no such sheet.
    """
    if not draft.sheet_path.is_file():
        allowed = "the file of an equipment sheet, relative to this job"
        found = ((("job", "sheet"), shown(draft.job.job.sheet), allowed),)
        raise InputError(located(draft.file, draft.text, found))
    return read_sheet(draft.sheet_path)


def plan_unmeasured(sheet: Sheet, sheet_file: Path) -> Plan:
    """The plan of a job in which all that fits together is bought and nothing is measured: what a sheet makes.

    sheet_file: where the sheet is or will be.
    """
    # Loaded where a job is begun, for a check begins none.
    from schedules.job.starting import start_job  # noqa: PLC0415

    draft = start_job(
        sheet,
        file=sheet_file.with_suffix(".job.toml"),
        sheet_file=sheet_file,
        name=sheet.sheet.name,
        date=_ANY_DAY,
        code=_ANY_EDITION,
    )
    together = everything(sheet)
    bought = [choice.id for choice in sheet.choices if choice.id in together]
    return plan_job(sheet, draft.edited((Edit("", None, "choices", bought),)).job)
