"""What differs between two plans, as text for a terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from schedules.comparison import Kind, count
from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.comparison import Comparison

_SIGNS = {Kind.ADDED: "+", Kind.REMOVED: "-", Kind.ALTERED: "~"}


def comparison_lines(comparison: Comparison, width: int) -> Iterator[str]:
    """Say first how much differs, then each change under its schedule: + added, - removed, ~ altered."""
    changes = [change for _, group in comparison.by_subject() for change in group]
    if not changes:
        yield "Nothing differs."
        return
    counts = ", ".join(f"{number} {kind}" for kind in Kind if (number := count(changes, kind)))
    yield f"The second job against the first: {counts}."
    for name, group in comparison.by_subject():
        if group:
            yield ""
            yield name.capitalize()
            for change in group:
                yield from textwrap.wrap(
                    for_terminal(f"{_SIGNS[change.kind]} {change}"), width, subsequent_indent="    "
                )
