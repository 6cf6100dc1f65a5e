"""Drive the wizard in tests: open it, press keys, wait for what is meant to happen."""

from __future__ import annotations

import shutil
import time
from contextlib import asynccontextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from textual.worker import WorkerState

from tests.screen_text import text
from wizard.app import Wizard
from wizard.screens.steps import StepsScreen
from wizard.widgets.question_row import AnswerInput

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable

    from textual.pilot import Pilot
    from textual.screen import Screen

    from wizard.session import Snapshot

SAMPLES = Path(__file__).parents[1] / "samples"
NARROW = (80, 24)
WIDE = (160, 50)
LONGEST_WAIT_S = 30.0
"""How long a condition may take before the test gives up; nothing passes by waiting."""

_NAMES = {
    " ": "space",
    "'": "apostrophe",
    '"': "quotation_mark",
    ".": "full_stop",
    ",": "comma",
    ";": "semicolon",
    "-": "minus",
    "/": "slash",
    "%": "percent_sign",
}


class Stage:
    """One running wizard and a person at its keys."""

    def __init__(self, app: Wizard, pilot: Pilot[int]) -> None:
        self.app = app
        self.pilot = pilot

    @property
    def screen(self) -> Screen[object]:
        """The screen in view."""
        return self.app.screen

    @property
    def steps(self) -> StepsScreen:
        """The screen of steps, wherever it is in the stack."""
        return next(screen for screen in self.app.screen_stack if isinstance(screen, StepsScreen))

    @property
    def snapshot(self) -> Snapshot:
        """The job as it stands."""
        return self.steps.session.now

    @property
    def field(self) -> AnswerInput:
        """The field that is being typed in."""
        focused = self.screen.focused
        assert isinstance(focused, AnswerInput), f"no open field\n{self.text}"
        return focused

    @property
    def text(self) -> str:
        """The screen as text."""
        return text(self.app)

    async def until(self, holds: Callable[[], bool], words: str) -> None:
        """Wait for a condition, which `words` names where it fails to come."""
        limit = time.monotonic() + LONGEST_WAIT_S
        while not holds():
            assert time.monotonic() < limit, f"never came: {words}\n{self.text}"
            await self.pilot.pause()

    async def settled(self) -> None:
        """Wait until no work is under way and the screen shows the outcome."""

        def at_rest() -> bool:
            busy = (WorkerState.PENDING, WorkerState.RUNNING)
            return not any(worker.state in busy for worker in self.app.workers)

        await self.until(at_rest, "all workers done")
        await self.pilot.pause()
        await self.until(at_rest, "all workers done")
        await self.pilot.pause()

    async def still(self) -> None:
        """Wait until the screen no longer changes: scroll bars are drawn after what they scroll."""
        before = ""
        while before != (now := self.text):
            before = now
            await self.settled()

    async def press(self, *keys: str) -> None:
        """Press keys, each after the one before has had its effect."""
        for key in keys:
            await self.pilot.press(key)
            await self.settled()

    async def type(self, words: str) -> None:
        """Type words, letter by letter."""
        await self.pilot.press(*(_NAMES.get(letter, letter) for letter in words))
        await self.settled()

    async def answer(self, words: str) -> None:
        """Open the question under the cursor, type the answer and accept it."""
        await self.press("enter")
        await self.type(words)
        await self.press("enter")

    async def go(self, label: str) -> None:
        """Go down with the arrow key to the question with this label."""
        for _ in range(80):
            question = getattr(self.screen.focused, "question", None)
            if question is not None and question.field.label == label:
                return
            await self.press("down")
        raise AssertionError(f"no question {label}\n{self.text}")

    async def shows(self, *words: str) -> None:
        """Wait until the screen holds these words."""
        for word in words:
            await self.until(lambda word=word: word in self.text, f"on the screen: {word}")  # type: ignore[misc]


@asynccontextmanager
async def staged(job: Path | None = None, size: tuple[int, int] = NARROW) -> AsyncIterator[Stage]:
    """A running wizard, with a job or on its first screen."""
    app = Wizard(job)
    async with app.run_test(size=size, notifications=True) as pilot:
        stage = Stage(app, pilot)
        await stage.settled()
        yield stage


@asynccontextmanager
async def staged_sheet(sheet: Path, size: tuple[int, int]) -> AsyncIterator[Stage]:
    """A running wizard in which an equipment sheet is written."""
    app = Wizard(None, sheet)
    async with app.run_test(size=size, notifications=True) as pilot:
        stage = Stage(app, pilot)
        await stage.settled()
        yield stage


def sample_job(name: str, folder: Path) -> Path:
    """A copy of a sample job, with its sheet, in a folder; its path from there."""
    shutil.copytree(SAMPLES / "sheets", folder / "sheets", dirs_exist_ok=True)
    written = (SAMPLES / "jobs" / f"{name}.toml").read_text(encoding="utf-8")
    path = folder / f"{name}.toml"
    path.write_text(written.replace("../sheets/", "sheets/"), encoding="utf-8")
    return Path(path.name)
