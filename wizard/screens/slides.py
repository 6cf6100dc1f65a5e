"""One slide at a time, large, for a projector."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Digits, Footer, Static

from wizard import keys

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from wizard.slides import Slide


class SlidesScreen(Screen[None]):
    """Slides, one in view; there is at least one."""

    TOPIC = "slides"
    CSS_PATH = "slides.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.SLIDES)

    def __init__(self, title: str, slides: tuple[Slide, ...], first: int = 0) -> None:
        super().__init__()
        self._title, self._slides, self._place = title, slides, first

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(id="title")
        yield Static(id="head")
        yield Digits(id="figure")
        with VerticalScroll(can_focus=False):
            yield Static(id="lines")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Show the slide to begin with."""
        self._show()

    def action_next_slide(self) -> None:
        """Show the next slide."""
        self._go(1)

    def action_previous_slide(self) -> None:
        """Show the slide before."""
        self._go(-1)

    def action_more(self) -> None:
        """Show the lines that are below."""
        self.query_one(VerticalScroll).scroll_page_down(animate=False)

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _go(self, by: int) -> None:
        self._place = max(0, min(len(self._slides) - 1, self._place + by))
        self._show()

    def _show(self) -> None:
        slide = self._slides[self._place]
        where = f"   slide {self._place + 1} of {len(self._slides)}"
        self.query_one("#title", Static).update(
            Content.assemble((self._title, "bold"), f"   {slide.over}{where}")
        )
        self.query_one("#head", Static).update(Content.styled(slide.head.upper(), "bold"))
        figure = self.query_one("#figure", Digits)
        figure.update(slide.figure)
        figure.display = bool(slide.figure)
        self.query_one("#lines", Static).update(Content("\n\n").join(map(Content, slide.lines)))
        self.query_one(VerticalScroll).scroll_home(animate=False)
