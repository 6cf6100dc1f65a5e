"""The symbols on a ladder diagram: contacts of the family on the point-to-point drawings, larger; coils and loads.

Relay coil, resistor and motor follow IEC 60617 (from memory; check before relying on the standard's name). Lines reach
from one end of a symbol to the other; layout and proof both read this declaration.
"""

from __future__ import annotations

from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.measures import SYMBOL
from schedules.drawings.layout import Point
from schedules.drawings.marks import MARKS, Mark
from schedules.drawings.picture import TerminalKind

Drawn = tuple[tuple[Point, ...], float]

_LARGER = 2.1
_REACH = 5.5
_THIN = 1.0


def _larger(kind: TerminalKind) -> Mark:
    """A contact's mark so much larger, its ends drawn out to the symbol's ends."""

    def moved(point: Point) -> Point:
        x, y = point
        return (SYMBOL if x > 0 else -SYMBOL, 0.0) if abs(x) == _REACH else (x * _LARGER, y * _LARGER)

    return Mark(lines=tuple((tuple(map(moved, points)), _THIN) for points, _ in MARKS[kind].lines))


def _box(half_width: float, half_height: float) -> Drawn:
    w, h = half_width, half_height
    return ((-w, -h), (w, -h), (w, h), (-w, h), (-w, -h)), _THIN


def _leads(half_width: float) -> tuple[Drawn, ...]:
    return ((((-SYMBOL, 0.0), (-half_width, 0.0)), _THIN), (((half_width, 0.0), (SYMBOL, 0.0)), _THIN))


_CONTACT = _larger(TerminalKind.NC)
_CROSS: tuple[Drawn, ...] = (
    (((2.5, -3.0), (8.5, 3.0)), _THIN),
    (((2.5, 3.0), (8.5, -3.0)), _THIN),
)
_ROUND = 8.0
_SLOPE = 5.7

SYMBOLS: dict[Symbol, Mark] = {
    Symbol.NO: _larger(TerminalKind.NO),
    Symbol.NC: _CONTACT,
    Symbol.BREAKER: Mark(lines=(*_leads(5.5), (((-5.5, 0.0), (7.0, -6.5)), _THIN), *_CROSS)),
    Symbol.COIL: Mark(lines=(*_leads(5.0), _box(5.0, 9.0))),
    Symbol.LOAD: Mark(lines=(*_leads(11.0), _box(11.0, 7.0), (((-11.0, 7.0), (11.0, -7.0)), _THIN))),
    Symbol.MOTOR: Mark(
        lines=(*_leads(_ROUND), (((-3.5, 3.5), (-3.5, -3.5), (0.0, 1.0), (3.5, -3.5), (3.5, 3.5)), _THIN)),
        rings=(((0.0, 0.0), _ROUND),),
    ),
    Symbol.LAMP: Mark(
        lines=(
            *_leads(_ROUND),
            (((-_SLOPE, -_SLOPE), (_SLOPE, _SLOPE)), _THIN),
            (((-_SLOPE, _SLOPE), (_SLOPE, -_SLOPE)), _THIN),
        ),
        rings=(((0.0, 0.0), _ROUND),),
    ),
    Symbol.RESISTOR: Mark(lines=(*_leads(11.0), _box(11.0, 4.0))),
    Symbol.SUPPLY: Mark(lines=_leads(_ROUND), rings=(((0.0, 0.0), _ROUND), ((0.0, 0.0), 5.0))),
}
