"""Invented circuits for the ladder's tests: in series and parallel by seed, joined anyhow by seed, and one bridge."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from schedules.drawings.ladder.content import Ladder, Node, Piece, Section, Symbol

_ELEMENTS = (Symbol.NO, Symbol.NC, Symbol.COIL, Symbol.LOAD, Symbol.LAMP, Symbol.MOTOR, Symbol.RESISTOR)


@dataclass
class Circuit:
    """A circuit that grows between two rails."""

    chance: random.Random
    nodes: list[str] = field(default_factory=lambda: ["MAINS:L1", "MAINS:N"])
    pieces: list[Piece] = field(default_factory=list)

    def node(self) -> str:
        self.nodes.append(f"X{len(self.nodes)}:{self.chance.randint(1, 44)}")
        return self.nodes[-1]

    def join(self, a: str, b: str, wired: float = 0.5) -> None:
        """Join two nodes by anything, or with this chance by a wire."""
        number = len(self.pieces) + 101
        if self.chance.random() >= wired:
            symbol = self.chance.choice(_ELEMENTS)
            note = self.chance.choice(("", "closes on heat", "opens on (link-melted or pull-released)"))
            self.pieces.append(Piece(f"K{number}.x", a, b, symbol, f"K{number} contact", note))
        elif self.chance.random() < 0.7:
            colour = self.chance.choice(("BK", "WH", "RD", "BU"))
            self.pieces.append(
                Piece(str(number), a, b, Symbol.CONDUCTOR, str(number), "W1", colour, "", "14 AWG")
            )
        else:
            self.pieces.append(Piece(f"f{number}", a, b, Symbol.FITTED))

    def between(self, a: str, b: str, depth: int) -> None:
        """Grow something in series and parallel from one node to another; no wire lies beside anything."""
        kind = self.chance.random()
        if depth == 0 or kind < 0.15:
            self.join(a, b, wired=0)
        elif kind < 0.3:
            middle = self.node()
            self.join(a, middle, wired=1)
            self.between(middle, b, depth - 1)
        elif kind < 0.45:
            middle = self.node()
            self.between(a, middle, depth - 1)
            self.join(middle, b, wired=1)
        elif kind < 0.75:
            middle = self.node()
            self.between(a, middle, depth - 1)
            self.between(middle, b, depth - 1)
        else:
            self.between(a, b, depth - 1)
            self.between(a, b, depth - 1)

    def ladder(self) -> Ladder:
        nodes = tuple(Node(key, key, "H") for key in self.nodes)
        section = Section("Invented", ("MAINS:L1", "MAINS:N"), nodes, tuple(self.pieces))
        return Ladder("Invented", "by seed", (section,), ("Invented.",))


def series_parallel(seed: int, depth: int = 5) -> Ladder:
    """A circuit in series and parallel alone."""
    circuit = Circuit(random.Random(seed))
    circuit.between("MAINS:L1", "MAINS:N", depth)
    return circuit.ladder()


def tangled(seed: int, nodes: int = 8, more: int = 6) -> Ladder:
    """A circuit in which anything may be joined to anything; dead ends and islands too."""
    circuit = Circuit(random.Random(seed))
    middle = circuit.node()
    circuit.join("MAINS:L1", middle)
    circuit.join(middle, "MAINS:N")
    for _ in range(nodes):
        near = circuit.chance.choice(circuit.nodes)
        circuit.join(near, circuit.node())
    for _ in range(more):
        a, b = circuit.chance.sample(circuit.nodes, 2)
        circuit.join(a, b)
    return circuit.ladder()


def bridge() -> Ladder:
    """Two ways from rail to rail, and a lamp from the middle of one to the middle of the other."""
    names = {"a": Symbol.NO, "b": Symbol.COIL, "c": Symbol.NC, "d": Symbol.LOAD, "e": Symbol.LAMP}
    ends = {"a": "LM", "b": "MN", "c": "LO", "d": "ON", "e": "MO"}
    keys = {"L": "MAINS:L1", "N": "MAINS:N", "M": "X1:1", "O": "X1:2"}
    pieces = tuple(
        Piece(f"K.{name}", keys[ends[name][0]], keys[ends[name][1]], symbol, f"K {name}")
        for name, symbol in names.items()
    )
    nodes = tuple(Node(key, key, "H") for key in keys.values())
    section = Section("Bridge", ("MAINS:L1", "MAINS:N"), nodes, pieces)
    return Ladder("Bridge", "", (section,))
