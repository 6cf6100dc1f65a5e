"""Draws that are the same for the same seed, on every machine and in every version of the language."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Sequence

ItemT = TypeVar("ItemT")


class Chance:
    """A seeded source of draws. Only `random()` itself is promised to stay as it is, so all else is made of it."""

    def __init__(self, seed: int) -> None:
        self._source = random.Random(seed)  # noqa: S311  nothing secret

    def share(self) -> float:
        """A number from 0 up to, but not, 1."""
        return self._source.random()

    def below(self, count: int) -> int:
        """A whole number from 0 up to, but not, count."""
        return int(self._source.random() * count)

    def one(self, items: Sequence[ItemT]) -> ItemT:
        """One of these."""
        return items[self.below(len(items))]

    def some(self, items: Sequence[ItemT], count: int) -> list[ItemT]:
        """So many of these, each once, in the order drawn; all where there are no more."""
        left = list(items)
        return [left.pop(self.below(len(left))) for _ in range(min(count, len(left)))]
