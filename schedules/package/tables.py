"""A schedule as a table to print: its text, columns that a hand fills in, what goes on paper and what doesn't."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from schedules.rows.schedule import DASH
from schedules.text import for_terminal
from schedules.writers.document import Fill, Head, Mark, Row, Table

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from schedules.package.done import Done
    from schedules.rows.schedule import Schedule

_HELD_TOGETHER = re.compile(
    r"(?<=\d') (?=\d)"
    r"|(?<=\d) (?=(?:AWG|ohm|V|A|W|VA|in|ft|s|lb|lbf·in|cu|sq|pole)\b|%)"
    r"|(?<=\d in) (?=of\b)|(?<=cu) (?=in\b)|(?<=sq) (?=in\b)"
    r"|(?<=\w) (?=– \w)|(?<=\w –) (?=\w)"
    r"|(?:(?<=[A-Z])|(?<=[A-Z]\d)) (?=[A-Z]+\d*:[\w+-])"
)

_BY_HAND: Mapping[str, Fill] = {
    "tick": Fill.TICK,
    "photo": Fill.TICK,
    "found": Fill.WRITE,
    "initials": Fill.WRITE,
}
_BY_HAND_IN: Mapping[str, Mapping[str, Fill]] = {
    "as-built": {"pulled": Fill.WRITE, "date": Fill.WRITE, "note": Fill.WRITE},
    "directory": {"spaces": Fill.WRITE},
}
"""Columns of a schedule that a hand fills in where nothing stands in them yet, by key."""

_TO_TICK = "[ ]"
"""A box in the words of a terminal."""

_DONE = (Head("done", "Done", fill=Fill.TICK), Head("by", "Initials", fill=Fill.WRITE))
_ADDED: Mapping[str, tuple[Head, ...]] = {
    "terminations": (
        Head("done", "Landed", fill=Fill.TICK),
        Head("torqued", "Torque found", fill=Fill.WRITE),
        Head("by", "Initials", fill=Fill.WRITE),
    ),
    "conductors": (Head("checked", "Checked", fill=Fill.TICK),),
    "spares": _DONE,
    "empty": (Head("seen", "Seen empty", fill=Fill.TICK),),
    "cables": (
        Head("pulled", "Pulled", fill=Fill.TICK),
        Head("tested", "Tested", fill=Fill.TICK),
        Head("by", "Initials", fill=Fill.WRITE),
    ),
    "circuits": _DONE,
    "raceways": _DONE,
    "openings": (Head("done", "Done", fill=Fill.TICK),),
    "boxes": _DONE,
    "framing": _DONE,
    "interlocks": (Head("seen", "Seen", fill=Fill.TICK), Head("by", "Initials", fill=Fill.WRITE)),
    "mounting": (Head("found", "Found", fill=Fill.WRITE),),
    "bracket": _DONE,
    "blocks": _DONE,
    "duct": (Head("found", "Found", fill=Fill.WRITE),),
    "air": (Head("found", "Found", fill=Fill.WRITE),),
    "gas": (Head("found", "Found", fill=Fill.WRITE),),
    "work": _DONE,
    "before-cover": (Head("by", "Initials", fill=Fill.WRITE),),
}
"""What is added on paper for a hand to fill in, by schedule."""

_OFF_PAPER: Mapping[str, tuple[str, ...]] = {
    "faults": ("effects",),
    "before-cover": ("source",),
    "owner": ("source",),
}
"""Columns that take too much room on paper, by schedule; the page for the screen and the workbook have them."""

_IN_FULL: Mapping[str, Mapping[str, Callable[[Any], str]]] = {
    name: {"terminal": lambda row: f"{row.enclosure} {row.terminal}"} for name in ("terminations", "empty")
}
"""Cells that say on paper what elsewhere their heading says: a photograph of one row tells which box it is about."""

_ON_PAPER: Mapping[str, tuple[Callable[[Any], bool], str]] = {
    "faults": (
        lambda row: bool(row.dangers) and row.hidden,
        "These are the faults that endanger somebody and that nobody notices in use: what commissioning has to find. "
        "The other {}, and what is different with each, are on the page for the screen and in the workbook.",
    ),
}
"""Rows that go on paper where not all of them do, and what is said of the others."""


def table(
    schedule: Schedule[Any],
    marks: Mapping[int, Mark] | None = None,
    done: Callable[[Any], Done] | None = None,
    *,
    paper: bool = False,
) -> Table:
    """A schedule's text with the columns that a hand fills in.

    marks: how rows differ from the package before, by their place. done: what is recorded of a row. paper: leave
    out what is for the screen only.
    """
    set_ = kept_together if paper else str
    left_off = _OFF_PAPER.get(schedule.id, ()) if paper else ()
    in_full = _IN_FULL.get(schedule.id, {}) if paper else {}
    columns = tuple(column for column in schedule.columns if column.key not in left_off)
    by_hand = {**_BY_HAND, **_BY_HAND_IN.get(schedule.id, {})}
    heads = tuple(
        Head(column.key, one_line(column.head), column.right, by_hand.get(column.key, Fill.PRINTED))
        for column in columns
    )
    added = _ADDED.get(schedule.id, ())
    wanted, told = _ON_PAPER.get(schedule.id, (None, "")) if paper else (None, "")
    anchors: set[str] = set()
    rows = []
    for place, row in enumerate(schedule.rows):
        if wanted is not None and not wanted(row):
            continue
        cells = tuple(
            ""
            if _is_blank(text := in_full.get(column.key, column.cell)(row), by_hand.get(column.key))
            else set_(one_line(text))
            for column in columns
        )
        recorded = {} if done is None else done(row)
        rows.append(
            Row(
                cells=(*cells, *(one_line(recorded.get(head.key, "")) for head in added)),
                group=one_line(schedule.group(row)),
                anchor=_anchor(schedule.id, row, anchors),
                mark=(marks or {}).get(place, Mark.SAME),
            )
        )
    left = len(schedule.rows) - len(rows)
    return Table(
        id=schedule.id,
        title=one_line(schedule.title),
        note=one_line(schedule.note),
        heads=(*heads, *added),
        rows=tuple(rows),
        left_out=told.format(left) if left else "",
    )


def _is_blank(text: str, fill: Fill | None) -> bool:
    """Whether a hand is to fill this in: a box to tick, or what is not known yet in a column to write in."""
    return text == _TO_TICK or (text == DASH and fill is Fill.WRITE)


def kept_together(text: str) -> str:
    """Text in which a number is not parted from its unit, inches from their feet, one end of a range from the other, a
    terminal from its enclosure."""
    return _HELD_TOGETHER.sub("\u00a0", text)


def one_line(text: str) -> str:
    """Text as one line of visible characters, whoever wrote it."""
    return " ".join(for_terminal(text).split())


def _anchor(schedule: str, row: Any, used: set[str]) -> str:
    """Where a drawing's terminal leads to: the first row of that terminal, or the one that says why it is empty."""
    if schedule not in ("terminations", "empty"):
        return ""
    anchor = row.terminal.replace(":", "-")
    if anchor in used:
        return ""
    used.add(anchor)
    return str(anchor)
