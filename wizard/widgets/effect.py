"""What the last answer changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from wizard.wording import brief_effect, effect_content

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from wizard.session import Snapshot


class EffectPane(VerticalScroll):
    """Added, removed, altered: terminations, cables, circuits, openings, findings."""

    def compose(self) -> ComposeResult:
        """Lay the pane out."""
        yield Static(Content("What the last answer did"), classes="head")
        yield Static(id="effect-lines")

    def show(self, snapshot: Snapshot, longest: int | None) -> None:
        """Take the last answer's effect; longest: where only so many lines have room, each cut off at the edge."""
        lines = self.query_one("#effect-lines", Static)
        brief = longest is not None and bool(snapshot.last) and not snapshot.unsaved
        lines.set_class(brief, "-brief")
        lines.update(
            brief_effect(snapshot, longest) if brief and longest is not None else effect_content(snapshot)
        )
        self.scroll_home(animate=False)
