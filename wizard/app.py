"""The full-screen wizard."""

from __future__ import annotations

import os
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import App

from schedules.cautions import CAUTIONS
from schedules.errors import InputError
from wizard import keys
from wizard.key_order import KeyOrder, Turn
from wizard.messages import Refused
from wizard.opening import opened
from wizard.output import in_browser, print_lines
from wizard.palette import KeyCommands
from wizard.screens.help import HelpScreen
from wizard.screens.sheet import SheetScreen
from wizard.screens.start import StartScreen
from wizard.screens.steps import StepsScreen
from wizard.screens.trouble import TroubleScreen
from wizard.sheet_opening import sheet_session
from wizard.theme import BRIGHT, DARK, THEMES

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.binding import BindingType
    from textual.command import Provider


class Wizard(App[int]):
    """The program: themes, keys that work everywhere, and which screen comes first."""

    TITLE = "hoodwright"
    CSS_PATH: ClassVar[list[str | PurePath]] = ["app.tcss", "widgets/widgets.tcss"]
    BINDINGS: ClassVar[list[BindingType]] = list(keys.APP)
    COMMANDS: ClassVar[set[type[Provider] | Callable[[], type[Provider]]]] = {KeyCommands}

    def __init__(self, job: Path | None, sheet: Path | None = None) -> None:
        # With NO_COLOR the terminal's own two colours are used, which the framework does only for ansi colours.
        super().__init__(ansi_color=True if os.environ.get("NO_COLOR") else None)
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = DARK
        self.fault: Exception | None = None
        self._job, self._sheet = job, sheet
        self.key_order = KeyOrder(self)

    def on_mount(self) -> None:
        """Show the first screen, and the job on it where one was named."""
        self.push_screen(StartScreen(Path.cwd()))
        if self._sheet is not None:
            self._write_sheet(self._sheet)
        if self._job is None:
            return
        outcome = opened(self._job, None)
        if isinstance(outcome, Refused):
            self.push_screen(TroubleScreen(outcome.mistakes))
        else:
            self.push_screen(StepsScreen(outcome.session))

    async def on_event(self, event: events.Event) -> None:
        """Let each key act after those before it."""
        if isinstance(event, events.Key | events.Paste) and not event.is_forwarded:
            self.key_order.take(event)
        else:
            await super().on_event(event)

    async def on_turn(self, event: Turn) -> None:
        """Hand the key whose turn it is to whatever has the cursor now."""
        await super().on_event(event.pressed)

    def _write_sheet(self, file: Path) -> None:
        try:
            self.push_screen(SheetScreen(sheet_session(file), file))
        except InputError as error:
            self.push_screen(TroubleScreen(error.mistakes))

    def action_help(self) -> None:
        """Explain the screen in view."""
        screen = self.screen
        topic = getattr(screen, "TOPIC", None)
        if topic is not None:
            bindings = [active.binding for active in screen.active_bindings.values()]
            # The framework's own keys, such as those that move the cursor in a field, have no id.
            ours = {binding.action: binding for binding in reversed(bindings) if binding.id}
            self.push_screen(HelpScreen(topic, tuple(reversed(ours.values()))))

    def action_switch_theme(self) -> None:
        """Switch between dark and bright."""
        self.theme = BRIGHT if self.theme == DARK else DARK

    def action_help_quit(self) -> None:
        """Say how to leave, where a person tries it the way other programs want it."""
        self.notify("q leaves. Everything is saved.", markup=False)

    def _handle_exception(self, error: Exception) -> None:
        self.fault = error
        super()._handle_exception(error)

    def _fatal_error(self) -> None:
        # The framework would print a traceback with the job's data in it; `run` hands the fault on instead.
        self._close_messages_no_wait()


def run(job: Path | None, sheet: Path | None = None) -> int:
    """Open the wizard, with a job, with an equipment sheet to write, or on its first screen; its exit status.

    Raises whatever fault of the program ended it, once the terminal is as it was.
    """
    app = Wizard(job, sheet)
    app.run()
    if app.fault is not None:
        raise app.fault
    if not in_browser():
        print_lines(CAUTIONS)
    return app.return_code or 0
