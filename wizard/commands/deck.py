"""`hoodwright deck SHEET|JOB`: the fewest demonstrations that show every pair of choices."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import PAPERS, Command, add_paper, add_width
from wizard.commands.subject import add_subject, read_subject
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_bytes, print_lines, width

if TYPE_CHECKING:
    import argparse

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_subject(parser)
    parser.add_argument(
        "--triples", action="store_true", help="show every triple of choices, not only every pair"
    )
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print JSON, hoodwright-deck version 1")
    form.add_argument(
        "-o",
        "--output",
        metavar="DIR",
        type=Path,
        help="write the deck as PDF, page and JSON to a new folder",
    )
    add_width(form)
    add_paper(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.teaching.deck import make_deck  # noqa: PLC0415
    from schedules.writers.deck_listing import deck_json, deck_lines  # noqa: PLC0415

    sheet, job = read_subject(arguments.subject)
    if arguments.output is not None:
        from schedules.package.folder import refuse_occupied  # noqa: PLC0415

        refuse_occupied(arguments.output, replace=False)
    try:
        deck = make_deck(sheet, job, 3 if arguments.triples else 2)
    except ValueError as error:
        raise RefusedError(f"hoodwright deck: {arguments.subject}: {error}") from error
    if arguments.json:
        print_bytes(deck_json(sheet, deck))
    elif arguments.output is not None:
        _write(sheet, deck, arguments)
    else:
        print_lines(deck_lines(sheet, deck, width(arguments.width)))
    return ExitCode.SOUND


def _write(sheet: Sheet, deck: Deck, arguments: argparse.Namespace) -> None:
    from schedules.drawings.errors import DrawingError  # noqa: PLC0415
    from schedules.drawings.picture import Paper  # noqa: PLC0415
    from schedules.package.deck_pages import deck_files  # noqa: PLC0415
    from schedules.package.folder import put  # noqa: PLC0415

    warn(f"drawing and setting {len(deck.demonstrations)} demonstrations")
    try:
        contents = deck_files(sheet, deck, Paper(PAPERS[arguments.paper]))
    except DrawingError as error:
        raise RefusedError(
            *(f"hoodwright deck: not proved, nothing written: {failure}" for failure in error.failures)
        ) from error
    put(arguments.output, contents, replace=False)
    print_lines(f"wrote {arguments.output / name}" for name in contents)


COMMAND = Command(
    name="deck",
    summary="the fewest demonstrations that show every pair of choices, in order",
    description=(
        "Choose the fewest combinations in which every two choices that can stand together do so at least once, each "
        "also with the one and without the other, and put them in the order in which the least wiring changes from "
        "one to the next. Each comes with what to say, drawn from the difference of the two plans. Written with -o, "
        "each also has its drawing and its conductors, new and changed ones marked.\n\n"
        "Of a sheet alone the wiring is planned without a kitchen; of a job, in that job's kitchen: what was not "
        "measured there for other choices is then a finding. --triples shows every three choices together: a larger "
        "deck, some seconds to find."
    ),
    examples=(
        ("hoodwright deck hood.toml", "which combinations to show, and what to say"),
        ("hoodwright deck kitchen.toml -o deck", "the deck to print, in this kitchen"),
        ("hoodwright deck hood.toml --triples --json > deck.json", "every triple, for another program"),
    ),
    arguments=_arguments,
    run=_run,
)
