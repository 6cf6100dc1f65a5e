"""A new equipment sheet, begun from the text of another one: a generic one, one of a like hood, or an empty one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.sheet.drafting import sheet_draft
from schedules.text import for_filename

if TYPE_CHECKING:
    from pathlib import Path

    from schedules.sheet.drafting import SheetDraft

EMPTY = "format = 1\n\n[sheet]\n"
"""The text of a sheet that says nothing yet."""

_LONGEST_ID = 40
_UNREAD = "Not read against a manual yet."


def start_sheet(text: str, file: Path, name: str) -> SheetDraft:
    """A sheet like this text under a name of its own; nothing is written to disk.

    Whatever it was begun from, nobody has read this one against a manual, and it says so. Raises InputError where the
    text is no TOML or the name can't stand in it.
    """
    stem = for_filename(name)
    short = stem if stem[0].isalpha() else f"sheet-{stem}"
    draft = sheet_draft(text, str(file))
    for key, value in (("id", short[:_LONGEST_ID].rstrip("-")), ("name", name), ("source", _UNREAD)):
        draft = draft.with_value(("sheet", key), value)
    return draft


def sheet_file(folder: Path, name: str) -> Path:
    """Where a sheet of this name is written."""
    return folder / f"{for_filename(name)}.toml"
