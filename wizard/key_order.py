"""Keys that arrive faster than they act: each waits until all that the one before set going has come to rest."""

from __future__ import annotations

import asyncio
from collections import deque
from typing import TYPE_CHECKING

from textual.message import Message

if TYPE_CHECKING:
    from textual import events
    from textual.app import App

    Pressed = events.Key | events.Paste

QUIET_TURNS = 4
"""Turns of the event loop without a message in which a screen is at rest: a message takes one from part to part."""

MOST_TURNS = 2000
"""Turns after which the next key acts all the same: something on the screen then never rests."""


class Turn(Message, bubble=False):
    """One key, or one pasted text, may act now."""

    def __init__(self, pressed: Pressed) -> None:
        super().__init__()
        self.pressed = pressed


class KeyOrder:
    """The keys of one program that have not acted yet.

    The framework hands each key to whatever has the cursor when it arrives, and looks for what a key is bound to only
    after it has gone through every part around that. Keys typed ahead, pasted, or sent over a slow line would so reach
    the screen that their forerunners were about to close, and an editing key would act after letters behind it.
    """

    def __init__(self, app: App[int]) -> None:
        self._app = app
        self._ahead: deque[Pressed] = deque()
        self._giving: asyncio.Task[None] | None = None

    def take(self, pressed: Pressed) -> None:
        """Let a key act when it is its turn."""
        self._ahead.append(pressed)
        if self._giving is None or self._giving.done():
            self._giving = asyncio.create_task(self._give())

    @property
    def at_rest(self) -> bool:
        """Whether every key has acted."""
        return self._giving is None or self._giving.done()

    async def _give(self) -> None:
        while self._ahead:
            self._app.post_message(Turn(self._ahead.popleft()))
            await self._rest()

    async def _rest(self) -> None:
        quiet = 0
        for _ in range(MOST_TURNS):
            await asyncio.sleep(0)
            quiet = 0 if self._busy else quiet + 1
            if quiet == QUIET_TURNS:
                return

    @property
    def _busy(self) -> bool:
        """Whether a message is on its way to the program or to a part of the screen in view."""
        if self._app.message_queue_size:
            return True
        screens = self._app.screen_stack
        return bool(screens) and any(
            part.message_queue_size for part in screens[-1].walk_children(with_self=True)
        )
