"""The small pictograms on terminals: one declared family, contacts in shelf state, read by layout and proof alike.

Contacts follow the make and break contact of IEC 60617 laid on their side (from memory; check before relying on the
standard's name). The others are our own and are explained on every drawing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.picture import TerminalKind

if TYPE_CHECKING:
    from schedules.drawings.layout import Point

_THIN = 0.9


@dataclass(frozen=True, slots=True)
class Mark:
    """lines: points and width of each stroke. rings: centre and radius of each circle.

    All in points from the mark's centre, x to the right, y down.
    """

    lines: tuple[tuple[tuple[Point, ...], float], ...] = ()
    rings: tuple[tuple[Point, float], ...] = ()


MARKS: dict[TerminalKind | None, Mark] = {
    TerminalKind.SCREW: Mark(
        lines=((((-1.8, 1.8), (1.8, -1.8)), _THIN),),
        rings=(((0, 0), 3),),
    ),
    TerminalKind.PIN: Mark(lines=((((-5, 0), (0, 0)), _THIN), (((0, 0), (4.5, 0)), 3.0))),
    TerminalKind.LEAD: Mark(lines=((((-5, 0), (5, 0)), _THIN), (((-2, 0), (2, 0)), 3.6))),
    TerminalKind.OPENING: Mark(rings=(((0, 0), 3), ((0, 0), 1.5))),
    TerminalKind.COM: Mark(lines=((((1.5, 0), (5.5, 0)), _THIN),), rings=(((0, 0), 1.5),)),
    TerminalKind.NO: Mark(
        lines=(
            (((-5.5, 0), (-2.5, 0)), _THIN),
            (((-2.5, 0), (2.8, -3.4)), _THIN),
            (((2.5, 0), (5.5, 0)), _THIN),
        )
    ),
    TerminalKind.NC: Mark(
        lines=(
            (((-5.5, 0), (-2.5, 0)), _THIN),
            (((-2.5, 0), (3.6, -2.9)), _THIN),
            (((5.5, 0), (2.5, 0), (2.5, -3.4)), _THIN),
        )
    ),
    None: Mark(lines=((((-5, 0), (0.5, 0)), _THIN), (((0.5, -3.2), (0.5, 3.2)), 1.6))),
}


def reach(mark: Mark) -> Point:
    """How far a mark reaches from its centre, across and up or down [pt]."""
    across = [abs(x) for points, _ in mark.lines for x, _ in points]
    across += [abs(x) + radius for (x, _), radius in mark.rings]
    up = [abs(y) for points, _ in mark.lines for _, y in points]
    up += [abs(y) + radius for (_, y), radius in mark.rings]
    return max(across), max(up)


WORDS: dict[TerminalKind | None, str] = {
    TerminalKind.SCREW: "screw terminal",
    TerminalKind.PIN: "connector pin",
    TerminalKind.LEAD: "fitted lead, spliced",
    TerminalKind.OPENING: "opening",
    TerminalKind.COM: "contact, common",
    TerminalKind.NO: "contact, normally open",
    TerminalKind.NC: "contact, normally closed",
    None: "capped end",
}
