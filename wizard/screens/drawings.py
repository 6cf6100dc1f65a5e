"""The drawings in characters: the whole kitchen, then each enclosure with all that lands there."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on, work
from textual.app import SuspendNotSupported
from textual.containers import ScrollableContainer
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from schedules.drawings.characters import in_characters
from schedules.drawings.views import one_enclosure, overview
from schedules.text import for_terminal, printable
from wizard import keys
from wizard.screens.browse import WIDE, BrowseScreen

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.drawings.picture import Picture

_NO_PICTURES = (
    "This terminal shows no pictures. In the diagram step o opens the drawing in this computer's viewer."
)


class DrawingsScreen(BrowseScreen):
    """A list of drawings and the one under the cursor."""

    TOPIC = "drawings"
    HEADING = "Drawings"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.DRAWINGS)

    class Pictured(Message):
        """The worker has drawn and proved a drawing, page by page; no page: says why not."""

        def __init__(self, pages: tuple[bytes, ...], says: str) -> None:
            super().__init__()
            self.pages, self.says = pages, says

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
        says, picture = self._drawing(place)
        self.query_one("#view-head", Static).update(Content.styled(for_terminal(says), "bold"))
        self.query_one("#drawing", Static).update(Content("\n".join(in_characters(picture))))
        self.query_one("#view-box").scroll_home(animate=False)

    def _drawing(self, place: int) -> tuple[str, Picture]:
        """What a drawing of the list shows, in words and as a picture."""
        if not place:
            return "Every cable, from box to box", overview(self.plan)
        tag, name = self._enclosures[place - 1]
        return f"{tag}  {name}: all that lands here, and where it goes", one_enclosure(self.plan, tag)

    # As a picture -------------------------------------------------------------------------------------------------

    def action_picture(self) -> None:
        """Show the drawing under the cursor as it is printed, where the terminal says that it can."""
        if self.things.highlighted is None:
            return
        if not self._terminal_shows(()):
            self.notify(_NO_PICTURES, markup=False)
            return
        self.notify("Drawing and proving …   esc stops.", markup=False)
        self._draw(*self._drawing(self.things.highlighted))

    @work(thread=True, exclusive=True, group="picture")
    def _draw(self, says: str, picture: Picture) -> None:
        worker = get_current_worker()
        # The drawing engine is loaded only when somebody draws.
        from schedules.drawings.split import draw_pages  # noqa: PLC0415

        try:
            pages = tuple(page.png() for page in draw_pages(picture))
        # The engine is another program: whatever it does, the person is told.
        except Exception as error:
            pages, says = (), printable(str(error), 400)
        if not worker.is_cancelled:
            self.post_message(self.Pictured(pages, says))

    @on(Pictured)
    def _show_pages(self, event: Pictured) -> None:
        event.stop()
        if event.pages and self.is_current:
            count = len(event.pages)
            self._terminal_shows(
                tuple(
                    (page, f"{printable(event.says)}   {number} of {count}; any key goes on")
                    for number, page in enumerate(event.pages, start=1)
                )
            )
        elif not event.pages:
            self.notify(f"Not drawn: {event.says}", severity="error", markup=False)

    def _terminal_shows(self, pages: tuple[tuple[bytes, str], ...]) -> bool:
        """Lend the terminal to pictures, one after another; whether it shows any."""
        try:
            with self.app.suspend():
                # Systems whose terminals can't be lent have no module for it either.
                from wizard.terminal_picture import own_terminal, show_picture, shows_pictures  # noqa: PLC0415

                with own_terminal() as terminal:
                    if not shows_pictures(terminal):
                        return False
                    for page, words in pages:
                        show_picture(terminal, page, words)
        except (SuspendNotSupported, OSError):
            return False
        return True
