"""Make the questions of one place of an equipment sheet: its tables, the entries of one, or the keys of an entry."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.files.toml_positions import dotted
from schedules.questions.field import Field, Option
from schedules.questions.sheet_keys import key_at, keys_at, kinds_of
from schedules.questions.sheet_names import condition_words, declared, entry_title
from schedules.sheet.drafting import within
from schedules.sheet.sheet_tables import TABLES
from wizard.question import Group, Question

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.errors import Mistake
    from schedules.files.toml_positions import TomlPath
    from schedules.questions.sheet_keys import SheetKey
    from schedules.sheet.drafting import SheetDraft

CONDITION = "with certain choices only"
"""The answer that opens a condition, where a key may also hold a word."""


def place_group(draft: SheetDraft, path: TomlPath) -> Group:
    """What is asked at one place."""
    if not path:
        why = (
            "In the order in which a manual is read. What the manual doesn't say is left out, never guessed."
        )
        return Group("", "The sheet", why, tuple(_tables(draft)))
    title, why = place_words(draft, path)
    key = key_at(draft.document, path)
    asked = _entries(draft, path, key) if key is not None and key.shape == "several" else _keys(draft, path)
    return Group(dotted(path), title, why, tuple(asked))


def place_words(draft: SheetDraft, path: TomlPath) -> tuple[str, str]:
    """What a place is called, and why it is asked for."""
    key = key_at(draft.document, path)
    if isinstance(path[-1], int):
        entry = draft.at(path)
        around = key_at(draft.document, path[:-1])
        title = entry_title(entry) if isinstance(entry, dict) else ""
        return title or f"number {path[-1] + 1}", "" if around is None else around.why
    return ("", "") if key is None else (key.label, key.why)


def _tables(draft: SheetDraft) -> Iterator[Question]:
    for table in TABLES.values():
        there = draft.at((table.name,))
        said = f"{len(there)}" if isinstance(there, list) else "given" if there else ""
        yield _opens((table.name,), table.title, table.why, said, draft)


def _entries(draft: SheetDraft, path: TomlPath, key: SheetKey) -> Iterator[Question]:
    one = TABLES[str(path[0])].one if len(path) == 1 else key.label.lower()
    for place, entry in enumerate(draft.at(path) or ()):
        title = entry_title(entry) if isinstance(entry, dict) else ""
        yield _opens((*path, place), title or f"number {place + 1}", key.why, _said(entry), draft)
    words = f"Add one: {one}"
    yield Question(
        Field(dotted(path), "+", words, "line", f"{key.why}. u takes it back.", ""),
        None,
        "",
        "press enter",
        options=kinds_of(key),
        kind="add",
    )


def _keys(draft: SheetDraft, path: TomlPath) -> Iterator[Question]:
    for key in keys_at(draft.document, path):
        yield _question(draft, (*path, key.key), key)


def _question(draft: SheetDraft, path: TomlPath, key: SheetKey) -> Question:
    value = draft.at(path)
    if key.shape in ("one", "several") or (key.shape == "condition" and not key.options):
        return _opens(path, key.label, key.why, _shown(key, value), draft, required=key.required)
    options = key.options
    if key.shape == "condition":
        options = (Option(CONDITION, CONDITION, condition_words(value)), *key.options)
    elif key.names:
        options = declared(draft.document, path, key.names)
    return Question(
        field=Field(
            dotted(path[:-1]),
            key.key,
            key.label,
            "quantity" if key.example else "line",
            key.why,
            key.example,
            allowed=_allowed(key),
        ),
        row=None,
        written=_written(value),
        shown=_shown(key, value),
        needed=key.required,
        options=options,
        picked=frozenset(value if isinstance(value, list) else () if isinstance(value, dict) else (value,)),
        several=key.shape == "names",
        closed=f"no {key.names.removeprefix('own ')} declared yet" if key.names and not options else "",
        fault=fault_at(draft, path, below=key.shape == "names"),
    )


def _opens(
    path: TomlPath, label: str, why: str, said: str, draft: SheetDraft, *, required: bool = False
) -> Question:
    """A row that leads to what is below it."""
    wrong = sum(within(mistake, path) for mistake in draft.mistakes)
    shown = "  ".join(part for part in (said, f"{wrong} to mend" if wrong else "") if part)
    return Question(
        Field(dotted(path[:-1]), str(path[-1]), label, "line", why, ""),
        None,
        said,
        shown or ("–" if not required else ""),
        needed=required,
        kind="open",
    )


def fault_at(draft: SheetDraft, path: TomlPath, *, below: bool = False) -> str:
    """What is wrong with the value at a path, in words. below: or with one of the names in it."""
    return " ".join(
        mistake_words(mistake)
        for mistake in draft.mistakes
        if (within(mistake, path) if below else mistake.key == dotted(path)) and mistake.found != "nothing"
    )


def mistake_words(mistake: Mistake) -> str:
    """What stands there and what may."""
    return f"Found {mistake.found}. Allowed: {mistake.allowed}."


def _allowed(key: SheetKey) -> str:
    if key.example:
        return "a figure with its unit"
    return key.allowed or {
        "whole": "a whole number",
        "number": "a plain number",
        "names": "texts, parted by ;",
    }.get(key.shape, "")


def _written(value: object) -> str:
    """A value as a person would type it again."""
    if value is None:
        return ""
    return "; ".join(str(item) for item in value) if isinstance(value, list) else str(value)


def _shown(key: SheetKey, value: Any) -> str:
    """A value for the eye."""
    if value is None:
        return ""
    if isinstance(value, list):
        return f"{len(value)}" if key.shape == "several" else ", ".join(str(item) for item in value)
    if isinstance(value, dict):
        return condition_words(value) if key.shape == "condition" else _summary(value)
    return next((option.words for option in key.options if option.value == value), str(value))


def _summary(value: dict[str, Any]) -> str:
    """The plain values of a table, one after the other."""
    return ", ".join(str(item) for item in value.values() if isinstance(item, str | int | float))


def _said(entry: Any) -> str:
    """What an entry says beside its title: how much it holds, else its plain values."""
    if not isinstance(entry, dict):
        return ""
    sizes = [f"{len(entry[key])} {words}" for key, words in _HELD if isinstance(entry.get(key), list)]
    title = entry_title(entry)
    plain = (str(value) for value in entry.values() if isinstance(value, str | int | float))
    return ", ".join(sizes or (value for value in plain if value not in title))


_HELD = (
    ("terminal", "terminals"),
    ("element", "inside"),
    ("core", "conductors"),
    ("choice", "choices"),
    ("point", "points"),
    ("hole", "holes"),
)
