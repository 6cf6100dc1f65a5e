"""One cable's reach: what it needs, what it has, and how that came about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from schedules.site.routes import Unmeasured
from schedules.writers.text import working_lines
from wizard.screens.browse import BrowseScreen

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual import events
    from textual.widget import Widget

    from schedules.site.reach import CableLength


class ReachScreen(BrowseScreen):
    """The cables of a plan, and one cable's working."""

    TOPIC = "reach"
    HEADING = "Reach"

    def view(self) -> Iterable[Widget]:
        """The cable's name, then its working."""
        yield Static(id="view-head")
        with VerticalScroll(id="view-box"):
            yield Static(id="working")

    @property
    def _lengths(self) -> tuple[CableLength, ...]:
        return self.plan.derived.lengths

    def prompts(self) -> Iterable[Content]:
        """Each cable with its verdict."""
        return (Content.assemble((f"{item.cable:<5}", "bold"), _verdict(item)) for item in self._lengths)

    def look_at(self, place: int) -> None:
        """Show one cable's working."""
        length = self._lengths[place]
        cable = next(item for item in self.plan.derived.selection.cables if item.tag == length.cable)
        ends = f"{cable.origin.enclosure} to {cable.target.enclosure}, {cable.type}, {cable.make} cable"
        self.query_one("#view-head", Static).update(
            Content.assemble((f"{cable.tag}  {cable.name}", "bold"), f"\n{ends}")
        )
        width = max(self.query_one("#view-box").content_size.width - 2, 40)
        self.query_one("#working", Static).update(Content("\n".join(_lines(length, width))))

    def on_resize(self, event: events.Resize) -> None:
        """Lay the lines out anew."""
        super().on_resize(event)
        if self.things.highlighted is not None:
            self.call_after_refresh(self.look_at, self.things.highlighted)


def _verdict(length: CableLength) -> str:
    return "not measured" if isinstance(length.route, Unmeasured) else str(length.verdict)


def _lines(length: CableLength, width: int) -> Iterable[str]:
    if isinstance(length.route, Unmeasured):
        return [f"The way is not known yet. To be measured: {length.route.in_words()}."]
    return working_lines(length.working, width) if length.working is not None else []
