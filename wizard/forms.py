"""The forms: a new job, and a new entry of a job's table."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from schedules.errors import InputError
from schedules.findings import Severity
from schedules.job.draft import ROW_KEYS
from schedules.questions.field import Field, Option
from schedules.questions.fields import FIELDS, fields_of
from schedules.questions.offers import offered, offered_rows
from schedules.text import printable
from wizard.answering import refusal_words
from wizard.asking import entry_question
from wizard.opening import new_job
from wizard.recent import found_sheets, samples
from wizard.screens.form import Form

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.derived import Derived
    from schedules.findings import Finding
    from wizard.screens.form import Values


def job_form(folder: Path, begun: Callable[[Path], object]) -> Form:
    """What a new job can't do without. begun: takes its file once it is written."""

    def finish(values: Values) -> str:
        try:
            file = new_job(
                folder,
                Path(str(values["sheet"])),
                str(values["name"]),
                int(str(values["code"])),
                str(values["tolerance"]),
            )
        except InputError as error:
            return refusal_words(error)
        begun(file)
        return ""

    asked = (
        FIELDS["job", "sheet"],
        FIELDS["job", "name"],
        FIELDS["job", "code"],
        FIELDS["site", "tolerance"],
    )
    return Form(
        title="New job",
        done="Begin the job",
        why=f"Its file is written into {printable(folder.name) or 'this folder'}. Every answer can be altered later.",
        asked=tuple((field, _sheets(folder) if field.key == "sheet" else field.options) for field in asked),
        finish=finish,
        topic="new_job",
    )


def entry_form(table: str, derived: Derived, add: Callable[[Values], str]) -> Form:
    """What a new entry of a table can't do without. add: adds it, or says why not."""
    words = entry_question("add", table).field
    required = [
        (field, offered(derived, table, None, field.key)) for field in fields_of(table) if field.required
    ]
    names = offered_rows(derived, table)
    if names:
        name = Field(table, ROW_KEYS[table], "Which one", "option", words.why, str(names[0].value))
        required.insert(0, (name, names))
    return Form(
        title=words.label, done="Add it", why=words.why, asked=tuple(required), finish=add, topic="entry"
    )


def acknowledge_form(finding: Finding, initials: str, sign: Callable[[Values], str]) -> Form:
    """Who answers for a finding, and why. initials: of who signed last. sign: records it, or says why not."""
    wanted = (
        ("initials", "decided_by", "reason") if finding.severity is Severity.FIX else ("initials", "reason")
    )
    return Form(
        title=f"Acknowledge: {finding.severity} {finding.subject}",
        done="Acknowledge it",
        why="It counts as long as the finding says the same. It cures nothing: verdict and severity stay as they are.",
        asked=tuple((FIELDS["acknowledged", key], ()) for key in wanted),
        finish=sign,
        topic="acknowledge",
        given={"initials": initials} if initials else {},
    )


def _sheets(folder: Path) -> tuple[Option, ...]:
    """The equipment sheets at hand: where each is, as seen from the folder."""
    return tuple(
        Option(str(found.path), printable(found.name), _whereabouts(found.path, folder))
        for found in found_sheets(folder)
    )


def _whereabouts(path: Path, folder: Path) -> str:
    if path.is_relative_to(folder):
        return printable(str(path.relative_to(folder)))
    if path.is_relative_to(samples()):
        return f"{path.name}, a sample that came with the program"
    return printable(str(path))
