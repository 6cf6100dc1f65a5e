"""`hoodwright what-if JOB`: break a wire, swap two ends, join two terminals: which states change?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.commands.put_wrong import add_wrong, wrong_asked
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_wrong(parser, required=True)
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.behaviour.faults import Judge  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.fault_listing import outcome_lines  # noqa: PLC0415

    derived = plan_file(arguments.job, remedies=False).plan.derived
    fault = wrong_asked("what-if", derived, arguments)
    print_lines(outcome_lines(Judge(derived).outcome(fault), width(arguments.width)))
    return ExitCode.SOUND


COMMAND = Command(
    name="what-if",
    summary="break a wire, swap two ends or join two terminals: which states change?",
    description=(
        "Put one thing wrong in the solved installation and list every state that it changes, whether that is "
        "dangerous, and who would notice it and when. For classes, and before a doubtful wire is touched.\n\n"
        "Exit status: 0 done, 2 bad input."
    ),
    examples=(
        ("hoodwright what-if kitchen.toml --break 701", "wire 701 is open"),
        ("hoodwright what-if kitchen.toml --swap 101@X1:1L 102@X1:1N", "two ends on each other's terminals"),
        ("hoodwright what-if kitchen.toml --join X1:1N X1:1PE", "a strand between two terminals"),
    ),
    arguments=_arguments,
    run=_run,
)
