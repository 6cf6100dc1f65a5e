"""What is wrong with what somebody wrote: one mistake each, all of them at once."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake in an input file.

    file: as the person named it. line: 1-based, None where the whole file is meant.
    key: dotted path, e.g. `cable.2.length`. found: what stood there, already made printable.
    allowed: what may stand there, in words.
    """

    file: str
    line: int | None
    key: str
    found: str
    allowed: str

    def __str__(self) -> str:
        where = self.file if self.line is None else f"{self.file}:{self.line}"
        key = f" {self.key}:" if self.key else ""
        return f"{where}:{key} found {self.found}; allowed: {self.allowed}"


class InputError(Exception):
    """An input file can't be used. Carries every mistake found in it, in file order."""

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        super().__init__("\n".join(str(mistake) for mistake in mistakes))
        self.mistakes = mistakes
