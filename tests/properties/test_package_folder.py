"""A package takes its place whole or not at all, whatever happens in between."""

from __future__ import annotations

import hashlib
import json
import os
from typing import TYPE_CHECKING

import pytest

from schedules.errors import InputError
from schedules.package.folder import put
from schedules.package.record import NAME

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

NEW = {"a.txt": b"new a", "inner/b.txt": b"new b", "inner/c.txt": b"new c"}


def with_record(contents: dict[str, bytes]) -> dict[str, bytes]:
    """Contents with the record that tells which files belong to them."""
    table = {"title": "", "rows": []}
    record = {
        "format": "hoodwright-package",
        "version": 1,
        "job": "a job",
        "revision": "1",
        "date": "2026-01-01",
        "contents": "0000-0000",
        "findings": table,
        "schedules": {},
        "files": {name: hashlib.sha256(data).hexdigest() for name, data in contents.items()},
    }
    return contents | {NAME: json.dumps(record).encode()}


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


OLD = with_record({"a.txt": b"old a", "z.txt": b"old z"})


class Interrupted(BaseException):
    """Somebody pressed Ctrl-C."""


@pytest.mark.parametrize("there", [False, True], ids=["new folder", "an earlier package"])
@pytest.mark.parametrize("call", ["fsync", "rename", "mkdir"])
@pytest.mark.parametrize(
    "failure", [OSError(28, "No space left on device"), Interrupted()], ids=["full", "Ctrl-C"]
)
def test_a_failure_at_any_step_leaves_the_old_or_the_new(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    there: bool,
    call: str,
    failure: BaseException,
) -> None:
    real: Callable[..., None] = getattr(os, call)
    for step in range(1, 12):
        home = tmp_path / f"{step}"
        home.mkdir()
        target = home / "out"
        if there:
            put(target, OLD, replace=False)
        left = step

        def failing(*words: object, **more: object) -> None:
            nonlocal left
            left -= 1
            if not left:
                raise failure
            real(*words, **more)

        with monkeypatch.context() as patched:
            patched.setattr(os, call, failing)
            try:
                put(target, with_record(NEW), replace=True)
                ended = True
            except (InputError, Interrupted):
                ended = False
        # A folder under another name is all that may be missing: nothing in it is half.
        found = [path for path in home.iterdir() if not path.name.startswith(".")]
        if target in found:
            assert files_in(target) in (OLD, with_record(NEW))
        else:
            assert not there or [files_in(path) for path in home.rglob("out") if path.is_dir()] == [OLD]
        if ended:
            assert files_in(target) == with_record(NEW)
            assert [path.name for path in home.iterdir()] == ["out"]


def test_nothing_is_left_beside_the_folder(tmp_path: Path) -> None:
    put(tmp_path / "out", OLD, replace=False)
    put(tmp_path / "out", with_record(NEW), replace=True)
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
    assert files_in(tmp_path / "out") == with_record(NEW)


def test_a_link_to_a_folder_is_followed_and_stays(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "out").symlink_to(tmp_path / "real")
    put(tmp_path / "out", OLD, replace=False)
    assert (tmp_path / "out").is_symlink()
    assert files_in(tmp_path / "real") == OLD


def test_a_link_inside_an_earlier_package_is_somebody_s(tmp_path: Path) -> None:
    put(tmp_path / "out", OLD, replace=False)
    (tmp_path / "elsewhere").write_text("mine")
    (tmp_path / "out" / "link").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(InputError, match="found a link"):
        put(tmp_path / "out", with_record(NEW), replace=True)


def test_a_file_in_the_folder_s_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    with pytest.raises(InputError, match="found a file of this name"):
        put(tmp_path / "out", OLD, replace=True)
    assert (tmp_path / "out").read_text() == "mine"


@pytest.mark.parametrize(("there", "offered"), [(NEW, False), (OLD, True)], ids=["other files", "a package"])
def test_replacing_is_offered_for_a_package_alone(
    tmp_path: Path, there: dict[str, bytes], offered: bool
) -> None:
    put(tmp_path / "out", there, replace=False)
    with pytest.raises(InputError, match="allowed: a new or an empty folder") as refused:
        put(tmp_path / "out", OLD, replace=False)
    assert ("--force" in str(refused.value)) is offered


def test_files_can_be_read_by_others_as_the_system_has_it(tmp_path: Path) -> None:
    put(tmp_path / "out", OLD, replace=False)
    (tmp_path / "plain").mkdir()
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "plain").stat().st_mode
