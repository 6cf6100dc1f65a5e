"""The drawings in characters: the whole kitchen, then each enclosure with all that lands there."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import ScrollableContainer
from textual.content import Content
from textual.widgets import Static

from schedules.drawings.characters import in_characters
from schedules.drawings.views import one_enclosure, overview
from schedules.text import for_terminal
from wizard import keys
from wizard.screens.browse import WIDE
from wizard.screens.pictured import PicturedScreen

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.drawings.picture import Picture


class DrawingsScreen(PicturedScreen):
    """A list of drawings and the one under the cursor."""

    TOPIC = "drawings"
    HEADING = "Drawings"
    NO_PICTURES = "In the diagram step o opens the drawing in this computer's viewer."
    BINDINGS: ClassVar[list[BindingType]] = list(keys.DRAWINGS)

    def view(self) -> Iterable[Widget]:
        """The drawing's name, then the drawing."""
        yield Static(id="view-head")
        with ScrollableContainer(id="view-box"):
            yield Static(id="drawing")

    @property
    def _enclosures(self) -> tuple[tuple[str, str], ...]:
        """Tag and name of every enclosure at which something lands."""
        # Only who looks at drawings needs what the package draws.
        from schedules.package.figures import used_enclosures  # noqa: PLC0415

        names = {item.tag: item.name for item in self.plan.derived.selection.enclosures}
        return tuple((tag, names[tag]) for tag in used_enclosures(self.plan))

    def prompts(self) -> Iterable[Content]:
        """The whole, then each enclosure with its name; where there is little room, without."""
        named = self.size.width >= WIDE
        yield Content.styled("Overview" if named else "All", "bold")
        for tag, name in self._enclosures:
            yield Content.assemble((f"{tag:<4}", "bold"), name if named else "")

    def look_at(self, place: int) -> None:
        """Show one drawing."""
        says, picture = self.picture_of(place)
        self.query_one("#view-head", Static).update(Content.styled(for_terminal(says), "bold"))
        self.query_one("#drawing", Static).update(Content("\n".join(in_characters(picture))))
        self.query_one("#view-box").scroll_home(animate=False)

    def picture_of(self, place: int) -> tuple[str, Picture]:
        """What a drawing of the list shows, in words and as a picture."""
        if not place:
            return "Every cable, from box to box", overview(self.plan)
        tag, name = self._enclosures[place - 1]
        return f"{tag}  {name}: all that lands here, and where it goes", one_enclosure(self.plan, tag)
