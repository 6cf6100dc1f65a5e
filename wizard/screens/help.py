"""Help: what this screen is for, and every key that works on it."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Footer, Static

from wizard import keys

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from textual.app import ComposeResult
    from textual.binding import Binding, BindingType


class HelpScreen(Screen[None]):
    """One page of help. topic: which one. bindings: the keys of the screen that asked."""

    CSS_PATH = "help.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [keys.BACK]
    AUTO_FOCUS = "VerticalScroll"

    def __init__(self, topic: str, bindings: tuple[Binding, ...]) -> None:
        super().__init__()
        self._topic, self._offered = topic, bindings

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        yield Static(Content.styled("Help", "bold"), id="title")
        with VerticalScroll():
            yield Static(Content("\n").join(_page(help_text(self._topic))), id="help-page")
            yield Static(Content("\n").join(_key_lines(self._offered)), id="help-keys")
        yield Footer(show_command_palette=False)

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)


def help_text(topic: str) -> str:
    """The page on one topic, as written. Raises FileNotFoundError where there is none."""
    return files("wizard").joinpath("help", f"{topic}.md").read_text(encoding="utf-8")


def _page(text: str) -> Iterator[Content]:
    """Paragraphs run on and wrap where the screen ends; headings are bold."""
    for block in text.strip().split("\n\n"):
        head, _, body = block.partition("\n") if block.startswith("#") else ("", "", block)
        if head:
            yield Content.styled(head.lstrip("# "), "bold")
        yield Content(f"{' '.join(body.splitlines())}\n")


def _key_lines(bindings: Iterable[Binding]) -> Iterator[Content]:
    yield Content.styled("Keys", "bold")
    for binding in bindings:
        shown = binding.key_display or _NAMES.get(binding.key, binding.key)
        yield Content.assemble((f"{shown:>8}", "bold"), f"  {binding.description}: {binding.tooltip}")


_NAMES = {"question_mark": "?", "slash": "/", "enter": "⏎", "escape": "esc", "upper_u": "U"}
