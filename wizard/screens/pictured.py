"""What the screens share that show a drawing as it is printed: proved first, then the terminal is lent to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on, work
from textual.app import SuspendNotSupported
from textual.message import Message
from textual.worker import get_current_worker

from schedules.text import printable
from wizard.screens.browse import BrowseScreen

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Ladder
    from schedules.drawings.picture import Picture


class PicturedScreen(BrowseScreen):
    """A list and a view, of which one thing can be seen as a picture. Each kind says which, and where it is else.

    Abstract in what it raises, as the list and view are: the framework's metaclass leaves no room for another way.
    """

    NO_PICTURES = ""

    class Pictured(Message):
        """The worker has drawn and proved a drawing, page by page; no page: says why not."""

        def __init__(self, pages: tuple[bytes, ...], says: str) -> None:
            super().__init__()
            self.pages, self.says = pages, says

    def picture_of(self, place: int) -> tuple[str, Picture | Ladder]:
        """What the drawing of one thing shows, in words and as a picture."""
        raise NotImplementedError

    def action_picture(self) -> None:
        """Show the drawing of the thing under the cursor as it is printed, where the terminal says that it can."""
        if self.things.highlighted is None:
            return
        if not self._terminal_shows(()):
            self.notify(f"This terminal shows no pictures. {self.NO_PICTURES}", markup=False)
            return
        self.notify("Drawing and proving …   esc stops.", markup=False)
        self._draw(*self.picture_of(self.things.highlighted))

    @work(thread=True, exclusive=True, group="picture")
    def _draw(self, says: str, picture: Picture | Ladder) -> None:
        worker = get_current_worker()
        # The drawing engine is loaded only when somebody draws.
        from schedules.drawings.files import drawn_pages  # noqa: PLC0415

        try:
            pages = tuple(page.png() for page in drawn_pages(picture))
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
