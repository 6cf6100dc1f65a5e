"""`hoodwright new JOB --sheet SHEET`: start a job."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command
from wizard.diagnostics import ExitCode
from wizard.output import print_lines

if TYPE_CHECKING:
    import argparse


EDITIONS = (2020, 2023, 2026)
ASSUMED_EDITION = 2023


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", metavar="JOB", type=Path, help="the new job's file, .toml")
    parser.add_argument(
        "--sheet", metavar="SHEET", type=Path, required=True, help="the equipment sheet's file"
    )
    parser.add_argument("--name", metavar="NAME", help="the job's name; else the file's")
    parser.add_argument("--date", metavar="DATE", help="the job's date; else today's")
    parser.add_argument(
        "--code",
        type=int,
        choices=EDITIONS,
        help=f"edition of the NEC that was adopted there; else {ASSUMED_EDITION}, to be confirmed",
    )


def _run(arguments: argparse.Namespace) -> int:
    import datetime  # noqa: PLC0415

    from schedules.files.whole_file import write_all  # noqa: PLC0415
    from schedules.job.starting import start_job  # noqa: PLC0415
    from schedules.sheet.reading import read_sheet  # noqa: PLC0415

    draft = start_job(
        read_sheet(arguments.sheet),
        file=arguments.job,
        sheet_file=arguments.sheet,
        name=arguments.name or arguments.job.stem,
        date=arguments.date or datetime.date.today().isoformat(),
        code=arguments.code or ASSUMED_EDITION,
    )
    write_all({arguments.job: draft.text}, replace=False)
    lines = [f"wrote {arguments.job}"]
    if arguments.code is None:
        lines.append(f"code: NEC {ASSUMED_EDITION} was assumed; confirm which edition was adopted there")
    lines.append(
        f"next: hoodwright {arguments.job} fills it in, hoodwright check {arguments.job} tells what is missing"
    )
    print_lines(lines)
    return ExitCode.SOUND


COMMAND = Command(
    name="new",
    summary="start a job from an equipment sheet",
    description=(
        "Write a new job file with a comment beside every key: what may be bought, which enclosures are to be "
        "measured, which cables run. Nothing is filled in that nobody has measured. A file that is there is left alone."
    ),
    examples=(
        ("hoodwright new kitchen.toml --sheet hood.toml", "start a job for this hood"),
        (
            'hoodwright new jobs/hill-road.toml --sheet hood.toml --name "Hill Road 7"',
            "with a name of its own",
        ),
    ),
    arguments=_arguments,
    run=_run,
)
