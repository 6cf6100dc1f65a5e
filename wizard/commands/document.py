"""Give a document to whoever asked: printed, or written to a new file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.diagnostics import ExitCode
from wizard.output import print_bytes, print_lines

if TYPE_CHECKING:
    from pathlib import Path


def give(content: bytes, output: Path | None) -> int:
    """Print a document, or write it to a file that isn't there yet."""
    if output is None:
        print_bytes(content)
        return ExitCode.SOUND
    from schedules.files.whole_file import write_all  # noqa: PLC0415

    write_all({output: content}, replace=False)
    print_lines((f"wrote {output}",))
    return ExitCode.SOUND
