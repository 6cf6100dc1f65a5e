"""`hoodwright explain JOB ITEM`: how a number came about."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.diagnostics import ExitCode, RefusedError
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "item",
        metavar="ITEM",
        nargs="*",
        help="a tag such as W4, R1 or Q1, or a number by its name; without it the list of what can be explained",
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.workings import workings, workings_of  # noqa: PLC0415
    from schedules.writers.listing import explainable_lines, explained_lines  # noqa: PLC0415

    plan = plan_file(arguments.job, remedies=False).plan
    columns = width(arguments.width)
    if not arguments.item:
        print_lines(explainable_lines(workings(plan), columns))
        return ExitCode.SOUND
    item = " ".join(arguments.item)
    found = workings_of(plan, item)
    if not found:
        known = list(dict.fromkeys(explained.subject for explained in workings(plan)))
        close = difflib.get_close_matches(item.upper(), known, n=1)
        hint = f"; did you mean {close[0]}?" if close else ""
        raise RefusedError(f'hoodwright explain: ITEM: found "{item}"; allowed: {", ".join(known)}{hint}')
    print_lines(explained_lines(found, columns))
    return ExitCode.SOUND


COMMAND = Command(
    name="explain",
    summary="how a number came about: rule, inputs, source",
    description=(
        "Print the working of a number: what it is, the rule in words, each input with where it came from, the "
        "source with how well it was confirmed, and the same for every number that went into it."
    ),
    examples=(
        ("hoodwright explain kitchen.toml", "list what can be explained"),
        ("hoodwright explain kitchen.toml W4", "the numbers of cable W4: its reach, its openings"),
        ("hoodwright explain kitchen.toml trade size of R1", "one number by its name"),
        ("hoodwright explain kitchen.toml Q1", "the load of circuit Q1"),
    ),
    arguments=_arguments,
    run=_run,
)
