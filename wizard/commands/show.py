"""`hoodwright show JOB [SCHEDULE ...]`: the schedules, in the terminal or as JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.rows.catalogue import CATALOGUE
from wizard.commands.command import Command, add_job, add_width
from wizard.commands.named import named
from wizard.diagnostics import ExitCode, RefusedError
from wizard.output import print_bytes, print_lines, width

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule


ONLY_BY_NAME = ("faults",)
"""Thousands of rows: printed when they are asked for, and held by the JSON."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "schedule",
        metavar="SCHEDULE",
        nargs="*",
        help=f"which ones, by name; without it all but {', '.join(ONLY_BY_NAME)}",
    )
    parser.add_argument("--enclosure", metavar="TAG", help="only the rows at this enclosure, e.g. H")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print the plan as JSON, hoodwright-plan version 1")
    add_width(form)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.planned import plan_file  # noqa: PLC0415

    plan = plan_file(arguments.job, remedies=arguments.json).plan
    usual = [name for name in CATALOGUE if arguments.json or name not in ONLY_BY_NAME]
    chosen = _chosen(plan, arguments.schedule, usual, arguments.enclosure)
    if arguments.json:
        from schedules.writers.data import plan_json  # noqa: PLC0415

        print_bytes(plan_json(plan, chosen))
    else:
        from schedules.writers.listing import show_lines  # noqa: PLC0415

        print_lines(show_lines(plan, chosen, width(arguments.width)))
    return ExitCode.SOUND if plan.sound else ExitCode.FINDINGS


def _chosen(
    plan: Plan, names: Sequence[str], usual: Sequence[str], enclosure: str | None
) -> list[Schedule[Any]]:
    """The schedules asked for; at one enclosure without a name, those that are about enclosures."""
    from schedules.rows.every import SCHEDULES  # noqa: PLC0415

    unknown = [name for name in names if name not in SCHEDULES]
    if unknown:
        allowed = ", ".join(SCHEDULES)
        raise RefusedError(
            *(f'hoodwright show: SCHEDULE: found "{name}"; allowed: {allowed}' for name in unknown)
        )
    schedules = [SCHEDULES[name](plan) for name in dict.fromkeys(names or usual)]
    if enclosure is None:
        return schedules
    tags = [item.tag for item in plan.derived.selection.enclosures]
    tag = named("hoodwright show: --enclosure", enclosure, tags)
    if names and (others := [schedule.id for schedule in schedules if schedule.enclosures is None]):
        raise RefusedError(
            f"hoodwright show: --enclosure: found {', '.join(others)}, which no enclosure divides; "
            "allowed: a schedule whose rows stand at an enclosure"
        )
    return [schedule.at(tag) for schedule in schedules if schedule.enclosures is not None]


COMMAND = Command(
    name="show",
    summary="print the schedules: terminations, cables, circuits, openings and the rest",
    description=(
        "Plan a job and print its schedules, laid out for the terminal's width, or as JSON for other programs.\n\n"
        + "".join(f"  {name:12}  {words}\n" for name, words in CATALOGUE.items())
        + "\n"
        + "Exit status: 0 no finding at stop or fix, 1 some, 2 bad input. `hoodwright check` lists the findings; "
        "`hoodwright plan schema` prints the JSON's schema."
    ),
    examples=(
        ("hoodwright show kitchen.toml", "every schedule but the single faults"),
        ("hoodwright show kitchen.toml terminations --enclosure H", "what lands where in enclosure H"),
        ("hoodwright show kitchen.toml cables circuits", "two schedules"),
        ("hoodwright show kitchen.toml --json > plan.json", "everything, for another program"),
    ),
    arguments=_arguments,
    run=_run,
)
