"""Job and sheet files that a person may want: those opened lately, and those in the folder."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from schedules.errors import InputError
from schedules.files.toml_reading import read_toml
from schedules.files.whole_file import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator

MOST_FILES = 200
"""Files of one folder that are looked into; a folder with more is not one of jobs."""
MOST_RECENT = 12


@dataclass(frozen=True, slots=True)
class Found:
    """One file: where it is, and its name as it says itself."""

    path: Path
    name: str


def found_jobs(folder: Path) -> tuple[Found, ...]:
    """The jobs lately opened that are still there, then those in the folder and one level below."""
    paths = dict.fromkeys([*_recent_paths(), *_toml_files(folder)])
    return tuple(found for path in paths if (found := _read(path, "job", "sheet")) is not None)


def found_sheets(folder: Path) -> tuple[Found, ...]:
    """The equipment sheets in the folder, one level below, and among the samples."""
    paths = [*_toml_files(folder), *_toml_files(samples() / "sheets")]
    return tuple(found for path in dict.fromkeys(paths) if (found := _read(path, "sheet", "id")) is not None)


def sample_jobs() -> tuple[Found, ...]:
    """The sample jobs that came with the program; none where it was installed without them."""
    return tuple(
        found
        for path in _toml_files(samples() / "jobs")
        if (found := _read(path, "job", "sheet")) is not None
    )


def samples() -> Path:
    """Where the samples are: beside the program's own packages."""
    return Path(__file__).resolve().parent.parent / "samples"


def remember(job: Path) -> None:
    """Put a job at the head of those lately opened. A list that can't be written is no loss."""
    paths = [job.resolve(), *(path for path in _recent_paths() if path != job.resolve())]
    file = _recent_file()
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        write_whole(file, "".join(f"{path}\n" for path in paths[:MOST_RECENT]))
    except (OSError, InputError):
        return


def is_first_start() -> bool:
    """Whether nobody has opened a job here yet."""
    return not _recent_file().exists()


def _recent_file() -> Path:
    state = os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state"
    return Path(state) / "hoodwright" / "recent"


def _recent_paths() -> list[Path]:
    try:
        lines = _recent_file().read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return []
    return [Path(line) for line in lines[:MOST_RECENT] if line and Path(line).is_file()]


def _toml_files(folder: Path) -> Iterator[Path]:
    try:
        files = sorted([*folder.glob("*.toml"), *folder.glob("[!.]*/*.toml")])
    except OSError:
        return
    yield from (path.resolve() for path in files[:MOST_FILES])


def _read(path: Path, table: str, key: str) -> Found | None:
    """A file's name for itself, None where it is of another kind or can't be read."""
    try:
        data, _ = read_toml(path)
    except InputError:
        return None
    title: Any = data.get(table)
    if not isinstance(title, dict) or not isinstance(title.get(key), str):
        return None
    name = title.get("name")
    return Found(path, name if isinstance(name, str) else path.name)
