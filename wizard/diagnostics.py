"""The one owner of standard error and of the exit status: what went wrong, in words, one line per mistake."""

from __future__ import annotations

import os
import sys
from enum import IntEnum
from typing import TYPE_CHECKING

from schedules.errors import InputError
from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Callable

PROGRAM = "hoodwright"
TRACEBACK = "HOODWRIGHT_TRACEBACK"
"""Environment variable that asks for the whole traceback of a fault of the program's own."""


class ExitCode(IntEnum):
    """What the program tells the shell."""

    SOUND = 0
    FINDINGS = 1
    REFUSED = 2
    OWN_FAULT = 70
    INTERRUPTED = 130
    BROKEN_PIPE = 141

    @property
    def meaning(self) -> str:
        """What the status says, in words."""
        return _MEANINGS[self]


_MEANINGS = {
    ExitCode.SOUND: "done; no finding stops the work or is to be put right before cover",
    ExitCode.FINDINGS: "done; the plan has such findings",
    ExitCode.REFUSED: "not done: bad input, named on standard error; nothing was written",
    ExitCode.OWN_FAULT: "not done: a fault of the program itself",
    ExitCode.INTERRUPTED: "interrupted from the keyboard",
    ExitCode.BROKEN_PIPE: "whoever read the output stopped reading",
}


class RefusedError(Exception):
    """What was asked can't be done. Carries one line per reason."""

    def __init__(self, *reasons: str) -> None:
        super().__init__("\n".join(reasons))
        self.reasons = reasons


def guarded(run: Callable[[], int]) -> int:
    """Run a command; whatever goes wrong becomes lines on standard error and an exit status, never a traceback."""
    _tolerate_any_encoding()
    try:
        return _run(run)
    except BrokenPipeError:
        _leave_pipe()
        return ExitCode.BROKEN_PIPE
    except KeyboardInterrupt:
        return ExitCode.INTERRUPTED


def warn(line: str) -> None:
    """Say one thing on standard error."""
    print(for_terminal(line), file=sys.stderr, flush=True)


def _run(run: Callable[[], int]) -> int:
    try:
        code = _status_of(run)
        # What is still in the buffer fails here, where it can be told, and not while the interpreter ends.
        sys.stdout.flush()
    except InputError as error:
        for mistake in error.mistakes:
            warn(str(mistake))
    except RefusedError as error:
        for reason in error.reasons:
            warn(reason)
    except BrokenPipeError:
        raise
    except OSError as error:
        _leave_pipe()
        warn(f"{PROGRAM}: {error.filename or 'output'}: {error.strerror or error}")
    except Exception as error:
        if os.environ.get(TRACEBACK):
            raise
        _tell_own_fault(error)
        return ExitCode.OWN_FAULT
    else:
        return code
    return ExitCode.REFUSED


def _status_of(run: Callable[[], int]) -> int:
    try:
        return run()
    except SystemExit as asked:
        # argparse ends so after --help and --version.
        return asked.code if isinstance(asked.code, int) else ExitCode.SOUND


def _tell_own_fault(error: Exception) -> None:
    place = error.__traceback__
    while place is not None and place.tb_next is not None:
        place = place.tb_next
    where = ""
    if place is not None:
        frame = place.tb_frame
        where = f" in {frame.f_globals.get('__name__')}.{frame.f_code.co_name}, line {place.tb_lineno}"
    warn(f"{PROGRAM}: a fault of the program itself: {type(error).__name__}{where}: {error}")
    warn(f"{PROGRAM}: please report it with the files that you gave; {TRACEBACK}=1 shows where it comes from")


def _tolerate_any_encoding() -> None:
    """A terminal that lacks a sign shows its escape instead of ending the program."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def _leave_pipe() -> None:
    """Let the interpreter's last flush go nowhere instead of failing again."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
