"""`hoodwright combos SHEET|JOB`: every combination of choices, what can't be built, what each choice adds."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_width, whole
from wizard.commands.subject import add_subject, read_subject
from wizard.diagnostics import ExitCode, RefusedError
from wizard.output import print_bytes, stream_lines, width

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet
    from schedules.teaching.combos import Wanted

_WORTH_SHARING = 24
"""From so many combinations on, they are planned by all processors side by side."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_subject(parser)
    parser.add_argument(
        "--with",
        metavar="CHOICE",
        dest="including",
        action="append",
        default=[],
        help="only combinations with this choice, by its id; may be given again",
    )
    parser.add_argument(
        "--without",
        metavar="CHOICE",
        dest="excluding",
        action="append",
        default=[],
        help="only combinations without this choice; may be given again",
    )
    parser.add_argument("--limit", metavar="N", type=whole, help="plan at most so many; else all of them")
    parser.add_argument(
        "--barred", action="store_true", help="plan nothing; only tell what can't be built, and why"
    )
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print JSON, hoodwright-combos version 1")
    add_width(form)


def _run(arguments: argparse.Namespace) -> int:
    sheet, job = read_subject(arguments.subject)
    wanted = _wanted(sheet, arguments)
    if arguments.json:
        _print_json(sheet, job, wanted)
    else:
        stream_lines(_lines(sheet, job, wanted, width(arguments.width)))
    return ExitCode.SOUND


def _wanted(sheet: Sheet, arguments: argparse.Namespace) -> Wanted:
    from schedules.teaching.combos import Wanted  # noqa: PLC0415

    known = [choice.id for choice in sheet.choices]
    wrong = [
        f'hoodwright combos: {option}: found "{name}"; allowed: {", ".join(known)}'
        for option, names in (("--with", arguments.including), ("--without", arguments.excluding))
        for name in names
        if name not in known
    ]
    if arguments.limit is not None and arguments.limit < 1:
        wrong.append(f"hoodwright combos: --limit: found {arguments.limit}; allowed: a whole number from 1")
    if wrong:
        raise RefusedError(*wrong)
    at_most = 0 if arguments.barred else arguments.limit
    return Wanted(frozenset(arguments.including), frozenset(arguments.excluding), at_most)


def _lines(sheet: Sheet, job: Job, wanted: Wanted, columns: int) -> Iterator[str]:
    from schedules.teaching.barring import barring  # noqa: PLC0415
    from schedules.teaching.combos import plan_every  # noqa: PLC0415
    from schedules.teaching.tally import Tally  # noqa: PLC0415
    from schedules.writers import combo_listing  # noqa: PLC0415

    titles = {choice.id: choice.title for choice in sheet.choices}
    barred = barring(sheet)
    yield from combo_listing.barring_lines(barred, titles, columns)
    if wanted.at_most == 0:
        return
    yield ""
    yield from combo_listing.combination_head()
    tally = Tally(sheet, barred.together)
    taken = tally.through(plan_every(sheet, job, wanted, workers=_workers(wanted)))
    for number, combination in enumerate(taken, start=1):
        yield from combo_listing.combination_lines(number, combination, columns)
    yield ""
    yield from combo_listing.cost_lines(tally.costs(), titles, columns)


def _print_json(sheet: Sheet, job: Job, wanted: Wanted) -> None:
    from schedules.teaching.barring import barring  # noqa: PLC0415
    from schedules.teaching.combos import plan_every  # noqa: PLC0415
    from schedules.teaching.tally import Tally  # noqa: PLC0415
    from schedules.writers.combo_listing import combos_json  # noqa: PLC0415

    barred = barring(sheet)
    tally = Tally(sheet, barred.together)
    taken = tally.through(plan_every(sheet, job, wanted, workers=_workers(wanted)))
    for piece in combos_json(sheet, barred, taken, tally.costs):
        print_bytes(piece)


def _workers(wanted: Wanted) -> int:
    """Every processor, unless there is so little to plan that starting them takes longer."""
    few = wanted.at_most is not None and wanted.at_most < _WORTH_SHARING
    return 1 if few else os.cpu_count() or 1


COMMAND = Command(
    name="combos",
    summary="every combination of choices: which can be built, what each choice adds",
    description=(
        "Take every set of choices that the sheet's rules allow, plan each in this kitchen, and list its cables, "
        "terminations (ends), circuits, openings and findings to cure. Before that: which combinations can't be "
        "built and which rule of the sheet bars them. After that: what each choice adds, least, median and most over "
        "all pairs of combinations that differ in it alone, and which choices never matter to the wiring.\n\n"
        "Lines appear as they are planned; a whole sheet may take a minute, --limit or --with make it shorter. "
        "`hoodwright deck` takes the few combinations that are worth showing to a class."
    ),
    examples=(
        ("hoodwright combos hood.toml --barred", "what can't be built, and why: at once"),
        ("hoodwright combos kitchen.toml", "every combination in this kitchen"),
        ("hoodwright combos kitchen.toml --with gas-valve --limit 20", "the first twenty with a gas valve"),
        ("hoodwright combos kitchen.toml --json > combos.json", "everything, for another program"),
    ),
    arguments=_arguments,
    run=_run,
)
