"""`package.json`: what a package said and which files it has, so that the next one can tell what changed."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from schedules.errors import InputError, Mistake
from schedules.package.revisions import PrintedTable
from schedules.text import printable, refuse_hostile
from schedules.version import __version__
from schedules.writers.data import as_json

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from schedules.writers.document import Stamp

NAME = "package.json"
FORMAT = "hoodwright-package"
VERSION = 1
_LARGEST_BYTES = 64 * 1024 * 1024
_ALLOWED = f"a package's {NAME}, {FORMAT} version {VERSION}"


@dataclass(frozen=True, slots=True)
class Record:
    """What a package said. files: digest of each file's bytes (SHA-256), by its path inside the package."""

    job: str
    revision: str
    date: str
    code: str
    tables: Mapping[str, PrintedTable]
    findings: PrintedTable
    files: Mapping[str, str]


def record_bytes(
    stamp: Stamp,
    tables: Mapping[str, PrintedTable],
    findings: PrintedTable,
    contents: Mapping[str, bytes],
) -> bytes:
    """The record of a package with these files."""
    return as_json(
        {
            "format": FORMAT,
            "version": VERSION,
            "program": f"hoodwright {__version__}",
            "job": stamp.job,
            "revision": stamp.revision,
            "date": stamp.date,
            "contents": stamp.code,
            "findings": _table(findings),
            "schedules": {name: _table(item) for name, item in tables.items()},
            "files": {path: hashlib.sha256(data).hexdigest() for path, data in contents.items()},
        }
    )


def read_record(folder: Path) -> Record:
    """Read the record of the package in a folder.

    Raises InputError where there is none, or one that can't be used.
    """
    file = folder / NAME
    try:
        if file.stat().st_size > _LARGEST_BYTES:
            raise _refused(file, "a file that is too large")
        text = file.read_text(encoding="utf-8")
        document = json.loads(text)
    except OSError as error:
        raise _refused(file, error.strerror or str(error)) from error
    except (ValueError, RecursionError) as error:
        raise _refused(file, "no JSON") from error
    try:
        if (document["format"], document["version"]) != (FORMAT, VERSION):
            raise _refused(file, "another format")
        return Record(
            job=_text(document["job"]),
            revision=_text(document["revision"]),
            date=_text(document["date"]),
            code=_text(document["contents"]),
            tables={_text(name): _read_table(item) for name, item in document["schedules"].items()},
            findings=_read_table(document["findings"]),
            files={_text(path): _text(digest) for path, digest in document["files"].items()},
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise _refused(file, "a file that lacks something or has it in another form") from error


def _table(printed: PrintedTable) -> dict[str, Any]:
    return {
        "title": printed.title,
        "rows": [{"key": list(key), "cells": cells} for key, cells in printed.rows.items()],
    }


def _read_table(item: Any) -> PrintedTable:
    rows = {
        tuple(map(_text, row["key"])): {_text(head): _text(cell) for head, cell in row["cells"].items()}
        for row in item["rows"]
    }
    if any(not key for key in rows):
        raise ValueError("a row without a key")
    return PrintedTable(_text(item["title"]), rows)


def _text(value: Any) -> str:
    if not isinstance(value, str) or refuse_hostile(value) is not None:
        raise TypeError("no line of text")
    return value


def _refused(file: Path, found: str) -> InputError:
    return InputError((Mistake(printable(str(file), limit=200), None, "", found, _ALLOWED),))
