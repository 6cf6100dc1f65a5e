"""The package as the wizard makes it: the same files as `hoodwright pack` makes, nothing replaced unasked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.errors import InputError
from wizard.answering import refusal_words

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from wizard.session import Snapshot


class Stopped(Exception):  # noqa: N818  no error: a person's wish
    """The person has stopped the work."""


def rooms(folder: Path) -> tuple[bool, bool, str]:
    """Whether a package may go there, whether it may where an earlier one gives way, and else why not."""
    from schedules.package.folder import refuse_occupied  # noqa: PLC0415  only who prints needs it

    try:
        refuse_occupied(folder, replace=False)
    except InputError:
        try:
            refuse_occupied(folder, replace=True)
        except InputError as error:
            return False, False, refusal_words(error)
        return False, True, ""
    return True, True, ""


def print_package(
    snapshot: Snapshot,
    answers: Mapping[str, object],
    folder: Path,
    *,
    replace: bool,
    tell: Callable[[str], None],
) -> tuple[Path, ...]:
    """Plan the job with its remedies and make its package; the files written.

    tell: is told how far it is; whatever it raises stops the work. Raises what `make_package` raises.
    """
    from schedules.package.making import make_package  # noqa: PLC0415  only who prints needs it
    from schedules.package.ordering import order_of  # noqa: PLC0415
    from schedules.plan import plan_job  # noqa: PLC0415
    from schedules.remedies import with_remedies  # noqa: PLC0415

    tell("planning the job")
    plan = plan_job(snapshot.sheet, snapshot.draft.job)
    cured = with_remedies(snapshot.sheet, snapshot.draft, plan)
    return make_package(cured, order_of(answers), folder, replace=replace, tell=tell)
