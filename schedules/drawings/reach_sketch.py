"""Where one cable's end stands, and where it may stand instead, as a sketch for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.wall_content import wall_content
from schedules.drawings.wall_sketch import sketch_legend, wall_sketch

if TYPE_CHECKING:
    from schedules.drawings.wall_sketch import Signs
    from schedules.plan import Plan

_ROWS = 24


def reach_sketch(plan: Plan, cable: str, *, columns: int, signs: Signs) -> tuple[str, ...]:
    """The wall on which an end of a cable stands, with its legend; nothing where none stands on a measured wall.

    The end that the cable goes to comes before the one that it comes from, one that may move before one that may not.
    """
    ends = next(item for item in plan.derived.selection.cables if item.tag == cable)
    devices = {device.enclosure: device for device in plan.derived.devices}
    on_walls = [devices[end.enclosure] for end in (ends.target, ends.origin) if end.enclosure in devices]
    contents = [wall_content(plan, device.wall, cable) for device in on_walls]
    movers = {shade.mover for content in contents for shade in content.shades}
    found = sorted(zip(on_walls, contents, strict=True), key=lambda pair: pair[0].enclosure not in movers)
    if not found:
        return ()
    device, content = found[0]
    sketch = wall_sketch(
        content, columns=columns, rows=_ROWS, signs=signs, subject=device.enclosure, cable=cable
    )
    if not sketch:
        return ()
    legend = sketch_legend(content, columns=columns, signs=signs, subject=device.enclosure, cable=cable)
    return (*sketch, *legend)
