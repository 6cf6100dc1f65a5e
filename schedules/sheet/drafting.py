"""An equipment sheet while it is being written: every version is kept, with all that is still wrong with it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import tomlkit
from tomlkit.items import AoT

from schedules.errors import InputError, Mistake
from schedules.files.toml_positions import dotted, positions
from schedules.files.toml_reading import parse_toml, read_toml
from schedules.files.validation import located, validate
from schedules.files.whole_file import write_whole
from schedules.sheet.consistency import disagreements
from schedules.sheet.sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from schedules.files.toml_positions import TomlPath


@dataclass(frozen=True, slots=True)
class SheetDraft:
    """A sheet's text, and what it gives. Changing it makes another one.

    document: the text as plain data. sheet: None while a single key is wrong or missing. slips: what is wrong with
    single keys. contradictions: where the sheet, otherwise whole, disagrees with itself.
    """

    file: str
    text: str
    document: Mapping[str, Any]
    sheet: Sheet | None
    slips: tuple[Mistake, ...] = ()
    contradictions: tuple[Mistake, ...] = ()

    @property
    def mistakes(self) -> tuple[Mistake, ...]:
        """All that keeps it from being used, in file order."""
        return self.slips or self.contradictions

    @property
    def sound(self) -> bool:
        """Whether jobs can be planned by it."""
        return self.sheet is not None and not self.contradictions

    def at(self, path: TomlPath) -> Any:
        """What the file says at a path; None where it says nothing."""
        found: Any = self.document
        for step in path:
            match found, step:
                case dict(), str() if step in found:
                    found = found[step]
                case list(), int() if step < len(found):
                    found = found[step]
                case _:
                    return None
        return found

    def with_value(self, path: TomlPath, value: object) -> SheetDraft:
        """Write one key; tables on the way to it that aren't there yet are made.

        Raises InputError where the result would be no TOML that may be read.
        """

        def write(document: Any, there: TomlPath) -> None:
            _home(document, there[:-1])[there[-1]] = value

        return self._changed(path, write)

    def with_entry(self, path: TomlPath, entry: Mapping[str, object]) -> SheetDraft:
        """Add an entry at the end of the list at a path."""

        def add(document: Any, there: TomlPath) -> None:
            home, key = _home(document, there[:-1]), there[-1]
            if key not in home:
                # Within an entry a list is written in brackets, a line each, so that the entry stays together.
                home[key] = tomlkit.aot() if len(there) == 1 else tomlkit.array().multiline(multiline=True)
            rows = home[key]
            made = tomlkit.table() if isinstance(rows, AoT) else tomlkit.inline_table()
            made.update(entry)
            if isinstance(rows, AoT) and not (rows and rows[-1].as_string().endswith("\n\n")):
                # A blank line keeps the entries of a file apart, as a person writes them.
                made.trivia.indent = "\n"
            rows.append(made)

        return self._changed(path, add)

    def without(self, path: TomlPath) -> SheetDraft:
        """Take out a key, or an entry of a list; a list without entries goes with its last one."""

        def take_out(document: Any, there: TomlPath) -> None:
            home = _home(document, there[:-1])
            if isinstance(there[-1], str):
                home.pop(there[-1], None)
                return
            del home[there[-1]]
            if not len(home):
                _home(document, there[:-2]).pop(there[-2])

        return self._changed(path, take_out)

    def _changed(self, path: TomlPath, change: Callable[[Any, TomlPath], None]) -> SheetDraft:
        """Apply a change to the document that keeps comments, and read the outcome.

        Such a document takes long to make of a long text, so only the entry that the path leads into is made one.
        """
        lines = self.text.splitlines(keepends=True)
        first, last, path = self._stretch(path, lines)
        document = tomlkit.parse("".join(lines[first:last]))
        change(document, path)
        return sheet_draft("".join((*lines[:first], tomlkit.dumps(document), *lines[last:])), self.file)

    def _stretch(self, path: TomlPath, lines: list[str]) -> tuple[int, int, TomlPath]:
        """From which line up to which the entry stands that a path leads into, and the path within it."""
        listed = len(path) > 1 and isinstance(path[1], int)
        entry, within_it = (path[:2], path[2:]) if listed else (path[:1], path[1:])
        heads = positions(self.text)
        start = heads.get(entry)
        whole = 0, len(lines), path
        if start is None or not within_it or not lines[start - 1].lstrip().startswith("["):
            return whole
        own = [line for place, line in heads.items() if place[: len(entry)] == entry]
        others = [line for place, line in heads.items() if place[: len(entry)] != entry]
        end = min((line for line in others if line > start), default=len(lines) + 1)
        # An entry whose parts stand apart is changed as part of the whole.
        if not all(start <= line < end for line in own):
            return whole
        return start - 1, end - 1, (entry[0], 0, *within_it) if listed else path

    def save(self) -> None:
        """Write the file whole or not at all: a temporary sibling takes its place."""
        write_whole(Path(self.file), self.text)


def sheet_draft(text: str, file: str) -> SheetDraft:
    """Make a draft of a sheet's text; `file` names it in messages.

    Raises InputError where the text is no TOML; every other mistake is part of the draft.
    """
    data = parse_toml(text, file)
    try:
        sheet = validate(Sheet, data, file, text)
    except InputError as error:
        return SheetDraft(file, text, data, None, slips=error.mistakes)
    return SheetDraft(file, text, data, sheet, contradictions=located(file, text, disagreements(sheet)))


def read_sheet_draft(path: Path) -> SheetDraft:
    """Read the file of a sheet that may be unfinished.

    Raises InputError where it can't be read or is no TOML.
    """
    _, text = read_toml(path)
    return sheet_draft(text, str(path))


def within(mistake: Mistake, path: TomlPath) -> bool:
    """Whether a mistake lies at a path or below it."""
    place = dotted(path)
    return not place or mistake.key == place or mistake.key.startswith(f"{place}.")


def _home(document: Any, path: TomlPath) -> Any:
    """The table or list at a path, made where a table is missing on the way."""
    home = document
    for step in path:
        if isinstance(step, str) and step not in home:
            home[step] = tomlkit.inline_table() if len(path) > 1 else tomlkit.table()
        home = home[step]
    return home
