"""`hoodwright check JOB`: what is missing or wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.listing import check_lines  # noqa: PLC0415

    plan = plan_file(arguments.job).plan
    print_lines(check_lines(plan, width(arguments.width)))
    return ExitCode.SOUND if plan.sound else ExitCode.FINDINGS


COMMAND = Command(
    name="check",
    summary="tell what is missing or wrong, and what cures it",
    description=(
        "Plan a job and list every finding: how serious it is, which thing, which numbers, which rule and its source, "
        "and each remedy, which was planned again and seen to cure it.\n\n"
        "  stop   must not proceed\n"
        "  fix    put right before cover\n"
        "  check  a licensed person decides\n"
        "  note   for information\n\n"
        "Under a finding stands who acknowledged it and why, and whether that still counts: it does only as long as "
        "the finding says the same. A stop can't be acknowledged. No acknowledgement alters the exit status: a fix is "
        "still to be put right, whoever answers for it.\n\n"
        "Exit status: 0 no finding at stop or fix, 1 some, 2 bad input."
    ),
    examples=(
        ("hoodwright check kitchen.toml", "list the findings"),
        ("hoodwright check kitchen.toml --width 120 > findings.txt", "into a file, 120 columns wide"),
    ),
    arguments=_arguments,
    run=_run,
)
