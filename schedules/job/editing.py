"""A job's text with edits applied: what they don't touch, comments too, stays as it was written."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import tomlkit
from tomlkit.items import AoT

from schedules.job.draft import ROW_KEYS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tomlkit.items import Array

    from schedules.findings import Edit


def edited_text(text: str, edits: Iterable[Edit]) -> str:
    """Apply edits to the text of a job."""
    document = tomlkit.parse(text)
    for edit in edits:
        _apply(document, edit)
    return tomlkit.dumps(document)


def _apply(document: tomlkit.TOMLDocument, edit: Edit) -> None:
    """Set or remove one key; a row that doesn't exist yet is made."""
    home: Any = document
    if edit.table:
        home = document.setdefault(edit.table, tomlkit.aot() if edit.row is not None else tomlkit.table())
    if edit.row is not None and not edit.field:
        _remove_row(home, ROW_KEYS[edit.table], edit.row)
        if not home:
            document.pop(edit.table)
        return
    if edit.row is not None:
        home = _row(home, ROW_KEYS[edit.table], edit.row)
    if edit.value is None:
        home.pop(edit.field, None)
    else:
        home[edit.field] = edit.value


def _remove_row(rows: AoT | Array, key: str, name: str) -> None:
    for place, row in enumerate(rows):
        if row.get(key) == name:
            del rows[place]
            return


def _row(rows: AoT | Array, key: str, name: str) -> Any:
    for row in rows:
        if row.get(key) == name:
            return row
    # A file may also write its rows as inline tables between brackets.
    made = tomlkit.table() if isinstance(rows, AoT) else tomlkit.inline_table()
    made[key] = name
    rows.append(made)
    return rows[-1]
