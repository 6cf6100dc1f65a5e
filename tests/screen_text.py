"""A screen as text: the one place that reads what Textual has rendered, and compares it with what it was."""

from __future__ import annotations

import difflib
import os
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from rich.segment import Segment
    from textual.app import App

UPDATE = "UPDATE_SCREENS"
"""Set this variable to write the texts anew; look at the difference before it is kept."""


def segments(app: App[int]) -> Iterator[Iterator[Segment]]:
    """The rendered screen, line by line, in pieces of one style."""
    return (iter(strip) for strip in app.screen._compositor.render_strips())


def lines(app: App[int]) -> list[str]:
    """The rendered screen as lines, spaces at their ends taken off."""
    return ["".join(piece.text for piece in line).rstrip() for line in segments(app)]


def text(app: App[int]) -> str:
    """The rendered screen as one text."""
    return "\n".join(lines(app))


def compare_with_kept(app: App[int], kept: Path) -> None:
    """Hold the screen against the text that was kept of it; where there is none, or on request, keep this one."""
    now = f"{text(app)}\n"
    if os.environ.get(UPDATE):
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_text(now, encoding="utf-8")
        return
    assert kept.is_file(), f"no text is kept of this screen; run once with {UPDATE}=1 and look at {kept.name}"
    before, now = (_without_bars(words) for words in (kept.read_text(encoding="utf-8"), now))
    difference = difflib.unified_diff(before.splitlines(), now.splitlines(), "kept", "now", lineterm="")
    assert now == before, "\n".join(difference)


def _without_bars(words: str) -> str:
    """The text without the ends of scroll bars: the framework may draw them as they were a moment before."""
    return "\n".join(_BAR_END.sub("  ", line).rstrip() for line in words.splitlines())


_BAR_END = re.compile("[▁▂▃▄▅▆▇█]{2}")
