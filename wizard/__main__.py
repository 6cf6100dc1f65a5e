"""The program `hoodwright`."""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING, NoReturn

from wizard.cli import run_command
from wizard.diagnostics import guarded

if TYPE_CHECKING:
    from collections.abc import Sequence


def main(words: Sequence[str]) -> int:
    """Run one command line, without the program's name, and give its exit status."""
    return guarded(lambda: run_command(words))


def program() -> NoReturn:
    """Run the command line of this process and end it."""
    # A command is over before looking for garbage would pay; the wizard, which stays, turns it on again.
    gc.disable()
    status = main(sys.argv[1:])
    # Nor does a look through everything at the very end, which takes a fifth of the time of a check.
    gc.freeze()
    sys.exit(status)


if __name__ == "__main__":
    program()
