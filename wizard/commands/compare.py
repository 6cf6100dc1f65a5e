"""`hoodwright compare JOB JOB`: what differs between two jobs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_width
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("before", metavar="JOB", type=Path, help="the first job's file")
    parser.add_argument("after", metavar="JOB", type=Path, help="the second job's file")
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.comparison import compare  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.comparing import comparison_lines  # noqa: PLC0415

    before = plan_file(arguments.before, remedies=False).plan
    after = plan_file(arguments.after, remedies=False).plan
    print_lines(comparison_lines(compare(before, after), width(arguments.width)))
    return ExitCode.SOUND


COMMAND = Command(
    name="compare",
    summary="what differs between two jobs",
    description=(
        "Plan two jobs and list what the second one adds (+), leaves out (-) and alters (~) against the first: "
        "findings, cables, circuits, raceways, openings, terminations, conductors."
    ),
    examples=(
        ("hoodwright compare gas.toml electric.toml", "two sets of options for one kitchen"),
        ("hoodwright compare kitchen-rev1.toml kitchen-rev2.toml", "what a revision changed"),
    ),
    arguments=_arguments,
    run=_run,
)
