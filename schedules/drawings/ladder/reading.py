"""One page of a ladder read back: which terminals each piece joins, by nothing but where its lines end."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.drawings import names
from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.expected import marks_of, nodes_of, pieces_of
from schedules.drawings.ladder.key import legend_of
from schedules.drawings.proof.index import Near
from schedules.drawings.proof.marks import centre_of, is_declared, sample_failures
from schedules.drawings.proof.readback import Area, extent, is_level, is_upright
from schedules.drawings.proof.words import overlaps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder, Node, Piece
    from schedules.drawings.proof.readback import Point, Seen, Segment, Way

_NEAR = 0.3
# From a symbol's middle to its ends, and how far it reaches up and down [pt].
_REACH = 15.0
_SYMBOL_HEIGHT = 10.0
_MARK = 3.0
# Lines of one direction are at least so far apart [pt].
_BESIDE = 3.0
# A word's middle is at most this far from the middle of what it names; a name's line at most so far over it.
_ASIDE = 1.0
_OVER = 7.0
_OVER_TERMINAL = 18.0
_TALLEST_NAME = 60.0


@dataclass(frozen=True, slots=True)
class _Terminal:
    """A node as read: where its mark is, and its upright line, if it has one."""

    node: Node
    at: Point
    upright: Segment | None


@dataclass(slots=True)
class ReadPage:
    """A page on which everything is there that belongs there."""

    page: Ladder
    seen: Seen
    nodes: dict[str, Node] = field(init=False)
    pieces: dict[str, Piece] = field(init=False)
    centres: dict[str, Point] = field(init=False)
    terminals: dict[str, _Terminal] = field(default_factory=dict)
    numbers: list[int] = field(default_factory=list)
    rows: dict[float, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.nodes, self.pieces = nodes_of(self.page), pieces_of(self.page)
        self.centres = {
            owner: centre_of(owner, mark, self.seen) for owner, mark in marks_of(self.page).items()
        }
        for name, node in self.nodes.items():
            way = self.seen.ways.get(names.coat(name, 0))
            upright = None if way is None else way.segments[0]
            self.terminals[name] = _Terminal(node, self.centres[name], upright)
        for name, writing in self.seen.writings.items():
            if name[0] == "r" and name[1:].isdecimal():
                self.rows[writing.baseline] = int(writing.text) if writing.text.isdecimal() else 0
        self.numbers = [number for _, number in sorted(self.rows.items())]

    def failures(self) -> Iterator[str]:
        """Every piece that does not join what it must, and everything that can't be read with certainty."""
        for owner, mark in marks_of(self.page).items():
            if not is_declared(owner, mark, self.seen):
                yield f"the symbol of {self._called(owner)} is not the declared one"
        yield from self._uprights()
        for name, piece in self.pieces.items():
            yield from self._piece(name, piece)
        yield from self._rails()
        yield from self._meetings()
        yield from self._labels()
        yield from self._row_failures()
        yield from overlaps(self.seen)
        yield from self._covered()
        yield from sample_failures(legend_of(self.page.sections), self.seen)

    def _called(self, owner: str) -> str:
        piece, node = self.pieces.get(owner), self.nodes.get(owner)
        return piece.name if piece else node.name if node else f"the legend ({owner})"

    def _uprights(self) -> Iterator[str]:
        for terminal in self.terminals.values():
            if terminal.upright is None:
                continue
            (x, top), (end_x, bottom) = sorted(terminal.upright, key=lambda point: point[1])
            straight = is_upright(terminal.upright) and abs(x - end_x) <= _NEAR
            rail = any(terminal.node.key in section.rails for section in self.page.sections)
            begins = abs(top - terminal.at[1]) <= _NEAR or (rail and top <= terminal.at[1] <= bottom)
            if not (straight and abs(x - terminal.at[0]) <= _NEAR and begins):
                yield f"the upright line of {terminal.node.name} does not begin at its mark"

    def _piece(self, name: str, piece: Piece) -> Iterator[str]:
        what = f"{piece.symbol.value} {piece.name or piece.key!r}"
        if piece.symbol.conducts:
            way = self.seen.ways[names.coat(name, 0)]
            ends = [self._terminal_at(point, name) for point in way.ends]
            ways = [way]
        else:
            x, y = self.centres[name]
            ends, ways = [], []
            for side, inner in (("left", (x - _REACH, y)), ("right", (x + _REACH, y))):
                way = self.seen.ways[names.coat(f"{name}_{side}", 0)]
                far = way.ends[0] if side == "left" else way.ends[1]
                near = way.ends[1] if side == "left" else way.ends[0]
                if not _same(near, inner):
                    yield f"the line at the {side} of {what} does not end at its symbol"
                ends.append(self._terminal_at(far, name))
                ways.append(way)
        for way in ways:
            if len(way.segments) != 1 or not is_level(way.segments[0]):
                yield f"{what} is not drawn as one level line"
        for n, way in enumerate(ways):
            stem = name if piece.symbol.conducts else f"{name}_{('left', 'right')[n]}"
            yield from self._coats(stem, way, what)
        if {piece.a, piece.b} != set(ends) or len(ends) != 2:
            drawn = " and ".join(end or "nothing" for end in ends)
            yield f"{what} joins {drawn} instead of {piece.a} and {piece.b}"

    def _coats(self, stem: str, way: Way, what: str) -> Iterator[str]:
        number = 1
        while (coat := self.seen.ways.get(names.coat(stem, number))) is not None:
            number += 1
            if not all(_same(one, other) for one, other in zip(way.ends, coat.ends, strict=True)):
                yield f"{what}: its coats do not lie on each other"

    def _terminal_at(self, point: Point, name: str) -> str:
        """The node that a line's end is joined to: at its mark, or on its upright with a dot; of its own section."""
        section = name[1:].partition("_")[0]
        for owner, terminal in self.terminals.items():
            if owner[1:].partition("_")[0] != section:
                continue
            if _same(point, terminal.at):
                return terminal.node.key
            if terminal.upright is not None and _on(point, terminal.upright) and self._dotted(owner, point):
                return terminal.node.key
        return ""

    def _dotted(self, owner: str, point: Point) -> bool:
        return any(
            name.startswith(f"{owner}_dot") and _same(_middle(shape.area), point)
            for name, shape in self.seen.shapes.items()
        )

    def _rails(self) -> Iterator[str]:
        """The rail that energy comes from stands left of everything, that which it goes back to right of it."""
        for s, section in enumerate(self.page.sections):
            x = {
                item.node.key: item.at[0]
                for name, item in self.terminals.items()
                if name.startswith(f"n{s}_")
            }
            if section.rails and x[section.rails[0]] > min(x.values()) + _NEAR:
                yield f"{section.title}: not everything stands right of {section.rails[0]}"
            if len(section.rails) > 1 and x[section.rails[-1]] < max(x.values()) - _NEAR:
                yield f"{section.title}: not everything stands left of {section.rails[-1]}"

    def _level(self) -> Iterator[tuple[str, Segment]]:
        for name, piece in self.pieces.items():
            stems = (name,) if piece.symbol.conducts else (f"{name}_left", f"{name}_right")
            yield from ((name, self.seen.ways[names.coat(stem, 0)].segments[0]) for stem in stems)

    def _meetings(self) -> Iterator[str]:
        """Lines that share a stretch, run through a symbol or a terminal, or touch what they do not join."""
        level = list(self._level())
        uprights = [(name, item.upright) for name, item in self.terminals.items() if item.upright]
        for lines in (level, uprights):
            yield from self._shared(lines)
        drawn: Near[str] = Near()
        for name, item in self.terminals.items():
            drawn.add(_around(item.at, _MARK, _MARK), name)
        for name, piece in self.pieces.items():
            if not piece.symbol.conducts:
                drawn.add(_around(self.centres[name], _REACH - 1.5, _SYMBOL_HEIGHT), name)
        for name, segment in (*level, *uprights):
            for _, other in drawn.meeting(extent(segment).grown(0.5)):
                if other in self.pieces or not self._joins(name, other):
                    yield f"{self._called(name)} runs over {self._called(other)}"
        for owner, shape in self.seen.shapes.items():
            dot = owner.partition("_dot")
            if dot[1]:
                yield from self._dot_failures(dot[0], _middle(shape.area), level)

    def _shared(self, lines: list[tuple[str, Segment]]) -> Iterator[str]:
        near: Near[str] = Near()
        for name, segment in lines:
            area = extent(segment)
            for other_area, other in near.meeting(area.grown(_BESIDE)):
                if _share(area, other_area):
                    yield f"{self._called(other)} and {self._called(name)} share a stretch"
            near.add(area.grown(0.01), name)

    def _joins(self, one: str, other: str) -> bool:
        name, node = (one, other) if one[0] == "p" else (other, one)
        if name[0] != "p":
            return one == other
        piece = self.pieces[name]
        return self.nodes[node].key in (piece.a, piece.b)

    def _dot_failures(self, owner: str, at: Point, level: list[tuple[str, Segment]]) -> Iterator[str]:
        """A dot joins whatever runs through it: all of that must belong to its terminal."""
        spot = _around(at, 1.0, 1.0)
        for name, segment in level:
            if spot.meets(extent(segment).grown(0.5)) and not self._joins(name, owner):
                yield f"a dot joins {self._called(name)} to {self._called(owner)}"
        upright = self.terminals[owner].upright
        if upright is None or not _on(at, upright):
            yield f"a dot of {self._called(owner)} is not on its line"

    def _labels(self) -> Iterator[str]:
        """Words stand at what they name."""
        for name, terminal in self.terminals.items():
            for what in ("name", "box"):
                yield from self._over(f"{name}_{what}", terminal.at, _OVER_TERMINAL)
            link = self.seen.shapes.get(names.link(name))
            if link is not None and not link.area.holds(_around(terminal.at, 1.0, 1.0)):
                yield f"what leads to the row of {terminal.node.name} is not at its mark"
        for name, piece in self.pieces.items():
            if piece.symbol is Symbol.CONDUCTOR:
                line = extent(self.seen.ways[names.coat(name, 0)].segments[0])
                for what in ("number", "cable"):
                    writing = self.seen.writings.get(f"{name}_{what}")
                    if writing is None:
                        continue
                    high = line.top - writing.baseline if what == "number" else writing.area.top - line.top
                    inside = line.left <= writing.area.left and writing.area.right <= line.right
                    if not (inside and -1.0 < high < _OVER):
                        yield f"{writing.text!r} does not stand at its conductor {piece.name}"
            elif not piece.symbol.conducts:
                at = self.centres[name]
                yield from self._over(f"{name}_name_0", at, _TALLEST_NAME)
                yield from self._over(f"{name}_under_0", at, _TALLEST_NAME, under=True)

    def _over(self, name: str, at: Point, most: float, *, under: bool = False) -> Iterator[str]:
        writing = self.seen.writings.get(name)
        if writing is None:
            return
        aside = abs((writing.area.left + writing.area.right) / 2 - at[0])
        high = writing.area.top - at[1] if under else at[1] - writing.baseline
        if aside > _ASIDE or not 0 < high < most:
            yield f"{writing.text!r} ({name}) does not stand at what it names"

    def _row_failures(self) -> Iterator[str]:
        """Every rung has a number at its height, every number a rung."""
        heights = {round(segment[0][1], 1) for _, segment in self._level()}
        numbered = {self._row_at(height) for height in heights}
        if None in numbered or len(heights) != len(self.rows):
            yield f"{len(heights)} rungs bear {len(self.rows)} numbers"

    def _row_at(self, y: float) -> int | None:
        return next((number for baseline, number in self.rows.items() if 0 < baseline - y < _OVER - 2), None)

    def rungs(self) -> dict[str, int]:
        """The number that stands at the height of each element, by its key."""
        found = {}
        for name, piece in self.pieces.items():
            if not piece.symbol.conducts:
                found[piece.key] = self._row_at(self.centres[name][1]) or 0
        return found

    def said_under(self) -> dict[str, str]:
        """The words that stand under each element, by its key."""
        said = {}
        for name, piece in self.pieces.items():
            if not piece.symbol.conducts:
                lines: list[str] = []
                while (writing := self.seen.writings.get(f"{name}_under_{len(lines)}")) is not None:
                    lines.append(writing.text)
                said[piece.key] = " ".join(lines)
        return said

    def _covered(self) -> Iterator[str]:
        """Words that a line or a symbol runs through, or that are not all on the page."""
        near: Near[str] = Near()
        for name, writing in self.seen.writings.items():
            near.add(writing.area, name)
            if not self.seen.page.holds(writing.area):
                yield f"{writing.text!r} ({name}) is not all on the page"
        areas = [(name, extent(segment).grown(0.5)) for name, segment in self._level()]
        areas += [
            (name, extent(item.upright).grown(0.5)) for name, item in self.terminals.items() if item.upright
        ]
        areas += [
            (name, _around(self.centres[name], _REACH, _SYMBOL_HEIGHT - 1))
            for name, piece in self.pieces.items()
            if not piece.symbol.conducts
        ]
        for owner, area in areas:
            for _, name in near.meeting(area):
                yield f"{self._called(owner)} runs over {self.seen.writings[name].text!r} ({name})"


def _same(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) <= _NEAR and abs(one[1] - other[1]) <= _NEAR


def _on(point: Point, segment: Segment) -> bool:
    return extent(segment).grown(_NEAR).holds(Area(*point, *point))


def _middle(area: Area) -> Point:
    return (area.left + area.right) / 2, (area.top + area.bottom) / 2


def _around(at: Point, across: float, up: float) -> Area:
    return Area(at[0] - across, at[1] - up, at[0] + across, at[1] + up)


def _share(one: Area, other: Area) -> bool:
    """Whether two lines of one direction lie over or close beside each other along a stretch."""
    width = min(one.right, other.right) - max(one.left, other.left)
    height = min(one.bottom, other.bottom) - max(one.top, other.top)
    return max(width, height) > _NEAR and min(width, height) > -_BESIDE
