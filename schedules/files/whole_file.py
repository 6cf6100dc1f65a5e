"""Write a file whole or not at all."""

from __future__ import annotations

import contextlib
import errno
import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.errors import InputError, Mistake
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Mapping

NEW_FILE_MODE = 0o666


def write_whole(path: Path, content: str | bytes) -> None:
    """Replace a file in one step, so that a crash leaves the old or the new one, never half.

    Raises InputError where the place can't be written.
    """
    write_all({path: content}, replace=True)


def write_all(contents: Mapping[Path, str | bytes], *, replace: bool) -> None:
    """Write several files; none takes its place before all of them are on the disk.

    Raises InputError where one can't be written or, unless they may be replaced, is there already.
    """
    if not replace:
        _refuse_existing(contents)
    waiting: dict[Path, Path] = {}
    try:
        for path, content in contents.items():
            # What a link points to is replaced, not the link.
            target = Path(os.path.realpath(path))
            try:
                # A folder would not give way, and only the last step would tell.
                if target.is_dir():
                    raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
                waiting[target] = _sibling(target, content)
            except OSError as error:
                raise _unwritable(path, error) from error
        for target in list(waiting):
            try:
                os.replace(waiting[target], target)
            except OSError as error:
                raise _unwritable(target, error) from error
            del waiting[target]
    finally:
        for sibling in waiting.values():
            sibling.unlink(missing_ok=True)


def _refuse_existing(contents: Mapping[Path, str | bytes]) -> None:
    there = [path for path in contents if os.path.lexists(path)]
    if there:
        raise InputError(
            tuple(
                Mistake(
                    printable(str(path), limit=200), None, "", "a file that is there already", "a new file"
                )
                for path in there
            )
        )


def _sibling(target: Path, content: str | bytes) -> Path:
    """Write a temporary file beside the target, with the target's access rights."""
    data = content.encode() if isinstance(content, str) else content
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, _mode(target))
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise
    return Path(name)


def _mode(target: Path) -> int:
    if target.exists():
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return NEW_FILE_MODE & ~mask


def _unwritable(path: Path, error: OSError) -> InputError:
    reason = error.strerror or str(error)
    return InputError(
        (Mistake(printable(str(path), limit=200), None, "", reason, "a place that can be written"),)
    )
