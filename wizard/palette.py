"""The command palette: every key of the screen, by what it does."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual.command import DiscoveryHit, Hit, Hits, Provider

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.binding import Binding
    from textual.dom import DOMNode


class KeyCommands(Provider):
    """Whatever a key does on this screen, found by a word of it."""

    async def discover(self) -> Hits:
        """Show all of them before anything is typed."""
        for node, binding in self._bindings():
            yield DiscoveryHit(_line(binding), partial(self._run, node, binding), help=binding.tooltip)

    async def search(self, query: str) -> Hits:
        """Show those that match what is typed."""
        matcher = self.matcher(query)
        for node, binding in self._bindings():
            score = matcher.match(f"{binding.description} {binding.tooltip}")
            if score > 0:
                yield Hit(score, _line(binding), partial(self._run, node, binding), help=binding.tooltip)

    def _bindings(self) -> Iterator[tuple[DOMNode, Binding]]:
        """Every binding that has an id of ours, each action once."""
        seen: set[str] = set()
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if binding.id and binding.tooltip and binding.action not in seen:
                seen.add(binding.action)
                yield active.node, binding

    async def _run(self, node: DOMNode, binding: Binding) -> None:
        await self.app.run_action(binding.action, node)


def _line(binding: Binding) -> str:
    return f"{binding.description} ({binding.key_display or binding.key})"
