"""What was read from an equipment sheet, as text for a terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from schedules.text import for_terminal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.sheet.sheet import Sheet


def sheet_lines(sheet: Sheet, width: int) -> Iterator[str]:
    """Say that a sheet can be used, and what is in it, so that a person sees what was read."""
    title = sheet.sheet
    yield from _wrapped(f"{title.name}, revision {title.revision}: no mistake found.", width)
    counted = (
        ("choices", len(sheet.choices)),
        ("parts", len(sheet.part)),
        ("enclosures", len(sheet.enclosure)),
        ("openings", len(sheet.opening)),
        ("devices", len(sheet.device)),
        ("terminals", sum(len(device.terminal) for device in sheet.device)),
        ("circuits", len(sheet.circuit)),
        ("cables", len(sheet.cable)),
        ("conductors", sum(len(cable.core) for cable in sheet.cable)),
        ("states", len(sheet.state)),
    )
    yield from _wrapped("; ".join(f"{name} {count}" for name, count in counted), width)


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(for_terminal(text), width, subsequent_indent="  ")
