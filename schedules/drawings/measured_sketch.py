"""The wall that an answer of the job measures, as a sketch for a screen: by the measurements alone, without a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.connections.options import select
from schedules.drawings.wall_content import bare_wall
from schedules.drawings.wall_sketch import LINES, sketch_legend, wall_sketch
from schedules.site.hood_place import hung_hood
from schedules.site.room import Room
from schedules.site.wall_devices import wall_devices

if TYPE_CHECKING:
    from schedules.drawings.wall_sketch import Signs
    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet
    from schedules.site.room import PlacedWall
    from schedules.site.routes import Answer

_MOST_ROWS = 26


def measured_sketch(
    sheet: Sheet, job: Job, answer: Answer, *, columns: int, rows: int, signs: Signs = LINES
) -> tuple[str, ...]:
    """The wall with its legend, in no more columns and rows; nothing while no wall is measured or there is no room.

    The enclosure whose place is measured stands in brackets.
    """
    room = Room.of(job)
    if room is None:
        return ()
    wall = _wall_of(job, room, answer)
    devices = wall_devices(job, select(sheet, frozenset(job.choices)), room)
    content = bare_wall(job, wall, devices, hung_hood(sheet, job), is_main=wall is room.main)
    subject = answer[1] if answer[0] == "place" else None
    legend = sketch_legend(content, columns=columns, signs=signs, subject=subject)
    sketch = wall_sketch(
        content, columns=columns, rows=min(rows - len(legend), _MOST_ROWS), signs=signs, subject=subject
    )
    return (*sketch, *legend) if sketch else ()


def _wall_of(job: Job, room: Room, answer: Answer) -> PlacedWall:
    """The wall that an answer is about: the range wall where it is about none, or about an open side."""
    table, row, _ = answer
    tag = row if table == "wall" else None
    if table == "place":
        tag = next((item.wall for item in job.place if item.enclosure == row), None)
    elif table == "cabinet":
        tag = next((item.wall for item in job.cabinet if item.tag == row), None)
    elif table == "keep_out":
        tag = next((item.wall for item in job.keep_out if item.tag == row), None)
    wall = room.wall(tag)
    return room.main if wall is None or wall.open else wall
