"""One block with what lands there: it stands in the middle, everything else on the side that it has at home.

On each side, blocks stand in the order of the middle one's terminals, so that lines hardly cross. Sides come from the
home and the order from the terminals, so an option more adds a block and moves no other one across.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.placement import Arrangement

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture


def hub(picture: Picture) -> str | None:
    """The key of the one block at which every line between blocks ends; None where there is none, or no other block."""
    ends = [{line.a.block, line.b.block} for line in picture.lines if line.a.block != line.b.block]
    shared = set.intersection(*ends) if ends else set()
    return shared.pop() if len(shared) == 1 else None


def around(picture: Picture, middle: str, home: Arrangement) -> Arrangement:
    """A picture's blocks round the middle one."""
    place = {key: (c, row) for c, column in enumerate(home.columns) for row, key in enumerate(column)}
    terminals = next(block.terminals for block in picture.blocks if block.key == middle)
    rank = {terminal.key: n for n, terminal in enumerate(terminals)}
    landings: dict[str, list[int]] = {block.key: [] for block in picture.blocks if block.key != middle}
    for line in picture.lines:
        for near, far in ((line.a, line.b), (line.b, line.a)):
            if near.block == middle and far.block != middle:
                landings[far.block].append(rank.get(near.terminal or "", len(rank)))
    order = sorted(landings, key=lambda key: sum(landings[key]) / max(1, len(landings[key])))
    left = tuple(key for key in order if _left(place, key, middle))
    right = tuple(key for key in order if key not in left)
    return Arrangement(tuple(column for column in (left, (middle,), right) if column))


def _left(place: dict[str, tuple[int, int]], key: str, middle: str) -> bool:
    """Whether a block stands left of the middle one at home; of those in its own column, what stands over it."""
    return place.get(key, (0, 0)) < place.get(middle, (0, 0))
