"""Invented pictures for the drawing tests: one kitchen by hand, random ones by seed, big ones for timing."""

from __future__ import annotations

import random

from schedules.drawings.picture import Block, End, Line, Picture, Terminal, TerminalKind

_COLOURS = (
    "BK",
    "WH",
    "RD",
    "GN",
    "GNYE",
    "BU",
    "BN",
    "OG",
    "YE",
    "VT",
    "GY",
    "PK",
    "TQ",
    "bare",
    "BKRD",
    "",
)
_SIZES = ("14 AWG", "18 AWG", "12 AWG", "8 AWG", "12/2 NM-B")
_NAMES = ("Panel", "Hood terminal box", "Control enclosure behind the left-hand cabinet", "Fan", "")


def kitchen() -> Picture:
    """A whole job: connectors, contacts, a link, capped spares, terminals left empty, a re-marked conductor."""
    screw, pin = TerminalKind.SCREW, TerminalKind.PIN
    plug = [str(n) for n in range(1, 7)]
    blocks = (
        Block("panel", "P", "Panel", _terminals(("CB4", "N4", "G4", "CB6", "N6", "G6"))),
        Block(
            "hood",
            "H",
            "Hood terminal box",
            _terminals(("L", "N", "PE"), screw, "X1 supply") + _terminals(plug, pin, "J3 control plug"),
            1,
        ),
        Block(
            "control",
            "C",
            "Control enclosure",
            (
                *_terminals(("L1", "N1", "PE"), screw, "X1 supply"),
                *_terminals(plug, pin, "J3 hood plug"),
                Terminal("11", "11", TerminalKind.COM, "K1 fire contact"),
                Terminal("12", "12", TerminalKind.NC, "K1 fire contact"),
                Terminal("14", "14", TerminalKind.NO, "K1 fire contact"),
                *_terminals(("S1", "S2", "T+", "T-"), screw, "X2 field"),
            ),
            2,
        ),
        Block("valve", "V", "Gas shutoff valve", _terminals(("Y1", "Y2", "PE")), 3),
        Block(
            "pull",
            "R",
            "Remote pull",
            (
                Terminal("C", "C", TerminalKind.COM),
                Terminal("NO", "NO", TerminalKind.NO),
                Terminal("NC", "NC", TerminalKind.NC),
            ),
            4,
        ),
        Block("alarm", "A", "Alarm interface", _terminals(("Z1", "Z2", "TR1", "TR2")), 5),
        Block("air", "M", "Make-up air unit", _terminals(("L", "N", "PE", "D1", "D2")), 6),
    )
    rows = (
        ("101", "panel.CB4", "control.L1", "BK", "14 AWG", "W1"),
        ("102", "panel.N4", "control.N1", "WH", "14 AWG", "W1"),
        ("103", "panel.G4", "control.PE", "bare", "14 AWG", "W1"),
        ("104", "panel.CB6", "air.L", "BK", "12 AWG", "W2"),
        ("105", "panel.N6", "air.N", "WH", "12 AWG", "W2"),
        ("106", "panel.G6", "air.PE", "GN", "12 AWG", "W2"),
        ("107", "control.L1", "hood.L", "BK", "14 AWG", "W3"),
        ("108", "control.N1", "hood.N", "WH", "14 AWG", "W3"),
        ("109", "control.PE", "hood.PE", "GNYE", "14 AWG", "W3"),
        ("111", "control.1", "hood.1", "BN", "20 AWG", "W4"),
        ("112", "control.2", "hood.2", "RD", "20 AWG", "W4"),
        ("113", "control.3", "hood.3", "OG", "20 AWG", "W4"),
        ("114", "control.4", "hood.4", "YE", "20 AWG", "W4"),
        ("115", "control.5", "hood.5", "BU", "20 AWG", "W4"),
        ("116", "control", "hood.6", "VT", "20 AWG", "W4"),
        ("120", "control.14", "valve.Y1", "WH BK", "14 AWG", "W5"),
        ("121", "control.N1", "valve.Y2", "BK", "14 AWG", "W5"),
        ("122", "control.PE", "valve.PE", "GN", "14 AWG", "W5"),
        ("130", "control.L1", "control.11", "RD", "14 AWG", ""),
        ("131", "control.S1", "pull.C", "BK", "18 AWG", "W6"),
        ("132", "control.S2", "pull.NC", "RD", "18 AWG", "W6"),
        ("133", "control", "pull", "WH", "18 AWG", "W6"),
        ("140", "control.T+", "alarm.Z1", "BN", "18 AWG", "W7"),
        ("141", "control.T-", "alarm.Z2", "BU", "18 AWG", "W7"),
        ("142", "alarm.TR1", "air.D1", "GY", "18 AWG", "W8"),
        ("143", "alarm.TR2", "air.D2", "PK", "18 AWG", "W8"),
        ("150", "control.S1", "control.T-", "BU", "18 AWG", ""),
    )
    lines = tuple(_line(*row) for row in rows)
    return Picture("Point to point", blocks, lines, "Invented kitchen", ("A licensed electrician decides.",))


