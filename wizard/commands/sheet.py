"""`hoodwright sheet check|template|schema`: equipment sheets."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_file
from wizard.commands.document import give
from wizard.commands.open_wizard import open_wizard
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _check_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("sheet", metavar="SHEET", type=Path, help="the equipment sheet's file, .toml")


def _check(arguments: argparse.Namespace) -> int:
    from schedules.sheet.reading import read_sheet  # noqa: PLC0415
    from schedules.writers.sheet_listing import sheet_lines  # noqa: PLC0415

    print_lines(sheet_lines(read_sheet(arguments.sheet), width(None)))
    return ExitCode.SOUND


def _write_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "sheet",
        metavar="SHEET",
        type=Path,
        help="the equipment sheet's file, .toml; begun where there is none",
    )


def _write(arguments: argparse.Namespace) -> int:
    return open_wizard(sheet=arguments.sheet)


def _template(arguments: argparse.Namespace) -> int:
    from schedules.templates import sheet_template  # noqa: PLC0415

    return give(sheet_template().encode(), arguments.output)


def _schema(arguments: argparse.Namespace) -> int:
    from schedules.schema import sheet_schema  # noqa: PLC0415
    from schedules.writers.data import as_json  # noqa: PLC0415

    return give(as_json(sheet_schema()), arguments.output)


COMMAND = Command(
    name="sheet",
    summary="equipment sheets: write one, check one, start one, schema for an editor",
    description=(
        "An equipment sheet is one hood family's data as its maker's manual gives it, in TOML: what may be bought, "
        "devices and terminals, connectors, cables, openings, circuits, behaviour."
    ),
    examples=(
        ("hoodwright sheet template -o hood.toml", "start a sheet from a small, commented example"),
        ("hoodwright sheet check hood.toml", "every mistake, with its line"),
        ("hoodwright sheet write hood.toml", "write one in the wizard, checked while it is written"),
    ),
    parts=(
        Command(
            name="write",
            summary="write a sheet in the wizard, checked while it is written",
            description=(
                "Write an equipment sheet from a maker's manual, one place of it at a time: what is still missing or "
                "wrong stands beside it, and what the sheet makes with all that fits together. A file that isn't "
                "there yet is begun from a small generic sheet. Every accepted entry is saved at once; comments in "
                "the file are kept."
            ),
            examples=(("hoodwright sheet write hood.toml", "begin a sheet, or go on with it"),),
            arguments=_write_arguments,
            run=_write,
        ),
        Command(
            name="check",
            summary="read a sheet and name every mistake in it",
            description=(
                "Read an equipment sheet. Every mistake is named with file, line, key, what was found and what is "
                "allowed: first those of single keys, then, where there are none, contradictions within the sheet.\n\n"
                "Exit status: 0 the sheet can be used, 2 it can't."
            ),
            examples=(("hoodwright sheet check hood.toml", "every mistake, with its line"),),
            arguments=_check_arguments,
            run=_check,
        ),
        Command(
            name="template",
            summary="print a small, complete, commented sheet to start from",
            description="Print a small, complete, invented equipment sheet with a comment beside every key.",
            examples=(("hoodwright sheet template -o hood.toml", "into a new file"),),
            arguments=lambda parser: add_file(parser, "the template"),
            run=_template,
        ),
        Command(
            name="schema",
            summary="print the JSON Schema of a sheet, for an editor",
            description=(
                "Print the JSON Schema of equipment sheets. An editor that knows it completes keys, shows what each "
                "means and marks mistakes while you type."
            ),
            examples=(("hoodwright sheet schema -o sheet.schema.json", "into a new file"),),
            arguments=lambda parser: add_file(parser, "the schema"),
            run=_schema,
        ),
    ),
)
