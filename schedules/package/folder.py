"""Put a package's files in place: all of them or none."""

from __future__ import annotations

import hashlib
import os
import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.errors import InputError, Mistake
from schedules.package.record import NAME, read_record
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.package.record import Record

_PART = ".part"


def refuse_occupied(folder: Path, *, replace: bool) -> None:
    """Raise InputError where a package can't go into this folder.

    replace: an earlier package may give way, as long as nothing else, and nothing that a person changed since, is in
    the folder.
    """
    if not os.path.lexists(folder):
        if not folder.parent.is_dir():
            raise _refused(folder.parent, "no folder of this name", "a folder that is there")
        return
    if not folder.is_dir():
        raise _refused(folder, "a file of this name", "a new folder")
    if not any(folder.iterdir()):
        return
    if not replace:
        # Only an earlier package can be replaced.
        force = ", or --force" if (folder / NAME).is_file() else ""
        raise _refused(folder, "a folder that has files already", f"a new or an empty folder{force}")
    if not (folder / NAME).is_file():
        raise _refused(
            folder, "files that are no package's", "a new folder, or one that an earlier package is in"
        )
    strangers = tuple(_strangers(folder, read_record(folder)))
    if strangers:
        allowed = "only the earlier package's own files there: move this one away first"
        raise InputError(tuple(Mistake(_shown(path), None, "", words, allowed) for path, words in strangers))


def put(folder: Path, contents: Mapping[str, bytes], *, replace: bool) -> None:
    """Write a package into a folder that isn't there yet, is empty, or has an earlier package that may give way.

    Whatever happens meanwhile, the folder holds the whole package, or what it held before. Raises InputError.
    """
    target = Path(os.path.realpath(folder))
    refuse_occupied(target, replace=replace)
    try:
        new = Path(tempfile.mkdtemp(dir=target.parent, prefix=f".{target.name}.", suffix=_PART))
        try:
            _fill(new, contents)
            _take_place(new, target)
        finally:
            shutil.rmtree(new, ignore_errors=True)
    except OSError as error:
        raise _refused(folder, error.strerror or str(error), "a place that can be written") from error


def _fill(folder: Path, contents: Mapping[str, bytes]) -> None:
    for name, data in contents.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
    mask = os.umask(0)
    os.umask(mask)
    os.chmod(folder, 0o777 & ~mask)


def _take_place(new: Path, target: Path) -> None:
    """Put the new folder in the old one's place; what was there is only removed when the new one stands."""
    if not target.exists():
        new.rename(target)
        return
    old = Path(tempfile.mkdtemp(dir=target.parent, prefix=f".{target.name}.", suffix=".old"))
    moved = old / target.name
    target.rename(moved)
    try:
        new.rename(target)
    except OSError:
        moved.rename(target)
        old.rmdir()
        raise
    shutil.rmtree(old, ignore_errors=True)


def _strangers(folder: Path, record: Record) -> list[tuple[Path, str]]:
    found = []
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_symlink():
            found.append((path, "a link"))
        elif path.is_dir() or name == NAME:
            continue
        elif name not in record.files:
            found.append((path, "a file that the earlier package didn't have"))
        elif hashlib.sha256(path.read_bytes()).hexdigest() != record.files[name]:
            found.append((path, "a file that was changed since the earlier package"))
    return found


def _refused(path: Path, found: str, allowed: str) -> InputError:
    return InputError((Mistake(_shown(path), None, "", found, allowed),))


def _shown(path: Path) -> str:
    return printable(str(path), limit=200)
