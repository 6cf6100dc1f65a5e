"""Make a package and put it into its folder: the one way that the command and the wizard take."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.package.folder import put, refuse_occupied
from schedules.package.packing import pack

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from schedules.package.packing import Order
    from schedules.plan import Plan


def make_package(
    plan: Plan, order: Order, folder: Path, *, replace: bool, tell: Callable[[str], None]
) -> tuple[Path, ...]:
    """Make every file of a package and write them, all or none; the files written.

    replace: an earlier package in the folder may give way. tell: is told what is being made; whatever it raises ends
    the work with nothing written. Raises InputError where the folder is occupied or can't be written, and what `pack`
    raises.
    """
    # What can't be written in the end is refused before the work is done.
    refuse_occupied(folder, replace=replace)
    contents = pack(plan, order, tell)
    tell("writing")
    put(folder, contents, replace=replace)
    return tuple(folder / name for name in contents)
