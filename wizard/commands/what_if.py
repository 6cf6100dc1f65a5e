"""`hoodwright what-if JOB`: break a wire, swap two ends, join two terminals: which states change?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.diagnostics import ExitCode, RefusedError
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse

    from schedules.behaviour.fault_list import Fault
    from schedules.derived import Derived


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    wrong = parser.add_mutually_exclusive_group(required=True)
    wrong.add_argument("--break", metavar="WIRE", dest="broken", help="this wire is open, e.g. 701")
    wrong.add_argument(
        "--swap",
        metavar=("WIRE@TERMINAL", "WIRE@TERMINAL"),
        nargs=2,
        help="these two ends are swapped, e.g. 101@X1:1L 102@X1:1N",
    )
    wrong.add_argument(
        "--join", metavar=("TERMINAL", "TERMINAL"), nargs=2, help="these two touch, e.g. X1:1L X1:1N"
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.behaviour.faults import Judge  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.fault_listing import outcome_lines  # noqa: PLC0415

    derived = plan_file(arguments.job, remedies=False).plan.derived
    try:
        fault = _fault(derived, arguments)
    except LookupError as error:
        raise RefusedError(f"hoodwright what-if: {error.args[0]}") from error
    print_lines(outcome_lines(Judge(derived).outcome(fault), width(arguments.width)))
    return ExitCode.SOUND


def _fault(derived: Derived, arguments: argparse.Namespace) -> Fault:
    from schedules.behaviour.what_if import broken_wire, joined_points, swapped_ends  # noqa: PLC0415
    from schedules.connections.points import Point  # noqa: PLC0415

    if arguments.broken is not None:
        return broken_wire(derived, arguments.broken)
    if arguments.join is not None:
        return joined_points(derived, *(Point.read(text) for text in arguments.join))
    one, two = (text.partition("@") for text in arguments.swap)
    return swapped_ends(derived, (one[0], Point.read(one[2])), (two[0], Point.read(two[2])))


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
