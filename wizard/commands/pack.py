"""`hoodwright pack JOB -o DIR`: the printed package."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_lines

if TYPE_CHECKING:
    import argparse

    from schedules.package.packing import Order
    from schedules.plan import Plan

_CODE = r"[0-9A-Z]{4}-[0-9A-Z]{4}"
READERS = ("electrician", "installer", "inspector", "trainer", "owner")
PAPERS = {"letter": "Letter", "a4": "A4"}
PARTS = ("pdf", "html", "xlsx", "csv", "ics", "labels", "json", "drawings")


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    where = parser.add_mutually_exclusive_group(required=True)
    where.add_argument("-o", "--output", metavar="DIR", type=Path, help="the folder to make, or an empty one")
    where.add_argument(
        "--is-current",
        metavar="CODE",
        help="write nothing; tell whether paper with this code, e.g. 7K3Q-M2XD, is of this job as it is now",
    )
    parser.add_argument(
        "--for", dest="reader", choices=READERS, help="what one person needs; else everything for everybody"
    )
    parser.add_argument("--paper", choices=tuple(PAPERS), default="letter", help="paper of the booklet")
    parser.add_argument(
        "--parts", metavar="PART,...", help=f"which files, of {','.join(PARTS)}; else all of them"
    )
    parser.add_argument(
        "--since", metavar="DIR", type=Path, help="the package that was handed out before: mark what changed"
    )
    parser.add_argument("--force", action="store_true", help="let an earlier package in the folder give way")


def _run(arguments: argparse.Namespace) -> int:
    from schedules.planned import plan_file  # noqa: PLC0415

    if arguments.is_current is not None:
        return _tell_current(plan_file(arguments.job).plan, arguments.is_current)

    from schedules.package.folder import refuse_occupied  # noqa: PLC0415

    order = _order(arguments)
    refuse_occupied(arguments.output, replace=arguments.force)
    warn("planning the job")
    plan = plan_file(arguments.job).plan
    print_lines(f"wrote {file}" for file in _made(plan, order, arguments.output, replace=arguments.force))
    return ExitCode.SOUND if plan.sound else ExitCode.FINDINGS


def _tell_current(plan: Plan, found: str) -> int:
    from schedules.package.packing import contents_code_of  # noqa: PLC0415

    code = contents_code_of(plan)
    if re.fullmatch(_CODE, found, re.IGNORECASE) is None:
        raise RefusedError(
            f'hoodwright pack: --is-current: found "{found}"; allowed: a code such as 7K3Q-M2XD'
        )
    if found.upper() == code:
        print_lines((f"current: {code} is this job as it is now",))
        return ExitCode.SOUND
    print_lines((f"OUTDATED: paper of this job as it is now carries {code}",))
    return ExitCode.FINDINGS


def _order(arguments: argparse.Namespace) -> Order:
    from schedules.drawings.picture import Paper  # noqa: PLC0415
    from schedules.package.packing import Order  # noqa: PLC0415
    from schedules.package.parts import EVERY_PART, Part  # noqa: PLC0415
    from schedules.package.readers import reader  # noqa: PLC0415
    from schedules.package.record import read_record  # noqa: PLC0415

    words = None if arguments.parts is None else arguments.parts.split(",")
    if words is not None and (unknown := [word for word in words if word not in PARTS]):
        raise RefusedError(
            *(f'hoodwright pack: --parts: found "{word}"; allowed: {", ".join(PARTS)}' for word in unknown)
        )
    return Order(
        reader=reader(arguments.reader),
        paper=Paper(PAPERS[arguments.paper]),
        parts=EVERY_PART if words is None else tuple(part for part in Part if part in words),
        since=None if arguments.since is None else read_record(arguments.since),
    )


def _made(plan: Plan, order: Order, folder: Path, *, replace: bool) -> tuple[Path, ...]:
    from schedules.drawings.errors import DrawingError  # noqa: PLC0415
    from schedules.package.making import make_package  # noqa: PLC0415

    try:
        return make_package(plan, order, folder, replace=replace, tell=warn)
    except DrawingError as error:
        raise RefusedError(
            *(f"hoodwright pack: not proved, nothing written: {failure}" for failure in error.failures)
        ) from error


COMMAND = Command(
    name="pack",
    summary="make the printed package: booklet, page, workbook, files, labels, drawings",
    description=(
        "Plan a job and make what each person on site works from: a PDF booklet to print, one page for the screen, a "
        "workbook, CSV files, the order of work for a calendar, label sheets, the plan as JSON, the drawings. The "
        "folder appears whole or not at all; the same job gives the same bytes.\n\n"
        "Every page carries a code of its contents. When the job changes, the code does: --is-current tells whether a "
        "sheet that hangs on a wall is still right.\n\n"
        "Exit status: 0 written, no finding at stop or fix, 1 written, but the plan has some, 2 nothing written. With "
        "--is-current: 0 current, 1 outdated."
    ),
    examples=(
        ("hoodwright pack kitchen.toml -o kitchen-package", "everything, for everybody, on Letter"),
        (
            "hoodwright pack kitchen.toml -o for-electrician --for electrician --paper a4",
            "one person's paper",
        ),
        ("hoodwright pack kitchen.toml -o rev-2 --since kitchen-package", "with what changed since marked"),
        ("hoodwright pack kitchen.toml --is-current 7K3Q-M2XD", "is the sheet on the wall still right?"),
    ),
    arguments=_arguments,
    run=_run,
)
