"""Where a wall's studs stand, from its spacing, its first stud and those that were measured one by one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.lumber import lumber

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.job.kitchen import Wall
    from schedules.job.mechanical import Stud

_SAME_STUD_IN = 3.0
"""A stud measured so near to a counted one is that stud, not another: two can't stand closer without touching."""


@dataclass(frozen=True, slots=True)
class StudLine:
    """One stud, or a pair side by side: its centre from the wall's left corner, its thickness [in].

    measured: found one by one rather than counted from the spacing.
    """

    centre_in: float
    thickness_in: float
    doubled: bool = False
    measured: bool = False

    @property
    def left_in(self) -> float:
        """Its left face [in]."""
        return self.centre_in - self.thickness_in / 2

    @property
    def right_in(self) -> float:
        """Its right face [in]."""
        return self.centre_in + self.thickness_in / 2


def stud_lines(wall: Wall, size: str | None, measured: Iterable[Stud]) -> tuple[StudLine, ...]:
    """The studs of a wall, left to right. None are made up: without spacing only those measured one by one.

    size: of the studs, `2x4`; without it none can be given, since their thickness is unknown. Raises LookupError for
    a size not carried.
    """
    if size is None or wall.open:
        return ()
    thickness = lumber(size).thickness_in
    found = [
        StudLine(stud.along, 2 * thickness if stud.doubled else thickness, stud.doubled, measured=True)
        for stud in measured
    ]
    for centre in _counted(wall):
        if all(abs(centre - stud.centre_in) >= _SAME_STUD_IN for stud in found if stud.measured):
            found.append(StudLine(centre, thickness))
    return tuple(sorted(found, key=lambda stud: stud.centre_in))


def _counted(wall: Wall) -> list[float]:
    """Centres by the spacing, from the first stud to the wall's right end."""
    if wall.spacing is None or wall.first_stud is None:
        return []
    count = max(0, int((wall.length - wall.first_stud) / wall.spacing + 1e-9) + 1)
    return [wall.first_stud + place * wall.spacing for place in range(count)]
