"""`hoodwright faults JOB`: what one thing wrong does, and who notices it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.commands.named import named
from wizard.diagnostics import ExitCode
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument("--enclosure", metavar="TAG", help="only faults at this enclosure, e.g. H")
    parser.add_argument(
        "--hidden", action="store_true", help="only dangerous ones that nobody notices in use"
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.behaviour.exposure import fault_findings  # noqa: PLC0415
    from schedules.behaviour.fault_list import single_faults  # noqa: PLC0415
    from schedules.behaviour.faults import Judge  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.fault_listing import fault_lines  # noqa: PLC0415

    plan = plan_file(arguments.job, remedies=False).plan
    tags = [item.tag for item in plan.derived.selection.enclosures]
    at = (
        None
        if arguments.enclosure is None
        else named("hoodwright faults: --enclosure", arguments.enclosure, tags)
    )
    judge = Judge(plan.derived)
    outcomes = tuple(judge.outcome(fault) for fault in single_faults(plan.derived))
    shown = tuple(
        outcome
        for outcome in outcomes
        if (at is None or at in outcome.fault.enclosures)
        and (not arguments.hidden or (outcome.hidden and not outcome.safe))
    )
    findings = fault_findings(plan.derived, judge, shown)
    print_lines(fault_lines(outcomes, shown, findings, width(arguments.width)))
    return ExitCode.SOUND if plan.sound else ExitCode.FINDINGS


COMMAND = Command(
    name="faults",
    summary="try every single fault: what it does, whether it is safe, who notices",
    description=(
        "Put one thing wrong at a time (each wire open, each pair of ends swapped, neighbours touching, contacts "
        "welded or stuck, coils and loads open, plugs not mated, breakers off) into the solved installation, see "
        "every state with it, and tell what is dangerous, who would notice and when, and what would show or cure "
        "what nobody notices.\n\n"
        "Exit status: 0 no finding at stop or fix in the plan, 1 some, 2 bad input."
    ),
    examples=(
        ("hoodwright faults kitchen.toml", "every single fault"),
        ("hoodwright faults kitchen.toml --hidden", "only dangers that nobody notices in use"),
        ("hoodwright faults kitchen.toml --enclosure H", "only what can go wrong at enclosure H"),
    ),
    arguments=_arguments,
    run=_run,
)
