"""The program `hoodwright`."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from wizard.cli import run_command
from wizard.diagnostics import guarded

if TYPE_CHECKING:
    from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command line and give its exit status."""
    words = tuple(sys.argv[1:] if arguments is None else arguments)
    return guarded(lambda: run_command(words))


if __name__ == "__main__":
    sys.exit(main())
