"""A job as its file writes it: read, changed by edits, saved with its comments kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from schedules.errors import InputError
from schedules.files.toml_reading import parse_toml, read_toml
from schedules.files.validation import located, shown, validate
from schedules.files.whole_file import write_whole
from schedules.job.records import Job

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.files.toml_positions import TomlPath
    from schedules.findings import Edit

ROW_KEYS = {
    "run": "cable",
    "place": "enclosure",
    "raceway": "tag",
    "circuit": "circuit",
    "nameplate": "load",
    "bundle": "tag",
    "stock": "tag",
    "box": "enclosure",
    "framing": "tag",
    "amendment": "rule",
    "as_built": "cable",
    "acknowledged": "finding",
    "tested": "test",
    "wall": "tag",
    "cabinet": "tag",
    "keep_out": "tag",
    "stud": "tag",
    "space": "enclosure",
    "fitting": "tag",
    "step": "step",
}
"""The key that tells the entries of each repeated table apart."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A job file's text and the record it gives. Changing it makes another one."""

    file: str
    text: str
    job: Job

    def edited(self, edits: Iterable[Edit]) -> Draft:
        """Apply edits to the text.

        Raises InputError where the result would be no job.
        """
        # Loaded where a job is changed, for a check changes none.
        from schedules.job.editing import edited_text  # noqa: PLC0415

        return draft_from_text(edited_text(self.text, edits), self.file)

    @property
    def sheet_path(self) -> Path:
        """The equipment sheet's file: the job names it relative to itself."""
        return Path(self.file).parent / self.job.job.sheet

    def save(self) -> None:
        """Write the file whole or not at all: a temporary sibling takes its place."""
        write_whole(Path(self.file), self.text)


def read_draft(path: Path) -> Draft:
    """Read a job file.

    Raises InputError with every mistake.
    """
    data, text = read_toml(path)
    return _draft(data, text, str(path))


def draft_from_text(text: str, file: str) -> Draft:
    """Read a job from text; `file` names it in messages.

    Raises InputError with every mistake.
    """
    return _draft(parse_toml(text, file), text, file)


def _draft(data: Mapping[str, Any], text: str, file: str) -> Draft:
    """Make a draft of TOML data. Two entries about one thing are refused: no rule says which of them was meant."""
    job = validate(Job, data, file, text)
    repeated = tuple(_repeated(job))
    if repeated:
        raise InputError(located(file, text, repeated))
    return Draft(file, text, job)


def _repeated(job: Job) -> Iterator[tuple[TomlPath, str, str]]:
    for table, key in ROW_KEYS.items():
        seen: set[str] = set()
        for number, entry in enumerate(getattr(job, table)):
            name: str = getattr(entry, key)
            if name in seen:
                yield (table, number, key), shown(name), f"one {table} of this {key}; there is one above"
            seen.add(name)
