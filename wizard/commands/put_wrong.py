"""The options that put one thing wrong on purpose, and the fault that they name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.diagnostics import RefusedError

if TYPE_CHECKING:
    import argparse

    from schedules.behaviour.fault_list import Fault
    from schedules.derived import Derived


def add_wrong(parser: argparse.ArgumentParser, *, required: bool) -> None:
    """Add --break, --swap and --join, one of which may be given."""
    wrong = parser.add_mutually_exclusive_group(required=required)
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


def wrong_is_asked(arguments: argparse.Namespace) -> bool:
    """Whether one of the options was given."""
    return any((arguments.broken, arguments.swap, arguments.join))


def wrong_asked(command: str, derived: Derived, arguments: argparse.Namespace) -> Fault:
    """The fault that was asked for. Raises RefusedError where a wire or terminal isn't there."""
    from schedules.behaviour.what_if import broken_wire, joined_points, swapped_ends  # noqa: PLC0415
    from schedules.connections.points import Point  # noqa: PLC0415

    try:
        if arguments.broken is not None:
            return broken_wire(derived, arguments.broken)
        if arguments.join is not None:
            return joined_points(derived, *(Point.read(text) for text in arguments.join))
        one, two = (text.partition("@") for text in arguments.swap)
        return swapped_ends(derived, (one[0], Point.read(one[2])), (two[0], Point.read(two[2])))
    except LookupError as error:
        raise RefusedError(f"hoodwright {command}: {error.args[0]}") from error
