"""Drive the wizard in tests: open it, press keys, wait for what is meant to happen."""

from __future__ import annotations

import asyncio
import shutil
import time
import unicodedata
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual.events import Key
from textual.keys import REPLACED_KEYS, _character_to_key, _get_unicode_name_from_key
from textual.worker import WorkerError

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

    async def at_rest(self) -> None:
        """Wait until every message is read, every animation over and every change drawn; other threads may be at work.

        The event loop itself tells: whatever has something to do stands in its queue. That is as certain as to wait
        until the processor is idle, and takes no time of its own.
        """
        loop: Any = asyncio.get_running_loop()
        limit = time.monotonic() + LONGEST_WAIT_S
        while True:
            await asyncio.sleep(0)
            if not loop._ready:
                await self.app.animator.wait_until_complete()
                self.screen._on_timer_update()
                if not loop._ready:
                    return
            assert time.monotonic() < limit, f"never at rest\n{self.text}"

    async def until(self, holds: Callable[[], bool], words: str) -> None:
        """Wait for a condition, which `words` names where it fails to come."""
        limit = time.monotonic() + LONGEST_WAIT_S
        await self.at_rest()
        while not holds():
            assert time.monotonic() < limit, f"never came: {words}\n{self.text}"
            await self.pilot.pause()

    async def settled(self) -> None:
        """Wait until no work is under way and the screen shows the outcome."""
        await self.at_rest()
        async with asyncio.timeout(LONGEST_WAIT_S):
            while under_way := [worker for worker in self.app.workers if not worker.is_finished]:
                # What fails or is stopped is told by the screen, or by the program's end.
                with suppress(WorkerError):
                    await self.app.workers.wait_for_complete(under_way)
                await self.at_rest()

    async def still(self) -> None:
        """Wait until the screen no longer changes: scroll bars are drawn after what they scroll."""
        before = ""
        while before != (now := self.text):
            before = now
            await self.settled()

    async def press(self, *keys: str) -> None:
        """Press keys, each after the one before has had its effect."""
        for key in keys:
            self._send(key)
            await self.settled()

    def send(self, *keys: str) -> None:
        """Send keys all at one moment."""
        for key in keys:
            self._send(key)

    async def type(self, words: str) -> None:
        """Type words, letter by letter."""
        for letter in words:
            self._send(letter)
            await self.at_rest()
        await self.settled()

    def _send(self, key: str) -> None:
        """Send a key, named or as a letter, as the framework's own pilot does, without its pauses."""
        if len(key) == 1 and not key.isalnum():
            key = _character_to_key(key)
        letter: str | None
        try:
            letter = unicodedata.lookup(_get_unicode_name_from_key(REPLACED_KEYS.get(key, key)))
        except KeyError:
            letter = key if len(key) == 1 else None
        self.app.post_message(Key(key, letter))

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
    app.animation_level = "none"
    async with app.run_test(size=size, notifications=True) as pilot:
        stage = Stage(app, pilot)
        await stage.settled()
        yield stage


@asynccontextmanager
async def staged_sheet(sheet: Path, size: tuple[int, int]) -> AsyncIterator[Stage]:
    """A running wizard in which an equipment sheet is written."""
    app = Wizard(None, sheet)
    app.animation_level = "none"
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
