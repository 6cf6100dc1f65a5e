"""A field whose editing keys act in the order in which they are pressed, also when many keys arrive at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.widgets import Input

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual import events

_EDITS: dict[str, Callable[[Input], None]] = {
    "backspace": Input.action_delete_left,
    "delete": Input.action_delete_right,
    "left": Input.action_cursor_left,
    "right": Input.action_cursor_right,
    "home": Input.action_home,
    "end": Input.action_end,
    "ctrl+u": Input.action_delete_left_all,
    "ctrl+k": Input.action_delete_right_all,
    "ctrl+w": Input.action_delete_left_word,
}


class TypedField(Input):
    """The framework resolves a binding only after letters that came behind it: a line cleared and typed anew in one
    burst, as over a slow line, would lose what was typed."""

    def edit(self, key: str) -> bool:
        """Do what an editing key does; whether it was one."""
        action = _EDITS.get(key)
        if action is not None:
            action(self)
        return action is not None

    def on_key(self, event: events.Key) -> None:
        """Edit at once."""
        if self.edit(event.key):
            event.stop()
            event.prevent_default()
