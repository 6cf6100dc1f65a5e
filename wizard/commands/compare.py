"""`hoodwright compare JOB JOB`: what differs between two jobs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_width
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse

    from schedules.plan import Plan


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("before", metavar="JOB", type=Path, help="the first job's file")
    parser.add_argument("after", metavar="JOB", type=Path, help="the second job's file")
    parser.add_argument(
        "-o",
        "--output",
        metavar="DIR",
        type=Path,
        help="also write a drawing of every conductor that differs, marked, as SVG and PNG to a new folder",
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.comparison import compare  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.comparing import comparison_lines  # noqa: PLC0415

    before = plan_file(arguments.before, remedies=False).plan
    after = plan_file(arguments.after, remedies=False).plan
    comparison = compare(before, after, interlocks=True)
    written: tuple[Path, ...] = ()
    if arguments.output is not None:
        if comparison.conductors:
            written = _draw(before, after, arguments.output)
        else:
            warn("hoodwright compare: no conductor differs, so nothing is drawn")
    print_lines(comparison_lines(comparison, width(arguments.width)))
    print_lines(f"wrote {path}" for path in written)
    return ExitCode.SOUND


def _draw(before: Plan, after: Plan, folder: Path) -> tuple[Path, ...]:
    """Write what differs, point to point, on as many pages as can be read; the files written."""
    from schedules.drawings.errors import DrawingError  # noqa: PLC0415
    from schedules.drawings.marked import marked_files  # noqa: PLC0415
    from schedules.package.folder import put, refuse_occupied  # noqa: PLC0415

    refuse_occupied(folder, replace=False)
    try:
        contents = marked_files(before, after)
    except DrawingError as error:
        raise RefusedError(
            *(f"hoodwright compare: not proved, nothing written: {failure}" for failure in error.failures)
        ) from error
    put(folder, contents, replace=False)
    return tuple(folder / name for name in contents)


COMMAND = Command(
    name="compare",
    summary="what differs between two jobs",
    description=(
        "Plan two jobs and list what the second one adds (+), leaves out (-) and alters (~) against the first: "
        "findings, cables, circuits, raceways, openings, interlocks, terminations, conductors. With -o also a drawing "
        "in which every conductor that differs says at both its ends whether it is added, removed, or lands elsewhere."
    ),
    examples=(
        ("hoodwright compare gas.toml electric.toml", "two sets of options for one kitchen"),
        ("hoodwright compare kitchen-rev1.toml kitchen-rev2.toml", "what a revision changed"),
        ("hoodwright compare gas.toml electric.toml -o differs", "with the marked drawing"),
    ),
    arguments=_arguments,
    run=_run,
)
