"""The command line: which commands there are, how they are told apart, what their help says.

Nothing here or in `commands` loads more than the standard library before a command runs.
"""

from __future__ import annotations

import argparse
import difflib
import sys
import textwrap
from typing import TYPE_CHECKING, NoReturn

from schedules.version import __version__
from wizard.commands import (
    check,
    combos,
    compare,
    completion,
    deck,
    diagnose,
    draw,
    explain,
    faults,
    job,
    new,
    open_wizard,
    pack,
    plan,
    reach,
    sheet,
    show,
    what_if,
    worksheet,
)
from wizard.diagnostics import PROGRAM, ExitCode, RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from _typeshed import SupportsWrite

    from wizard.commands.command import Command

COMMANDS: tuple[Command, ...] = (
    open_wizard.COMMAND,
    new.COMMAND,
    check.COMMAND,
    show.COMMAND,
    draw.COMMAND,
    pack.COMMAND,
    reach.COMMAND,
    explain.COMMAND,
    compare.COMMAND,
    combos.COMMAND,
    deck.COMMAND,
    faults.COMMAND,
    what_if.COMMAND,
    diagnose.COMMAND,
    worksheet.COMMAND,
    sheet.COMMAND,
    job.COMMAND,
    plan.COMMAND,
    completion.COMMAND,
)

_DESCRIPTION = (
    "From a hood family's equipment sheet and one kitchen's job, hoodwright derives every termination, cable length, "
    "opening, circuit and interlock of a residential range hood with built-in fire suppression, checks them, and "
    "prints the paper that each person on site works from."
)

_EXAMPLES = (
    ("hoodwright", "open the wizard and start or choose a job"),
    ("hoodwright kitchen.toml", "open this job in the wizard"),
    ("hoodwright new kitchen.toml --sheet hood.toml", "start a job from an equipment sheet"),
    ("hoodwright check kitchen.toml", "what is missing or wrong, and what cures it"),
    ("hoodwright show kitchen.toml terminations --enclosure H", "what lands where in enclosure H"),
    ("hoodwright reach kitchen.toml W4", "does cable W4 reach?"),
)


def run_command(words: Sequence[str]) -> int:
    """Run one command line, without the program's name, and give its exit status."""
    arguments = build_parser().parse_args(_with_command(words))
    status: int = arguments.run(arguments)
    return status


def build_parser() -> argparse.ArgumentParser:
    """Build the parser of the whole command line."""
    parser = _Parser(
        prog=PROGRAM,
        usage=f"{PROGRAM} [JOB]\n       {PROGRAM} COMMAND ... [--help]",
        description=_DESCRIPTION,
        epilog=f"{_examples(_EXAMPLES)}\n\n{_exit_statuses()}",
    )
    parser.add_argument("--version", action="version", version=f"{PROGRAM} {__version__}")
    _add_commands(parser, COMMANDS)
    return parser


class _Help(argparse.HelpFormatter):
    """Help whose paragraphs, one line each in the source, are wrapped; lines that begin with a space stay."""

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        lines: list[str] = []
        for line in text.split("\n"):
            lines += [line] if line.startswith(" ") or not line else textwrap.wrap(line, width)
        return "\n".join(f"{indent}{line}" for line in lines)


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints go the way of all others."""

    def __init__(self, **settings: object) -> None:
        super().__init__(formatter_class=_Help, allow_abbrev=False, **settings)  # type: ignore[arg-type]

    def print_help(self, file: SupportsWrite[str] | None = None) -> None:
        # argparse would hide that nobody reads any more.
        (file or sys.stdout).write(self.format_help())

    def error(self, message: str) -> NoReturn:
        raise RefusedError(f"{self.prog}: {message}", f"{self.prog} --help tells more")


def _add_commands(parser: argparse.ArgumentParser, commands: Iterable[Command]) -> None:
    table = parser.add_subparsers(title="commands", prog=parser.prog, metavar="COMMAND", required=True)
    for command in commands:
        part = table.add_parser(
            command.name,
            help=command.summary,
            description=command.description,
            epilog=_examples(command.examples),
        )
        if command.parts:
            _add_commands(part, command.parts)
        else:
            command.arguments(part)
            part.set_defaults(run=command.run)


def _with_command(words: Sequence[str]) -> list[str]:
    """Put in the command that is left out where only a job, or nothing, is named."""
    if not words:
        return [open_wizard.COMMAND.name]
    first = words[0]
    names = [command.name for command in COMMANDS]
    if first.startswith("-") or first in names:
        return list(words)
    # A job's file has an ending or a folder before its name; a word alone is a slip in a command.
    if not any(sign in first for sign in "./\\"):
        close = difflib.get_close_matches(first, names, n=1)
        hint = f"; did you mean {close[0]}?" if close else ""
        allowed = f"a job's file, or one of {', '.join(names)}{hint}"
        raise RefusedError(f'{PROGRAM}: found "{first}"; allowed: {allowed}')
    return [open_wizard.COMMAND.name, *words]


def _examples(examples: Iterable[tuple[str, str]]) -> str:
    lines = [f"  {line}\n      {what}" for line, what in examples]
    return "\n".join(["examples:", *lines])


def _exit_statuses() -> str:
    lines = [f"  {code:>3}  {code.meaning}" for code in ExitCode]
    return "\n".join(["exit status:", *lines])
