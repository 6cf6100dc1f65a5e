"""What the job's as-built record says is done, for the boxes and blanks of printed rows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.quantities.lengths import format_length

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from schedules.plan import Plan

Done = dict[str, str]
"""What stands in a row's boxes and blanks, by the column's key."""


def done_in(plan: Plan) -> Mapping[str, Callable[[Any], Done]]:
    """For each schedule that has a record: what is done of one of its rows."""
    built = {item.cable: item for item in plan.derived.job.as_built}

    def landed(row: Any) -> Done:
        entry = built.get(row.cable)
        if entry is None or row.terminal not in entry.landed:
            return {}
        return {"done": "yes", "by": entry.initials}

    def pulled(row: Any) -> Done:
        entry = built.get(row.cable)
        if entry is None or entry.length is None:
            return {}
        return {"pulled": format_length(entry.length), "by": entry.initials}

    return {"terminations": landed, "cables": pulled}
