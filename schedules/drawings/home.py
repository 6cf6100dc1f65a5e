"""Where a sheet's enclosures belong on every drawing: settled once, with everything fitted that the sheet can bring.

It depends on the sheet alone, so the same enclosure keeps its place from view to view, from job to job, and when an
option more is bought.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.picture import Block, End, Line, Paper, Picture, Terminal

if TYPE_CHECKING:
    from schedules.sheet.sheet import Sheet


def home_picture(sheet: Sheet) -> Picture:
    """Every enclosure with the terminals of every device, every core of every cable that a choice may bring."""
    devices = {device.tag: device for device in sheet.device}
    enclosure_of = {device.tag: device.enclosure for device in sheet.device}
    panel = next((item.tag for item in sheet.enclosure if item.kind == "panel"), None)
    if panel is not None:
        enclosure_of |= {circuit.tag: panel for circuit in sheet.circuit}
    points: dict[str, dict[str, None]] = {item.tag: {} for item in sheet.enclosure}
    for device in devices.values():
        for terminal in device.terminal:
            points.get(device.enclosure, {})[f"{device.tag}:{terminal.id}"] = None
    lines = []
    for cable in sheet.cable:
        for n, core in enumerate(cable.core):
            ends = [str(end) for end in (core.origin, core.target) if end is not None]
            homes = [enclosure_of.get(end.partition(":")[0], "") for end in ends]
            if len(ends) == 2 and all(home in points for home in homes):
                for end, home in zip(ends, homes, strict=True):
                    points[home][end] = None
                a, b = (End(home, end) for end, home in zip(ends, homes, strict=True))
                if a != b:
                    lines.append(Line(f"{cable.tag}.{n}", a, b, cable=cable.tag))
    blocks = tuple(
        Block(item.tag, item.tag, item.name, tuple(Terminal(key, key) for key in points[item.tag]), order)
        for order, item in enumerate(sheet.enclosure)
    )
    return Picture("Everything fitted", blocks, tuple(lines), paper=Paper.TABLOID)
