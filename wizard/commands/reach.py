"""`hoodwright reach JOB [CABLE]`: does it reach?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.commands.named import named
from wizard.diagnostics import ExitCode
from wizard.output import encoding, print_lines, width

if TYPE_CHECKING:
    import argparse

WIDEST = 100
"""Columns beyond which a sketch of a wall gains nothing."""


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "cable", metavar="CABLE", nargs="?", help="which one, e.g. W4; without it all of them"
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.drawings.reach_sketch import reach_sketch  # noqa: PLC0415
    from schedules.drawings.wall_sketch import signs_for  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.site.reach import Verdict  # noqa: PLC0415
    from schedules.writers.listing import every_reach_lines, reach_lines  # noqa: PLC0415

    plan = plan_file(arguments.job, remedies=arguments.cable is not None).plan
    lengths = {length.cable: length for length in plan.derived.lengths}
    if arguments.cable is None:
        asked = tuple(lengths.values())
        print_lines(every_reach_lines(plan, width(arguments.width)))
    else:
        none = "none, since the options bring no cable"
        tag = named("hoodwright reach: CABLE", arguments.cable, lengths, none=none)
        asked = (lengths[tag],)
        columns = width(arguments.width)
        sketch = reach_sketch(plan, tag, columns=min(columns, WIDEST), signs=signs_for(encoding()))
        print_lines(reach_lines(plan, lengths[tag], columns, sketch))
    good = (Verdict.REACHES, Verdict.CUT_ON_SITE)
    return ExitCode.SOUND if all(length.verdict in good for length in asked) else ExitCode.FINDINGS


COMMAND = Command(
    name="reach",
    summary="does a cable reach, and if not, what cures it?",
    description=(
        "Compare each factory cable's length with the way that it must go, and give each field cable's length to cut. "
        "The first line is the answer. Below it stand a sketch of the wall, with where the end may stand instead, "
        "the remedies and how the number came about.\n\n"
        "Exit status: 0 every cable asked for reaches or is cut on site, 1 one is short, tight or not measured, "
        "2 bad input."
    ),
    examples=(
        ("hoodwright reach kitchen.toml", "every cable"),
        ("hoodwright reach kitchen.toml W4", "one cable, with the wall and its working"),
    ),
    arguments=_arguments,
    run=_run,
)
