"""`hoodwright completion SHELL`: complete commands, options and file names in a shell."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from wizard.commands.command import Command
from wizard.diagnostics import ExitCode
from wizard.output import print_bytes

if TYPE_CHECKING:
    from collections.abc import Mapping

SHELLS = ("bash", "zsh", "tcsh")
FILES = ("JOB", "SHEET", "FILE", "FILE|DIR")
"""Names of arguments that are files."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("shell", metavar="SHELL", choices=SHELLS, help=", ".join(SHELLS))


def _run(arguments: argparse.Namespace) -> int:
    import shtab  # noqa: PLC0415

    from wizard.cli import build_parser  # noqa: PLC0415

    parser = build_parser()
    _mark_files(parser, shtab.FILE)
    print_bytes(f"{shtab.complete(parser, arguments.shell)}\n".encode())
    return ExitCode.SOUND


def _mark_files(parser: argparse.ArgumentParser, files: Mapping[str, object]) -> None:
    """Tell the completion which arguments are files."""
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for part in action.choices.values():
                _mark_files(part, files)
        elif action.metavar in FILES:
            action.complete = files  # type: ignore[attr-defined]


COMMAND = Command(
    name="completion",
    summary="print what makes a shell complete commands, options and files",
    description=(
        "Print a script for your shell. Loaded once, the tabulator key completes commands, options and file names."
    ),
    examples=(
        ('eval "$(hoodwright completion bash)"', "in ~/.bashrc"),
        ("hoodwright completion zsh > ~/.zfunc/_hoodwright", "a folder of zsh's fpath"),
    ),
    arguments=_arguments,
    run=_run,
)
