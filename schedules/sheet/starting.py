"""A new equipment sheet: begun from the small generic one, from another sheet, or with nothing in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.sheet.drafting import read_sheet_draft, sheet_draft
from schedules.templates import sheet_template
from schedules.text import for_filename

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.sheet.drafting import SheetDraft

_EMPTY = "format = 1\n\n[sheet]\n"
_LONGEST_ID = 40
_UNREAD = "Not read against a manual yet."


def generic_sheet(file: Path, name: str) -> SheetDraft:
    """The commented generic sheet under a new name; nothing is written to disk."""
    return _renamed(sheet_draft(sheet_template(), str(file)), name)


def sheet_like(origin: Path, file: Path, name: str) -> SheetDraft:
    """Another sheet under a new name; nothing is written to disk.

    Raises InputError where the other one can't be read.
    """
    return _renamed(sheet_draft(read_sheet_draft(origin).text, str(file)), name)


def empty_sheet(file: Path, name: str) -> SheetDraft:
    """A sheet that says nothing but its name; nothing is written to disk."""
    return _renamed(sheet_draft(_EMPTY, str(file)), name)


def sheet_file(folder: Path, name: str) -> Path:
    """Where a sheet of this name is written."""
    return folder / f"{for_filename(name)}.toml"


def _renamed(draft: SheetDraft, name: str) -> SheetDraft:
    """Whatever it was begun from, nobody has read this one against a manual."""
    stem = for_filename(name)
    short = stem if stem[0].isalpha() else f"sheet-{stem}"
    said = (("id", short[:_LONGEST_ID].rstrip("-")), ("name", name), ("source", _UNREAD))
    for key, value in said:
        draft = draft.with_value(("sheet", key), value)
    return draft
