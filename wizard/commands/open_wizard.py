"""`hoodwright open [JOB]`, and `hoodwright [JOB]`: the full-screen wizard."""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command
from wizard.diagnostics import RefusedError
from wizard.output import in_browser

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "job", metavar="JOB", type=Path, nargs="?", help="the job's file, .toml; without it the wizard asks"
    )


def _run(arguments: argparse.Namespace) -> int:
    return open_wizard(job=arguments.job)


def open_wizard(*, job: Path | None = None, sheet: Path | None = None) -> int:
    """Open the full-screen program; its exit status. Raises RefusedError where there is no terminal."""
    if not (in_browser() or (sys.stdin.isatty() and sys.stdout.isatty())):
        raise RefusedError(
            "hoodwright: the wizard needs a terminal",
            "hoodwright --help lists the commands that work in a file or pipe",
        )
    from wizard.app import run  # noqa: PLC0415

    gc.enable()
    return run(job, sheet)


COMMAND = Command(
    name="open",
    summary="open the wizard (also without this word: hoodwright [JOB])",
    description="Open the full-screen wizard, with a job or to start one. It is used by keyboard and saves as you go.",
    examples=(
        ("hoodwright", "start or choose a job"),
        ("hoodwright kitchen.toml", "go on with this job"),
    ),
    arguments=_arguments,
    run=_run,
)
