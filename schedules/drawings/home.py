"""Where a sheet's enclosures belong on every drawing: settled once, over what can be bought of the sheet.

It depends on the sheet alone, so the same enclosure keeps its place from view to view, from job to job, and when an
option more is bought. A few combinations of choices stand for all of them, from the fullest to the least: one home is
sought in which the lines of all of these cross little and each can be read on its paper.
"""

from __future__ import annotations

from functools import lru_cache
from math import prod
from typing import TYPE_CHECKING

from schedules.connections.options import combinations, select
from schedules.drawings.picture import Block, End, Line, Paper, Picture, Terminal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.options import Selection
    from schedules.sheet.choices import Group
    from schedules.sheet.sheet import Sheet

# Own choices: with fewer than six, homes were found in which other combinations could not be read (measured on the
# samples); where there are more combinations than can be looked through at once, everything fitted stands for all.
_STAND_FOR_ALL = 6
_MOST_COMBINATIONS = 4_096

_SHEETS_KEPT = 4


@lru_cache(maxsize=_SHEETS_KEPT)
def home_pictures(sheet: Sheet) -> tuple[Picture, ...]:
    """The pictures among which a sheet's home is settled; each enclosure that can be bought is in one of them."""
    if prod(_picks(group) for group in sheet.group) > _MOST_COMBINATIONS:
        return (_picture(sheet, None),)
    selections = [select(sheet, choices) for choices in combinations(sheet)]
    selections.sort(key=lambda selection: (-_size(selection), sorted(selection.choices)))
    return tuple(_picture(sheet, selection) for selection in _some(selections)) or (_picture(sheet, None),)


def _picks(group: Group) -> int:
    return len(group.choice) if group.pick == "one" else 2 ** len(group.choice)


def _size(selection: Selection) -> int:
    terminals = sum(len(device.terminal) for device in selection.devices)
    return terminals + sum(len(cable.core) for cable in selection.cables)


def _some(selections: list[Selection]) -> Iterator[Selection]:
    """At even distances from the fullest to the least, then for each enclosure still missing the fullest with it."""
    last = len(selections) - 1
    numbers = sorted({last * n // (_STAND_FOR_ALL - 1) for n in range(_STAND_FOR_ALL)}) if selections else []
    spread = [selections[number] for number in numbers]
    yield from spread
    shown = {item.tag for selection in spread for item in selection.enclosures}
    for selection in selections:
        tags = {item.tag for item in selection.enclosures}
        if not tags <= shown:
            shown |= tags
            yield selection


def _picture(sheet: Sheet, selection: Selection | None) -> Picture:
    """Every enclosure with the terminals of its devices, and every core of every cable; None for all of the sheet."""
    enclosures, devices, circuits, cables = (
        (sheet.enclosure, sheet.device, sheet.circuit, sheet.cable)
        if selection is None
        else (selection.enclosures, selection.devices, selection.circuits, selection.cables)
    )
    enclosure_of = {device.tag: device.enclosure for device in devices}
    panel = next((item.tag for item in enclosures if item.kind == "panel"), None)
    if panel is not None:
        enclosure_of |= {circuit.tag: panel for circuit in circuits}
    points: dict[str, dict[str, None]] = {item.tag: {} for item in enclosures}
    for device in devices:
        for terminal in device.terminal:
            points.get(device.enclosure, {})[f"{device.tag}:{terminal.id}"] = None
    lines = []
    for cable in cables:
        for n, core in enumerate(cable.core):
            ends = [str(end) for end in (core.origin, core.target) if end is not None]
            homes = [enclosure_of.get(end.partition(":")[0], "") for end in ends]
            if len(ends) == 2 and all(home in points for home in homes):
                for end, home in zip(ends, homes, strict=True):
                    points[home][end] = None
                a, b = (End(home, end) for end, home in zip(ends, homes, strict=True))
                if a != b:
                    lines.append(Line(f"{cable.tag}.{n}", a, b, cable=cable.tag))
    orders = {item.tag: order for order, item in enumerate(sheet.enclosure)}
    blocks = tuple(
        Block(
            item.tag,
            item.tag,
            item.name,
            tuple(Terminal(key, key) for key in points[item.tag]),
            orders[item.tag],
        )
        for item in enclosures
    )
    return Picture("Fitted", blocks, tuple(lines), paper=Paper.TABLOID)