def _terminals(
    designations: tuple[str, ...] | list[str], kind: TerminalKind = TerminalKind.SCREW, group: str = ""
) -> tuple[Terminal, ...]:
    return tuple(Terminal(text, text, kind, group) for text in designations)


def _line(key: str, a: str, b: str, colour: str, size: str, cable: str) -> Line:
    bought, _, remarked = colour.partition(" ")
    return Line(key, _end(a), _end(b), bought, remarked, size, cable)


def _end(text: str) -> End:
    block, dot, terminal = text.partition(".")
    return End(block, terminal if dot else None)


def random_picture(seed: int, *, blocks: int = 12, terminals: int = 100, lines: int = 150) -> Picture:
    """Up to so many blocks, terminals and lines, lines between any two points, by a seed."""
    chance = random.Random(seed)
    count = chance.randint(1, blocks)
    sizes = [1] * count
    for _ in range(chance.randint(count, terminals) - count):
        sizes[chance.randrange(count)] += 1
    made = tuple(_random_block(chance, b, size) for b, size in enumerate(sizes))
    points = [End(block.key, terminal.key) for block in made for terminal in block.terminals]
    drawn = []
    for n in range(chance.randint(0, lines)):
        a, b = (_random_end(chance, points) for _ in range(2))
        if a == b and a.terminal is not None:
            continue
        colour = chance.choice(_COLOURS)
        remarked = chance.choice(("", "BK", "RD")) if colour == "WH" else ""
        cable, note = chance.choice(("", "W1", "W22")), chance.choice(("", "", "spare"))
        drawn.append(Line(str(100 + n), a, b, colour, remarked, chance.choice(_SIZES), cable, note))
    return Picture(f"Random {seed}", made, tuple(drawn), footer=("Invented.",))


def _random_block(chance: random.Random, index: int, size: int) -> Block:
    terminals = []
    group = ""
    for t in range(size):
        if chance.random() < 0.2:
            group = chance.choice(("", "X1", "J3 plug", "K1 fire contact"))
        designation = chance.choice((f"{t + 1}", f"X{chance.randint(1, 9)}:{t}", f"L{t}", ""))
        terminals.append(Terminal(f"t{t}", designation, chance.choice(tuple(TerminalKind)), group))
    return Block(f"b{index}", f"E{index + 1}", chance.choice(_NAMES), tuple(terminals), index)


def _random_end(chance: random.Random, points: list[End]) -> End:
    end = chance.choice(points)
    return End(end.block, None) if chance.random() < 0.05 else end


def cabled(blocks: int, terminals: int, lines: int, seed: int = 1) -> Picture:
    """A job in cables of two to six conductors, most of them to a hub for each eight blocks."""
    chance = random.Random(seed)
    each, hubs = terminals // blocks, max(1, blocks // 8)
    made = tuple(
        Block(
            f"b{b}",
            f"E{b + 1}",
            f"Enclosure {b + 1}",
            tuple(Terminal(f"t{t}", f"X{t // 6 + 1}:{t + 1}") for t in range(each)),
            b,
        )
        for b in range(blocks)
    )
    drawn: list[Line] = []
    cable = 0
    while len(drawn) < lines:
        cable, cores = cable + 1, chance.randint(2, 6)
        a = chance.randrange(blocks)
        b = (a // 8) % hubs if chance.random() < 0.8 else chance.randrange(blocks)
        if a == b:
            continue
        from_a, from_b = (chance.randrange(max(1, each - cores)) for _ in range(2))
        for core in range(min(cores, lines - len(drawn))):
            ends = (
                End(f"b{a}", f"t{(from_a + core) % each}"),
                End(f"b{b}", f"t{(from_b + core) % each}"),
            )
            colour = ("BK", "WH", "RD", "BU", "GN", "OG")[core]
            drawn.append(Line(str(100 + len(drawn)), *ends, colour, "", "14 AWG", f"W{cable:02}"))
    return Picture(f"{blocks} blocks", made, tuple(drawn))
