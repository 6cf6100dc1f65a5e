"""`hoodwright worksheet JOB --seed N -o DIR`: a worksheet for a class, and its answers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import PAPERS, Command, add_job, add_paper, whole
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_lines

if TYPE_CHECKING:
    import argparse

MOST_FAULTS = 10


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "--seed",
        metavar="N",
        type=whole,
        default=1,
        help="which worksheet: the same number gives the same one",
    )
    parser.add_argument(
        "--enclosure", metavar="TAG", help="whose terminations are asked; else the seed draws one"
    )
    parser.add_argument(
        "--faults", metavar="N", type=whole, default=3, help=f"cases to find, 0 to {MOST_FAULTS}; else 3"
    )
    parser.add_argument(
        "-o", "--output", metavar="DIR", type=Path, required=True, help="the new folder to make"
    )
    add_paper(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.drawings.errors import DrawingError  # noqa: PLC0415
    from schedules.drawings.picture import Paper  # noqa: PLC0415
    from schedules.package.folder import put, refuse_occupied  # noqa: PLC0415
    from schedules.package.worksheet import worksheet_files  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.teaching.exercises import set_exercise  # noqa: PLC0415

    if not 0 <= arguments.faults <= MOST_FAULTS:
        allowed = f"a whole number from 0 to {MOST_FAULTS}"
        raise RefusedError(f"hoodwright worksheet: --faults: found {arguments.faults}; allowed: {allowed}")
    refuse_occupied(arguments.output, replace=False)
    plan = plan_file(arguments.job, remedies=False).plan
    warn("setting the exercises")
    try:
        exercise = set_exercise(plan, arguments.seed, faults=arguments.faults, enclosure=arguments.enclosure)
        contents = worksheet_files(plan, exercise, Paper(PAPERS[arguments.paper]))
    except LookupError as error:
        raise RefusedError(f"hoodwright worksheet: {error.args[0]}") from error
    except DrawingError as error:
        raise RefusedError(
            *(f"hoodwright worksheet: not proved, nothing written: {failure}" for failure in error.failures)
        ) from error
    put(arguments.output, contents, replace=False)
    print_lines(f"wrote {arguments.output / name}" for name in contents)
    return ExitCode.SOUND


COMMAND = Command(
    name="worksheet",
    summary="print a worksheet for a class, with its answers apart",
    description=(
        "Set four exercises on a job's plan and write them as PDF and page, the answers in files of their own: fill "
        "in what lands on each terminal of one enclosure; label a drawing whose lines have no words; find the rows "
        "of a list of conductors that are wrong; find what is broken from what was seen and measured, each case a "
        "single fault of the solved installation. The same seed gives the same worksheet, so a class can be given "
        "another one by another number.\n\nThe drawing is proved before its labels are left off."
    ),
    examples=(
        ("hoodwright worksheet kitchen.toml --seed 7 -o class-7", "worksheet 7 and its answers"),
        (
            "hoodwright worksheet kitchen.toml --enclosure H --faults 5 -o class",
            "the hood's ends, five faults",
        ),
        ("hoodwright worksheet kitchen.toml --paper a4 -o class", "on A4"),
    ),
    arguments=_arguments,
    run=_run,
)
