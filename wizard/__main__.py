"""The program `hoodwright`."""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING

from wizard.cli import run_command
from wizard.diagnostics import guarded

if TYPE_CHECKING:
    from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command line and give its exit status."""
    words = tuple(sys.argv[1:] if arguments is None else arguments)
    # A command is over before looking for garbage would pay; the wizard, which stays, turns it on again.
    collecting = gc.isenabled()
    gc.disable()
    try:
        return guarded(lambda: run_command(words))
    finally:
        if collecting:
            gc.enable()


if __name__ == "__main__":
    sys.exit(main())
