"""`hoodwright diagnose JOB`: what is wrong, and what to measure next."""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job, add_width
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_lines, width

if TYPE_CHECKING:
    import argparse

    from schedules.behaviour.diagnose import Finder, Found, Proposal
    from wizard.fault_finding import Search


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    parser.add_argument(
        "--found",
        metavar='"PROBE = VALUE"',
        action="append",
        default=[],
        help='what was found, e.g. "state cooking = exhaust off"; may be given several times',
    )
    parser.add_argument(
        "--pairs", action="store_true", help="also pairs of faults that explain what was found"
    )
    parser.add_argument(
        "--without", metavar="PROBE", action="append", default=[], help="a probe not possible here"
    )
    other = parser.add_mutually_exclusive_group()
    other.add_argument(
        "--ask", action="store_true", help="ask for one reading after the other on the terminal"
    )
    other.add_argument("--probes", action="store_true", help="list every probe by its name")
    other.add_argument(
        "--prove", action="store_true", help="plant every single fault and count the readings to find it"
    )
    add_width(parser)


def _run(arguments: argparse.Namespace) -> int:
    from schedules.behaviour.diagnose import Finder  # noqa: PLC0415
    from schedules.behaviour.planted import score  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.fault_listing import failed_lines, score_lines  # noqa: PLC0415
    from wizard.fault_finding import begun  # noqa: PLC0415

    derived = plan_file(arguments.job, remedies=False).plan.derived
    finder = Finder(derived)
    columns = width(arguments.width)
    if arguments.prove:
        print_lines(score_lines(score(finder), columns))
        return ExitCode.SOUND
    if arguments.probes:
        print_lines(f"{probe.id}: {probe.says}" for probe in finder.probes)
        return ExitCode.SOUND
    unknown = [name for name in arguments.without if finder.probe(name) is None]
    if unknown:
        raise RefusedError(
            *(f'hoodwright diagnose: --without: found "{name}"; allowed: a probe' for name in unknown)
        )
    search = replace(begun(finder, derived), without=frozenset(arguments.without))
    for item in _read_all(finder, arguments.found):
        search = search.with_found(item)
    print_lines(failed_lines(search.failed, columns))
    if search.stray:
        return ExitCode.SOUND
    if arguments.ask:
        return _ask(search, columns)
    _tell(search, columns, pairs=arguments.pairs)
    return ExitCode.SOUND


def _read_all(finder: Finder, texts: list[str]) -> list[Found]:
    from schedules.behaviour.found import read_found  # noqa: PLC0415
    from schedules.quantities.numerals import UnitError  # noqa: PLC0415

    found, refused = [], []
    for text in texts:
        try:
            found.append(read_found(finder, text))
        except UnitError as error:
            refused.append(f'hoodwright diagnose: --found: found "{error.found}"; allowed: {error.allowed}')
    if refused:
        raise RefusedError(*refused)
    return found


def _tell(search: Search, columns: int, *, pairs: bool) -> None:
    from schedules.writers.fault_listing import proposal_lines, suspect_lines  # noqa: PLC0415

    told = list(suspect_lines(search.finder, search.found, columns, pairs=pairs))
    nexts = proposal_lines(search.finder, search.found, search.proposal, columns)
    print_lines([*told, *([""] if told else []), *nexts])


def _ask(search: Search, columns: int) -> int:
    """Ask until nothing tells any more. A line is a value, `skip`, `back`, `pairs`, or `quit`."""
    pairs = False
    while True:
        _tell(search, columns, pairs=pairs)
        proposal = search.proposal
        if proposal is None and search.suspects:
            return ExitCode.SOUND
        print_lines(["back, pairs or quit:" if proposal is None else "value, skip, back, pairs or quit:"])
        sys.stdout.flush()
        line = sys.stdin.readline()
        word = line.strip()
        pairs = word == "pairs"
        if not line or word == "quit":
            return ExitCode.SOUND
        if word == "back":
            search = search.without_last()
        elif word == "skip" and proposal is not None:
            search = search.skipping(proposal.probe)
        elif not pairs and proposal is not None:
            for item in _read_answer(search.finder, proposal, word):
                search = search.with_found(item)


def _read_answer(finder: Finder, proposal: Proposal, word: str) -> list[Found]:
    """What was found, or nothing where it can't be read, which is told."""
    from schedules.behaviour.found import read_value  # noqa: PLC0415
    from schedules.quantities.numerals import UnitError  # noqa: PLC0415

    try:
        return [finder.found(proposal.probe, read_value(finder, proposal.probe, word))]
    except UnitError as error:
        warn(f'found "{error.found}"; allowed: {error.allowed}')
        return []


COMMAND = Command(
    name="diagnose",
    summary="find a fault: what explains the readings, and what to measure next",
    description=(
        "Begin with the commissioning tests of the job that failed. Keep the single faults that explain what was "
        "found, likeliest first, and propose what to find out next: the "
        "most that it can tell for its effort and hazard, dead tests before live ones. It stops where nothing tells "
        "the faults apart that are left, and says what to inspect.\n\n"
        "A probe's name says what is looked at or measured:\n\n"
        "  state cooking = exhaust off, light off    what is not as it should be in a state, or: all right\n"
        "  see cooking exhaust = off                 one effect: on, part or off\n"
        "  look Q2 = no                              is a breaker on, a plug mated: yes or no\n"
        "  volts idle X1:2L X1:2N = 0.4 V            live\n"
        "  ohms X1:1L X1:1N = OL                     every breaker off; OL: over limit\n"
        "  ring W7 = 702 open                        a cable lifted and rung through, or: all right\n\n"
        "Exit status: 0 done, 2 bad input."
    ),
    examples=(
        ("hoodwright diagnose kitchen.toml", "what to look at first"),
        ('hoodwright diagnose kitchen.toml --found "state cooking = exhaust off"', "what that may be"),
        ("hoodwright diagnose kitchen.toml --ask", "one reading after the other"),
        ("hoodwright diagnose kitchen.toml --prove", "how many readings each fault takes"),
    ),
    arguments=_arguments,
    run=_run,
)
