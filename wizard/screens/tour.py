"""The tour: what to see at this station, over the real screen of an invented kitchen."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Footer, Static

from wizard import keys
from wizard.tour import STATIONS

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.screens.steps import StepsScreen
    from wizard.tour import Ground


class TourScreen(ModalScreen[None]):
    """The stations, one after the other. Leaving it leaves the invented kitchen too."""

    TOPIC = "tour"
    CSS_PATH = "tour.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.TOUR)

    def __init__(self, ground: Ground, steps: StepsScreen) -> None:
        super().__init__()
        self._ground, self._steps = ground, steps
        self._place = 0
        self._reached = -1

    def compose(self) -> ComposeResult:
        """Lay the words out under what they are about."""
        with Vertical(id="tour-box"):
            yield Static(id="tour-title")
            yield Static(id="tour-words")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Begin once the screen behind is there."""
        self._steps.add_class("-toured")
        self.call_after_refresh(self._show)

    def action_next_station(self) -> None:
        """Go on; after the last station, back to the first screen."""
        if self._place + 1 == len(STATIONS):
            self.action_back()
        else:
            self._place += 1
            self._show()

    def action_previous_station(self) -> None:
        """Go to the station before."""
        self._place = max(0, self._place - 1)
        self._show()

    def action_back(self) -> None:
        """Leave the tour; nothing of it is kept."""
        self._steps.dismiss(None)
        self.dismiss(None)

    def on_unmount(self) -> None:
        """Take the invented kitchen away, however the tour ended."""
        self._ground.leave()

    def _show(self) -> None:
        station = STATIONS[self._place]
        self._steps.action_step(station.step)
        if self._place > self._reached:
            self._reached = self._place
            if station.answers:
                self._steps.take(station.answers, station.did)
        self.query_one("#tour-title", Static).update(
            Content.assemble((station.title, "bold"), f"   {self._place + 1} of {len(STATIONS)}")
        )
        self.query_one("#tour-words", Static).update(Content(station.words))
