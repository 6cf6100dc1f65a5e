"""Two plans in one drawing: what the second adds, leaves out or lands elsewhere, in words at both ends."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.drawings.picture import Paper
from schedules.drawings.split import draw_pages
from schedules.drawings.views import point_to_point, warning

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Block, Line, Picture
    from schedules.plan import Plan

ADDED, REMOVED, WAS, NOW = "+ ADDED", "− REMOVED", "− BEFORE", "+ NOW"
"""What stands at both ends of a line that differs."""


def marked(before: Plan, after: Plan, paper: Paper = Paper.TABLOID) -> Picture:
    """Every conductor that differs, point to point, marked; those that are the same are left out.

    A line that is removed, or was otherwise, has a name of its own: its number with `×` behind it.
    """
    old, new = point_to_point(before, paper), point_to_point(after, paper)
    lines = tuple(_lines(old, new))
    used = {end for line in lines for end in (line.a, line.b)}
    shown = {end.block for end in used}
    keys = {(end.block, end.terminal) for end in used}
    blocks = tuple(
        replace(
            block,
            partial=True,
            terminals=tuple(item for item in block.terminals if (block.key, item.key) in keys),
        )
        for block in _blocks(old, new)
        if block.key in shown
    )
    return replace(
        new,
        title="What differs, point to point",
        subtitle=f"{_named(before)}  →  {_named(after)}. {_chosen(before, after)}"
        "Conductors that are the same in both are left out.",
        blocks=blocks,
        lines=lines,
    )


def _named(plan: Plan) -> str:
    """A job by its name and revision: of two revisions only the second differs."""
    job = plan.derived.job.job
    return f"{job.name}, revision {job.revision}{warning(plan)}"


def _chosen(before: Plan, after: Plan) -> str:
    """Which choices were put in and taken out; nothing where the sheets are not the same."""
    sheet = after.derived.sheet
    if before.derived.sheet.sheet.id != sheet.sheet.id:
        return ""
    was, now = before.derived.job.choices, after.derived.job.choices
    put_in = "; ".join(choice.title for choice in sheet.choices if choice.id in now and choice.id not in was)
    taken_out = "; ".join(
        choice.title for choice in sheet.choices if choice.id in was and choice.id not in now
    )
    told = (("Put in", put_in), ("Taken out", taken_out))
    return "".join(f"{words}: {titles}. " for words, titles in told if titles)


def marked_files(before: Plan, after: Plan) -> dict[str, bytes]:
    """The marked drawing as SVG and PNG, on as many pages as can be read, by file name.

    Raises DrawingError where a page is not proved, EngineError.
    """
    files: dict[str, bytes] = {}
    for number, page in enumerate(draw_pages(marked(before, after)), start=1):
        files |= {f"differs-{number}.svg": page.svg.encode(), f"differs-{number}.png": page.png()}
    return files


def _lines(old: Picture, new: Picture) -> Iterator[Line]:
    was = {line.key: line for line in old.lines}
    now = {line.key: line for line in new.lines}
    for key in sorted(was.keys() | now.keys(), key=int):
        before, after = was.get(key), now.get(key)
        if before == after:
            continue
        if before is not None:
            yield replace(before, key=f"{key}×", note=_noted(before, REMOVED if after is None else WAS))
        if after is not None:
            yield replace(after, note=_noted(after, ADDED if before is None else NOW))


def _noted(line: Line, words: str) -> str:
    return f"{line.note} {words}".strip()


def _blocks(old: Picture, new: Picture) -> Iterator[Block]:
    """Every block of both, with the terminals of both."""
    was = {block.key: block for block in old.blocks}
    for block in new.blocks:
        before = was.pop(block.key, None)
        if before is None:
            yield block
            continue
        keys = {item.key for item in block.terminals}
        gone = tuple(item for item in before.terminals if item.key not in keys)
        # Terminals of one device stand together, so that its name is said once.
        order = {item.group: place for place, item in reversed(list(enumerate((*block.terminals, *gone))))}
        together = sorted((*block.terminals, *gone), key=lambda item: order[item.group])
        yield replace(block, terminals=tuple(together))
    yield from was.values()
