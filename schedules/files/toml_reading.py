"""TOML from a person who may be careless or hostile: read once, every fault named with its place."""

from __future__ import annotations

import math
import os
import re
import stat
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from schedules.errors import InputError, Mistake
from schedules.files.toml_positions import NestingError, dotted, line_of, positions
from schedules.text import printable, refuse_hostile

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.files.toml_positions import TomlPath

LARGEST_BYTES = 4 * 1024 * 1024
DEEPEST = 32

_LEAST_INTEGER, _GREATEST_INTEGER = -(2**63), 2**63 - 1

_DEPTH_ALLOWED = f"at most {DEEPEST} levels of tables and arrays"
_HOSTILE_ALLOWED = "visible characters, spaces and, inside a text, tabs and line ends"

# tomllib's time grows with the square of a key's parts, so a key this long never reaches it.
_LONG_DOTTED_KEY = re.compile(
    r"(?<![A-Za-z0-9_-])"
    rf"""(?:(?:[A-Za-z0-9_-]++|"(?:[^"\\\n]|\\.)*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){{{DEEPEST}}}"""
)
# Python refuses to convert more decimal digits than 4,300.
_LONG_INTEGER = re.compile(r"[0-9_]{4000}")
_SYNTAX_PLACE = re.compile(r" \(at (?:line (?P<line>[0-9]+), column [0-9]+|end of document)\)$")


def read_toml(path: str | os.PathLike[str]) -> tuple[dict[str, Any], str]:
    """A TOML file's document and its text, as it stands but for a byte order mark.

    Raises InputError for no readable file, over 4 MiB, not UTF-8, and all that parse_toml refuses.
    """
    file = printable(os.fspath(path), limit=200)
    text = _decoded(_read_bytes(Path(path), file), file)
    return parse_toml(text, file), text


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """A TOML text's document; `file` names it in messages.

    Line ends and tabs are let through in every string: a field of one line refuses them itself. Raises
    InputError for text that is not TOML or nested deeper than 32 levels, and, every one found, for
    hostile characters, integers beyond 64 bits and numbers that are not finite.
    """
    document = _parsed(text, file)
    mistakes = _value_mistakes(document, text, file) or _comment_mistakes(text, file)
    if mistakes:
        raise InputError(tuple(sorted(mistakes, key=lambda mistake: mistake.line or 0)))
    return document


def _read_bytes(path: Path, file: str) -> bytes:
    try:
        mode = path.stat().st_mode
        if not stat.S_ISREG(mode):
            kind = "a directory" if stat.S_ISDIR(mode) else "something that is not a file"
            raise _one(file, None, kind, "a TOML file")
        with path.open("rb") as stream:
            content = stream.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise _one(file, None, "no such file", "a TOML file") from None
    except OSError as error:
        found = f"a file that can't be read: {error.strerror}"
        raise _one(file, None, found, "a readable TOML file") from None
    except ValueError:
        # The operating system takes no name with a null character.
        raise _one(file, None, "no file name", "a TOML file") from None
    if len(content) > LARGEST_BYTES:
        raise _one(file, None, "more than 4 MiB", "at most 4 MiB")
    return content


def _decoded(content: bytes, file: str) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise _one(file, line, f"byte 0x{content[error.start]:02x}", "UTF-8 text") from None


def _parsed(text: str, file: str) -> dict[str, Any]:
    if _LONG_DOTTED_KEY.search(text):
        _refuse_deep(text, file)
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_error(str(error), text, file) from None
    except RecursionError:
        _refuse_deep(text, file)
        raise _one(file, None, "nesting too deep to read", _DEPTH_ALLOWED) from None
    except ValueError:
        long_integer = _LONG_INTEGER.search(text)
        line = None if long_integer is None else text.count("\n", 0, long_integer.start()) + 1
        raise _one(file, line, "a number with thousands of digits", "an integer of 64 bits") from None
    if any(len(path) > DEEPEST for path, _ in _parts(document)):
        _refuse_deep(text, file)
    return document


def _refuse_deep(text: str, file: str) -> None:
    try:
        positions(text, deepest=DEEPEST)
    except NestingError as error:
        found = "a table or array nested deeper"
        raise InputError((Mistake(file, error.line, dotted(error.path), found, _DEPTH_ALLOWED),)) from None
    except ValueError:
        # Not TOML at all. The parser says so in better words wherever it can be let near the text.
        if _LONG_DOTTED_KEY.search(text):
            raise _one(file, None, "a key of too many parts in text that is not TOML", "TOML") from None


def _syntax_error(message: str, text: str, file: str) -> InputError:
    place = _SYNTAX_PLACE.search(message)
    line = int(place["line"]) if place and place["line"] else text.count("\n") + 1
    reason = _SYNTAX_PLACE.sub("", message)
    return _one(file, line, f"text that is not TOML: {printable(reason, limit=200)}", "TOML 1.0")


def _parts(document: dict[str, Any]) -> Iterator[tuple[TomlPath, Any]]:
    """Every key and array element with its path, in the file's order; none below the first too deep."""
    waiting: list[tuple[TomlPath, Any]] = [((), document)]
    while waiting:
        path, value = waiting.pop()
        if path:
            yield path, value
        if len(path) > DEEPEST:
            continue
        if isinstance(value, dict):
            waiting.extend(((*path, key), inner) for key, inner in reversed(value.items()))
        elif isinstance(value, list):
            waiting.extend(((*path, index), value[index]) for index in reversed(range(len(value))))


def _value_mistakes(document: dict[str, Any], text: str, file: str) -> list[Mistake]:
    faults = [(path, fault) for path, value in _parts(document) for fault in _faults(path[-1], value)]
    if not faults:
        return []
    lines = positions(text)
    return [
        Mistake(file, line_of(lines, path), dotted(path), found, allowed) for path, (found, allowed) in faults
    ]


def _faults(key: str | int, value: object) -> Iterator[tuple[str, str]]:
    """What is wrong with one key or its own value: found, allowed."""
    if isinstance(key, str) and (hostile := refuse_hostile(key)):
        yield f"{hostile} in the key", "a key of visible characters and spaces"
    if isinstance(value, str) and (hostile := refuse_hostile(value, multi_line=True)):
        yield hostile, _HOSTILE_ALLOWED
    if isinstance(value, int) and not _LEAST_INTEGER <= value <= _GREATEST_INTEGER:
        yield "an integer beyond 64 bits", f"{_LEAST_INTEGER} to {_GREATEST_INTEGER}"
    if isinstance(value, float) and not math.isfinite(value):
        yield str(value), "a finite number"


def _comment_mistakes(text: str, file: str) -> list[Mistake]:
    """Hostile characters outside the values: in a comment they can make a value look like another."""
    return [
        Mistake(file, number, "", f"{hostile} in a comment", _HOSTILE_ALLOWED)
        for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1)
        if (hostile := refuse_hostile(line, multi_line=True))
    ]


def _one(file: str, line: int | None, found: str, allowed: str) -> InputError:
    return InputError((Mistake(file, line, "", found, allowed),))
