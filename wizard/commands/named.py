"""Which of the known names a person typed: upper and lower case are one, and a near miss is told."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from wizard.diagnostics import RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable

_MOST_NEAR = 3
"""So many near misses are named at most."""
_ALIKE = 0.5
"""Share of letters in common from which a name is near: of two letters, one."""


def named(where: str, typed: str, known: Iterable[str], *, none: str = "") -> str:
    """The name that was typed, as it is written in sheet and job.

    where: command and argument, e.g. `hoodwright reach: CABLE`. none: what to say where nothing is known. Raises
    RefusedError, which names what is allowed and what comes nearest.
    """
    names = tuple(dict.fromkeys(known))
    found = match(typed, names)
    if found is None:
        raise refusal(where, typed, names, none=none)
    return found


def match(typed: str, names: Iterable[str]) -> str | None:
    """The name as it is written; where two differ by their case alone, only the exact one."""
    names = tuple(names)
    if typed in names:
        return typed
    alike = [name for name in names if name.casefold() == typed.strip().casefold()]
    return alike[0] if len(alike) == 1 else None


def refusal(where: str, typed: str, names: Iterable[str], *, none: str = "") -> RefusedError:
    """What was found, what is allowed, and which of it was perhaps meant."""
    names = tuple(names)
    return RefusedError(
        f'{where}: found "{typed}"; allowed: {", ".join(names) or none}{_meant(typed, names)}'
    )


def _meant(typed: str, names: tuple[str, ...]) -> str:
    """The nearest names, nearest first; empty where nothing is near."""
    folded = {name.casefold(): name for name in names}
    near = difflib.get_close_matches(typed.strip().casefold(), folded, n=_MOST_NEAR, cutoff=_ALIKE)
    return f"; did you mean {' or '.join(folded[name] for name in near)}?" if near else ""
