"""Where nodes and pieces of a section stand: nodes across in the order of energy, pieces down in rungs.

A row is one way along pieces; ways that part or meet do so on upright lines at their nodes. Rows of a circuit in
series and parallel never cross such a line: what is nested is finished before what holds it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.measures import half_width, length
from schedules.drawings.ladder.order import energy_order, return_side

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Piece, Section


@dataclass(frozen=True, slots=True)
class Span:
    """One piece in its place: from the node at its left to that at its right, in a row."""

    piece: Piece
    left: str
    right: str
    row: int


@dataclass(frozen=True, slots=True)
class Rungs:
    """x: of each node [pt]. rows: first and last row that each node's upright line touches. count: of rows."""

    x: dict[str, float]
    rows: dict[str, tuple[int, int]]
    spans: tuple[Span, ...]
    count: int
    returning: frozenset[str]


Clearance = tuple[str, str, float]
"""Two nodes, and how far the later one in the order of energy stands at least to the right of the other [pt]."""


def rungs_of(section: Section, clearances: tuple[Clearance, ...] = (), *, apart: bool = False) -> Rungs:
    """Place a section. apart: every node has an upright of its own and every way a row, whatever room that takes."""
    growing = _Growing(section, energy_order(section), clearances, apart=apart)
    growing.grow_all()
    rows = {node: (min(found), max(found)) for node, found in growing.rows.items()}
    count = max((last for _, last in rows.values()), default=-1) + 1
    return Rungs(growing.x, rows, tuple(growing.spans), count, growing.returning)


@dataclass(slots=True)
class _Growing:
    section: Section
    order: tuple[str, ...]
    clearances: tuple[Clearance, ...]
    apart: bool
    spans: list[Span] = field(default_factory=list)
    rows: dict[str, list[int]] = field(default_factory=dict)
    x: dict[str, float] = field(default_factory=dict)
    taken: list[tuple[float, float, int]] = field(default_factory=list)
    returning: frozenset[str] = frozenset()
    outs: dict[str, list[Piece]] = field(default_factory=dict)
    rank: dict[str, int] = field(default_factory=dict)
    half: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.rank = {node: place for place, node in enumerate(self.order)}
        self.half = {node.key: half_width(node) for node in self.section.nodes}
        self.returning = return_side(self.section)
        self._direct()
        self.x = self._columns() if self.apart else self._places()

    def ends(self, piece: Piece) -> tuple[str, str]:
        """A piece's nodes, that from which energy comes first."""
        return (piece.a, piece.b) if self.rank[piece.a] < self.rank[piece.b] else (piece.b, piece.a)

    def _direct(self) -> None:
        self.outs = {node: [] for node in self.order}
        for piece in self.section.pieces:
            self.outs[self.ends(piece)[0]].append(piece)
        reach: dict[str, int] = {}
        for node in reversed(self.order):
            reach[node] = 1 << self.rank[node]
            for piece in self.outs[node]:
                reach[node] |= reach[self.ends(piece)[1]]
        for node, pieces in self.outs.items():
            meets = {piece.key: self._meets(piece, pieces, reach) for piece in pieces}
            self.outs[node] = sorted(
                pieces, key=lambda piece: (piece.symbol is not Symbol.SUPPLY, meets[piece.key])
            )

    def _meets(self, piece: Piece, beside: list[Piece], reach: dict[str, int]) -> int:
        """Rank of the first node at which a way along this piece can meet one along another piece of its node."""
        mine = reach[self.ends(piece)[1]]
        shared = (mine & reach[self.ends(other)[1]] for other in beside if other is not piece)
        return min(((common & -common).bit_length() or len(self.order) + 1 for common in shared), default=0)

    def _least(self, piece: Piece) -> float:
        a, b = self.ends(piece)
        return self.half[a] + length(piece) + self.half[b]

    def _places(self) -> dict[str, float]:
        """As far left as words allow; what is at the potential of the way back, as far right."""
        after: dict[str, list[tuple[str, float]]] = {
            node: [(self.ends(piece)[1], self._least(piece)) for piece in self.outs[node]]
            for node in self.order
        }
        for one, other, least in self.clearances:
            first, second = sorted((one, other), key=self.rank.__getitem__)
            after[first].append((second, least))
        left = dict.fromkeys(self.order, 0.0)
        for node in self.order:
            for head, least in after[node]:
                left[head] = max(left[head], left[node] + least)
        from_end = dict.fromkeys(self.order, 0.0)
        for node in reversed(self.order):
            for head, least in after[node]:
                from_end[node] = max(from_end[node], from_end[head] + least)
        width = max(left[node] + from_end[node] for node in self.order)
        return {node: width - from_end[node] if node in self.returning else left[node] for node in self.order}

    def _columns(self) -> dict[str, float]:
        widest = max((self._least(piece) for piece in self.section.pieces), default=0.0)
        return {node: place * widest for place, node in enumerate(self.order)}

    def grow_all(self) -> None:
        """Give every piece its row, nested ways before those that hold them."""
        done: set[str] = set()
        for node in self.order:
            if node not in done:
                done.add(node)
                self._grow_from(node, done, new=True)

    def _grow_from(self, node: str, done: set[str], *, new: bool) -> None:
        for place, piece in enumerate(self.outs[node]):
            self._grow(node, piece, done, new=new and place == 0)

    def _grow(self, start: str, piece: Piece, done: set[str], *, new: bool) -> None:
        """Follow one way to the first node that is there already, give it a row, then what leaves it."""
        way, passed = [piece], []
        while (node := self.ends(way[-1])[1]) not in done:
            done.add(node)
            passed.append(node)
            if not self.outs[node]:
                break
            way.append(self.outs[node][0])
        goal = self.ends(way[-1])[1]
        low = self.x[start] - (self.half[start] if new else 0.0)
        high = self.x[goal] + (self.half[goal] if goal in passed else 0.0)
        row = self._row(low, high)
        self.taken.append((low, high, row))
        for taken in way:
            a, b = self.ends(taken)
            self.spans.append(Span(taken, a, b, row))
            self.rows.setdefault(a, []).append(row)
            self.rows.setdefault(b, []).append(row)
        for node in reversed(passed):
            for later in self.outs[node][1:]:
                self._grow(node, later, done, new=False)

    def _row(self, low: float, high: float) -> int:
        """The first row under everything that stands between two places."""
        meeting = (row for left, right, row in self.taken if self.apart or (left <= high and low <= right))
        return max(meeting, default=-1) + 1
