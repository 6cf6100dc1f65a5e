"""Where each key of a TOML text stands, so that a mistake in a value can name its line."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass

from schedules.text import printable

TomlPath = tuple[str | int, ...]
Positions = dict[TomlPath, int]


class NestingError(ValueError):
    """A key lies deeper than was allowed. line: 1-based. path: as far as allowed."""

    def __init__(self, line: int, path: TomlPath) -> None:
        super().__init__(f"line {line}: nested deeper than {len(path)} levels")
        self.line = line
        self.path = path


def positions(text: str, deepest: int | None = None) -> Positions:
    """The 1-based line of every key and array element, by path: `("device", 0, "terminals", 3, "clamp")`.

    text: what tomllib accepts; other text gives a wrong answer or ValueError, and always ends. deepest:
    the most parts a path may have, None for any. Raises NestingError for a longer one.
    """
    return _Scanner(text, deepest).scan()


def line_of(lines: Positions, path: TomlPath) -> int | None:
    """The line of a path, or of the innermost thing around it where it is itself missing."""
    for length in range(len(path), 0, -1):
        line = lines.get(path[:length])
        if line is not None:
            return line
    return None


def dotted(path: TomlPath) -> str:
    """A path as a message shows it: `cable.2.length`, elements counted from 1 as a person counts."""
    return ".".join(str(part + 1) if isinstance(part, int) else printable(part) for part in path)


_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
# Each alternative starts differently and none gives back what it took, so that no text takes long.
_STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"{1,2}(?!"))*+"{3,5}'
    r"|'''(?:[^']|'{1,2}(?!'))*+'{3,5}"
    r'|"(?!"")(?:[^"\\\n]|\\.)*+"'
    r"|'(?!'')[^'\n]*+'",
    re.DOTALL,
)
_BLANKS = re.compile(r"[ \t]*+")
_TRIVIA = re.compile(r"(?:[ \t\n]++|#[^\n]*+)*+")
_TRIVIA_AND_COMMAS = re.compile(r"(?:[ \t\n,]++|#[^\n]*+)*+")
_SCALAR = re.compile(r"[^,\]}#\n]++")


@dataclass(slots=True)
class _Open:
    """An array or inline table whose end has not been reached."""

    path: TomlPath
    is_array: bool
    count: int = 0


class _Scanner:
    """One pass over the text. It keeps its own stack: nesting can't exhaust the interpreter's."""

    def __init__(self, text: str, deepest: int | None) -> None:
        self._text = text.replace("\r\n", "\n")
        self._deepest = deepest
        self._at = 0
        self._line = 1
        self._counted_to = 0
        self._lines: Positions = {}
        # How many tables each array of tables has so far.
        self._tables: dict[TomlPath, int] = {}

    def scan(self) -> Positions:
        table: TomlPath = ()
        self._skip(_TRIVIA)
        while self._at < len(self._text):
            if self._take("[["):
                table = self._array_header()
            elif self._take("["):
                table = self._place((), self._keys())
                self._expect("]")
            else:
                self._value(self._key_and_equals(table))
            self._skip(_TRIVIA)
        return self._lines

    def _array_header(self) -> TomlPath:
        keys = self._keys()
        self._expect("]]")
        around = self._within((), keys[:-1])
        array = (*around, keys[-1])
        self._lines.setdefault(array, self._line_here())
        index = self._tables.get(array, 0)
        self._tables[array] = index + 1
        table = (*array, index)
        self._record(table)
        return table

    def _place(self, base: TomlPath, keys: tuple[str, ...]) -> TomlPath:
        """Record a key and whatever tables its dots imply."""
        path = (*self._within(base, keys[:-1]), keys[-1])
        self._record(path)
        return path

    def _within(self, base: TomlPath, keys: tuple[str, ...]) -> TomlPath:
        """The path that keys lead to: an array of tables stands for its last table."""
        path = base
        for key in keys:
            path = (*path, key)
            self._check_depth(path)
            self._lines.setdefault(path, self._line_here())
            count = self._tables.get(path)
            if count is not None:
                path = (*path, count - 1)
        return path

    def _key_and_equals(self, base: TomlPath) -> TomlPath:
        path = self._place(base, self._keys())
        self._expect("=")
        return path

    def _value(self, path: TomlPath) -> None:
        unfinished: list[_Open] = []
        self._enter(path, unfinished)
        while unfinished:
            self._skip(_TRIVIA_AND_COMMAS)
            around = unfinished[-1]
            if self._take("]" if around.is_array else "}"):
                unfinished.pop()
            elif around.is_array:
                element = (*around.path, around.count)
                around.count += 1
                self._record(element)
                self._enter(element, unfinished)
            else:
                self._enter(self._key_and_equals(around.path), unfinished)

    def _enter(self, path: TomlPath, unfinished: list[_Open]) -> None:
        self._skip(_BLANKS)
        if self._take("["):
            unfinished.append(_Open(path, is_array=True))
        elif self._take("{"):
            unfinished.append(_Open(path, is_array=False))
        else:
            scalar = _STRING.match(self._text, self._at) or _SCALAR.match(self._text, self._at)
            if scalar is None:
                raise self._not_toml()
            self._at = scalar.end()

    def _keys(self) -> tuple[str, ...]:
        keys = [self._key()]
        while self._take("."):
            keys.append(self._key())
        return tuple(keys)

    def _key(self) -> str:
        self._skip(_BLANKS)
        match = _BARE_KEY.match(self._text, self._at) or _STRING.match(self._text, self._at)
        if match is None:
            raise self._not_toml()
        self._at = match.end()
        self._skip(_BLANKS)
        written = match[0]
        if written[0] not in "\"'":
            return written
        # tomllib knows the escapes; a second copy of its table here could drift.
        return next(iter(tomllib.loads(f"{written}=0"))) if "\\" in written else written[1:-1]

    def _record(self, path: TomlPath) -> None:
        self._check_depth(path)
        self._lines[path] = self._line_here()

    def _check_depth(self, path: TomlPath) -> None:
        if self._deepest is not None and len(path) > self._deepest:
            raise NestingError(self._line_here(), path[: self._deepest])

    def _line_here(self) -> int:
        self._line += self._text.count("\n", self._counted_to, self._at)
        self._counted_to = self._at
        return self._line

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self._text, self._at)
        if match is not None:
            self._at = match.end()

    def _take(self, token: str) -> bool:
        found = self._text.startswith(token, self._at)
        if found:
            self._at += len(token)
        return found

    def _expect(self, token: str) -> None:
        if not self._take(token):
            raise self._not_toml()

    def _not_toml(self) -> ValueError:
        return ValueError(f"line {self._line_here()}: not TOML")
