"""From what a person typed or picked to the edits of the job, or the reason in words why not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit
from schedules.job.draft import ROW_KEYS
from schedules.job.job_tables import TABLES
from schedules.quantities.numerals import UnitError
from schedules.questions.picking import leave, pick
from schedules.raceways.raceway_edits import free_tag, put_into

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.errors import InputError
    from schedules.job.records import Job
    from schedules.sheet.choices import Choice
    from wizard.question import Question
    from wizard.session import Snapshot

Edits = tuple[Edit, ...]
Value = str | int


def typed_answer(question: Question, text: str) -> tuple[Edits, str]:
    """The edits for a typed answer, and what it did in words. Empty text takes the answer out.

    Raises UnitError for text that can't be read.
    """
    table, row, key = question.answer
    name = _name(question)
    if not text.strip():
        if question.field.required and question.field.table in ("job", "site"):
            raise UnitError("nothing", f"an answer; no job goes without it: {question.field.example}")
        return (Edit(table, row, key, None),), f"{name}: taken out"
    value = question.field.read(text)
    return (Edit(table, row, key, value),), f"{name}: {text.strip()}"


def picked_answer(job: Job, question: Question, values: tuple[Value, ...]) -> tuple[Edits, str]:
    """The edits for options picked from a list, and what that did in words."""
    table, row, key = question.answer
    words = ", ".join(option.words for option in question.options if option.value in values)
    did = f"{_name(question)}: {words or 'none'}"
    if question.kind == "raceway":
        return put_into(job, row or "", str(values[0])), did
    value = list(values) if question.several else values[0]
    return (Edit(table, row, key, value),), did


def removed_entry(question: Question) -> tuple[Edits, str]:
    """The edit that removes an entry, and what it did in words."""
    table, row, _ = question.answer
    return (Edit(table, row, "", None),), f"Removed: {TABLES[table].one} {row}"


def added_entry(job: Job, table: str, values: Mapping[str, object]) -> tuple[Edits, str]:
    """The edits that add an entry with these values, and what they did in words."""
    name = ROW_KEYS[table]
    row = str(values[name]) if name in values else free_tag(job, table)
    edits = tuple(Edit(table, row, key, value) for key, value in values.items() if key != name)
    return edits, f"Added: {TABLES[table].one} {row}"


def picked_choice(snapshot: Snapshot, value: Value, *, out: bool) -> tuple[Edits, str]:
    """The edits for one of the sheet's choices picked or taken out, with what comes and goes with it.

    Raises UnitError where the choice is not possible.
    """
    sheet, chosen = snapshot.sheet, frozenset(snapshot.draft.job.choices)
    choice = next(item for item in sheet.choices if item.id == value)
    group = next(item for item in sheet.group if choice in item.choice)
    leaving = choice.id in chosen and (out or group.pick != "one")
    picking = leave(sheet, chosen, choice) if leaving else pick(sheet, chosen, choice)
    if picking.barred:
        raise UnitError(choice.title, "; ".join(picking.barred))
    words = f"{'Taken out' if leaving else 'Chosen'}: {choice.title}"
    words += _with("with it came", picking.brought) + _with("with it went", picking.dropped)
    return (Edit("", None, "choices", list(picking.choices)),), words


def refusal_words(error: UnitError | InputError) -> str:
    """Why an answer was not taken, for beside the field."""
    if isinstance(error, UnitError):
        return f"Found {error.found}. Allowed: {error.allowed}."
    return " ".join(f"Found {mistake.found}. Allowed: {mistake.allowed}." for mistake in error.mistakes)


def _name(question: Question) -> str:
    return f"{question.row}, {question.field.label.lower()}" if question.row else question.field.label


def _with(words: str, choices: tuple[Choice, ...]) -> str:
    return f"; {words} {', '.join(choice.title for choice in choices)}" if choices else ""
