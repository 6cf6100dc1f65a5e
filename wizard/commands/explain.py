"""`hoodwright explain JOB ITEM`: how a number came about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.commands.named import refusal
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "item",
        metavar="ITEM",
        nargs="*",
        help="tags such as W4, R1 or Q1, or numbers by their names; without one the list of what can be explained",
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
    all_of_them = workings(plan)
    names = {name.casefold() for each in all_of_them for name in (each.subject, each.working.name)}
    subjects = dict.fromkeys(each.subject for each in all_of_them)
    asked = _items(arguments.item, names, subjects)
    found = dict.fromkeys(explained for item in asked for explained in workings_of(plan, item))
    print_lines(explained_lines(tuple(found), columns))
    return ExitCode.SOUND


def _items(words: list[str], names: set[str], subjects: Iterable[str]) -> list[str]:
    """Tags, and names of several words, each as long as can be: `Q5 trade size of R1` is two.

    Raises RefusedError for what is neither.
    """
    items, unknown = [], []
    rest = words
    while rest:
        longest = _longest(rest, names)
        if longest:
            items.append(" ".join(rest[:longest]))
        else:
            unknown.append(rest[0])
        rest = rest[longest or 1 :]
    if unknown:
        raise refusal("hoodwright explain: ITEM", " ".join(unknown), subjects)
    return items


def _longest(words: list[str], names: set[str]) -> int:
    """How many of the first words are together one name, 0 where none are."""
    counts = range(len(words), 0, -1)
    return next((count for count in counts if " ".join(words[:count]).strip().casefold() in names), 0)


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
        ("hoodwright explain kitchen.toml cut length of W1", "one number by its name"),
        ("hoodwright explain kitchen.toml Q1 R1", "circuit Q1 and raceway R1"),
    ),
    arguments=_arguments,
    run=_run,
)
