"""One arrangement for several pictures of the same enclosures: each picture shows some of them, in these places."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.drawings.ordering import Columns, bettered, inserted, wide_room_on
from schedules.drawings.placement import Arrangement, arrange
from schedules.drawings.rough_model import Model, model

if TYPE_CHECKING:
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Picture

_MOST_COLUMNS = 4

_WORK = 1_200

_HOMES_KEPT = 8


@dataclass(frozen=True, slots=True)
class _Together:
    """The rough models of several pictures. index_in: of each block of the home, its index in a model, or None.

    known: what a picture costs in an arrangement, and whether it is that or at least that: a move of a block that a
    picture doesn't show leaves it as it was, and later moves come back to earlier ones.
    """

    models: tuple[tuple[Model, tuple[int | None, ...]], ...]
    known: dict[tuple[int, Columns], tuple[float, bool]] = field(default_factory=dict)

    def cost(self, columns: Columns, enough: float = math.inf) -> float:
        """The sum over the pictures; where it is more than enough, at least so much."""
        total = 0.0
        for picture, (rough, index_in) in enumerate(self.models):
            shown = ([i for b in members if (i := index_in[b]) is not None] for members in columns)
            own = tuple(tuple(members) for members in shown if members)
            total += self._cost(picture, rough, own, enough - total)
            if total > enough:
                break
        return total

    def _cost(self, picture: int, rough: Model, own: Columns, enough: float) -> float:
        cost, exact = self.known.get((picture, own), (-math.inf, False))
        if not exact and cost <= enough:
            cost = rough.cost(own, enough)
            self.known[picture, own] = cost, cost <= enough
        return cost


@lru_cache(maxsize=_HOMES_KEPT)
def settle(pictures: tuple[Picture, ...], engine: Engine) -> Arrangement:
    """Places for every block of the pictures, in which the lines of all of them cross and climb least.

    Bettered from the arrangements of the first, the middle and the last picture; the best of these is kept.
    """
    order = {block.key: block.order for picture in pictures for block in picture.blocks}
    keys = sorted(order, key=lambda key: (order[key], key))
    together = _Together(tuple(_modelled(picture, keys) for picture in pictures))
    starts = dict.fromkeys((0, len(pictures) // 2, len(pictures) - 1))
    found = []
    for start in starts:
        placed = arrange(pictures[start], engine, most_columns=_MOST_COLUMNS).columns
        columns = tuple(tuple(keys.index(key) for key in members) for members in placed)
        there = {b for members in columns for b in members}
        columns = inserted(columns, (b for b in range(len(keys)) if b not in there), together)
        columns = bettered(columns, together, _WORK)
        found.append((together.cost(columns), columns))
    return Arrangement(tuple(tuple(keys[b] for b in members) for members in min(found)[1]))


def _modelled(picture: Picture, keys: list[str]) -> tuple[Model, tuple[int | None, ...]]:
    index = {block.key: b for b, block in enumerate(picture.blocks)}
    return model(picture, wide_room_on(picture.paper)), tuple(index.get(key) for key in keys)
