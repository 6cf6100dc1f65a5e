"""Finding what lies near, without looking at everything."""

from __future__ import annotations

from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.proof.readback import Area

_SIZE = 48.0

Thing = TypeVar("Thing")


class Near(Generic[Thing]):
    """Things by the squares of the page that they touch."""

    def __init__(self) -> None:
        self._squares: dict[tuple[int, int], list[tuple[int, Area, Thing]]] = {}
        self._count = 0

    def add(self, area: Area, thing: Thing) -> None:
        """Keep one thing and its extent."""
        for square in _touched(area):
            self._squares.setdefault(square, []).append((self._count, area, thing))
        self._count += 1

    def meeting(self, area: Area) -> Iterator[tuple[Area, Thing]]:
        """Every thing whose extent shares some area with this one, once, in the order in which they came."""
        found = {
            number: (extent, thing)
            for square in _touched(area)
            for number, extent, thing in self._squares.get(square, ())
            if extent.meets(area)
        }
        for number in sorted(found):
            yield found[number]


def _touched(area: Area) -> Iterator[tuple[int, int]]:
    for column in range(int(area.left // _SIZE), int(area.right // _SIZE) + 1):
        for row in range(int(area.top // _SIZE), int(area.bottom // _SIZE) + 1):
            yield column, row
