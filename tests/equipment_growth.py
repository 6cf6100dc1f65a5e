"""An equipment sheet that grows: breakers, strips, switched loads, control supplies, plugs, loops, all wired together.

What is grown stays true to what a sheet says: a conductor joins two terminals of one potential, a factory cable has
plugs at both ends, a contact follows a signal that is declared. Everything is invented.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import combinations
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import random

Table = dict[str, Any]
# A terminal that something stands on: its reference and its enclosure.
Point = tuple[str, str]

_POWER_COLOURS = {"line": ("BK", "RD", "BU"), "neutral": ("WH", "GY"), "ground": ("GN", "bare", "GNYE")}
_SIGNAL_COLOURS = ("BN", "RD", "OG", "YE", "BU", "VT", "GY", "WH", "PK", "TQ", "BK")
_EFFECTS = ("cooking", "exhaust", "make-up air", "light", "controls", "alarm", "release", "other")
PLUG_POLES = 8
MOST_CABLES = 95
# Terminals or conductors that one step adds at most, and conductors that a cable between what is there already has.
_MOST_AT_ONCE = 20
MOST_AGAIN = 6
# How many of the cables that join again what is joined already carry grounds alone.
_GROUNDS = 0.8


@dataclass(frozen=True)
class Bounds:
    """What a sheet may have at most."""

    enclosures: int = 12
    terminals: int = 100
    conductors: int = 150


FULL = Bounds()


@dataclass
class Growth:
    """A sheet that grows.

    stands: where each potential stands. joined: terminals with a conductor between them. when: the condition of what
    is grown just now.
    """

    chance: random.Random
    bounds: Bounds
    tables: dict[str, list[Table]] = field(default_factory=dict)
    stands: dict[str, list[Point]] = field(default_factory=dict)
    carries: dict[str, str] = field(default_factory=dict)
    joined: set[tuple[str, str]] = field(default_factory=set)
    terminals: int = 0
    conductors: int = 0
    when: Table | None = None

    def add(self, table: str, **entry: Any) -> Table:
        """One more entry of a table, under the condition of what is grown just now."""
        if self.when and table in ("device", "circuit", "cable", "factory_wire"):
            entry["when"] = self.when
        self.tables.setdefault(table, []).append(entry)
        return entry

    def count(self, table: str) -> int:
        """How many entries a table has."""
        return len(self.tables.get(table, ()))

    def room(self, terminals: int, conductors: int) -> bool:
        """Whether whatever is grown next stays within so many terminals and conductors."""
        return (
            self.terminals + _MOST_AT_ONCE <= terminals
            and self.conductors + _MOST_AT_ONCE <= conductors + MOST_AGAIN
            and self.count("cable") < MOST_CABLES
        )

    def box(self) -> str:
        """One of the enclosures besides the panel."""
        return str(self.chance.choice(self.tables["enclosure"][1:])["tag"])

    def device(self, box: str, potentials: dict[str, str], *, plug: bool = False) -> Table:
        """A device whose terminals carry these potentials, by pin; now and then one more that is left empty."""
        tag = f"X{self.count('device') + 1}"
        limited = any(self.carries[potential] == "signal" for potential in potentials.values())
        terminals = [self._terminal(tag, box, pin, name) for pin, name in potentials.items()]
        if self.chance.random() < 0.15 and len(terminals) < PLUG_POLES:
            empty = {"id": "R", "potential": f"{tag} reserve", "carries": "signal", "land": "never"}
            terminals.append(empty | {"clamp": "any"} | ({"class": "class-2"} if limited else {}))
            self.terminals += 1
        made = {
            "tag": tag,
            "name": self.chance.choice(("strip", "terminals", "relay", "board")),
            "enclosure": box,
        }
        if plug:
            made["connector"] = "plug"
        return self.add("device", **made, terminal=terminals, element=[])

    def _terminal(self, tag: str, box: str, pin: str, potential: str) -> Table:
        self.terminals += 1
        if not self.when:
            self.stands.setdefault(potential, []).append((f"{tag}:{pin}", box))
        carries = self.carries[potential]
        made = {"id": pin, "potential": potential, "carries": carries, "clamp": "any", "land": "optional"}
        return made | ({"class": "class-2"} if carries == "signal" else {})

    def cable(self, ends: tuple[str, str], pairs: list[tuple[str, str, str]], **more: Any) -> None:
        """A cable between two enclosures; pairs: potential and both references of each core; spares at times."""
        cores: list[Table] = []
        signal = all(self.carries[potential] == "signal" for potential, _, _ in pairs)
        for potential, a, b in pairs:
            colours = _POWER_COLOURS.get(self.carries[potential], _SIGNAL_COLOURS)
            core = {"colour": self.chance.choice(colours), "size": "18 AWG" if signal else "12 AWG"}
            if core["colour"] == "WH" and self.carries[potential] != "neutral":
                core["mark"] = self.chance.choice(("BK", "RD"))
            cores.append(core | {"from": a, "to": b})
            self.joined |= {(a, b), (b, a)}
        cores += [
            {"colour": self.chance.choice(_SIGNAL_COLOURS), "size": "18 AWG"}
            for _ in range(self.chance.choice((0, 0, 0, 1, 2)))
        ]
        self.conductors += len(cores)
        origin, target = ({"enclosure": end} for end in ends)
        factory = {"make": "factory", "length": "25 ft", "diameter": "0.3 in"}
        if more.pop("plugs", False):
            origin["connector"] = target["connector"] = "plug"
            more |= factory
        self.add(
            "cable",
            **{
                "number": self.count("cable") + 1,
                "name": self.chance.choice(("supply", "signal", "to the other end")),
                "make": "field",
                "type": "CL2 18" if signal else "NM-B 12",
                **({"class": "class-2"} if signal else {}),
                "from": origin,
                "to": target,
                "core": [{"id": str(n)} | core for n, core in enumerate(cores, start=1)],
            }
            | more,
        )

    def signal(self, *, driven: bool = False) -> str:
        """A signal that a contact follows; driven: one that a coil sets."""
        made = f"signal-{self.count('signal') + 1}"
        self.add("signal", id=made, name=made, set_by="coil" if driven else "outside")
        return made

    def load(self, device: Table, a: str, b: str, volts: str) -> None:
        """Something that uses energy on a device, with an effect of its own."""
        name = f"effect-{self.count('effect') + 1}"
        self.add("effect", id=name, name=name, kind=self.chance.choice(_EFFECTS))
        load = {"kind": "load", "id": f"load-{len(device['element'])}", "between": [a, b], "rated": volts}
        device["element"].append(load | {"power": "40 W", "effect": name})

    def contact(self, device: Table, a: str, b: str) -> None:
        """A contact that follows one signal or two."""
        known = [str(item["id"]) for item in self.tables["signal"]]
        names = self.chance.sample(known, min(len(known), self.chance.randint(1, 2)))
        operates = {self.chance.choice(("all", "any")): names}
        form = self.chance.choice(("NO", "NC"))
        made = {"kind": "contact", "id": f"contact-{len(device['element'])}", "between": [a, b]}
        device["element"].append(made | {"form": form, "operates": operates})

    def circuit(self) -> None:
        """A breaker, its strip, and what the strip feeds: a load, a switched load elsewhere, or a control supply."""
        poles = self.chance.choice((1, 1, 1, 2))
        tag = f"Q{self.count('circuit') + 1}"
        entry = {"tag": tag, "name": f"circuit {tag}", "poles": poles, "neutral": True, "rating": "20 A"}
        self.add("circuit", **entry, individual=True, serves="other", connection="hardwired")
        lines = ["L"] if poles == 1 else ["L1", "L2"]
        power = {pin: f"{tag} {pin}" for pin in (*lines, "N")} | {"PE": "PE"}
        for pin, potential in power.items():
            self.carries[potential] = {"N": "neutral", "PE": "ground"}.get(pin, "line")
            self.terminals += 1
        box, line = self.box(), lines[0]
        kind = self.chance.choice(("load", "switched", "switched", "supply"))
        pins = dict(power)
        if kind == "switched":
            pins["T"] = f"{tag} switched"
            self.carries[pins["T"]] = "line"
        strip = self.device(box, pins)
        self.cable(
            ("PB", box),
            [(name, f"{tag}:{pin}", f"{strip['tag']}:{pin}") for pin, name in power.items()],
            circuit=tag,
        )
        if kind == "supply":
            self.control(box, strip, line)
        elif kind == "load":
            self.load(strip, line, "N", "120 V")
        else:
            self.contact(strip, line, "T")
            for _ in range(self.chance.randint(1, 3)):
                self._switched(tag, (pins["T"], power["N"]), strip, box)

    def _switched(self, circuit: str, potentials: tuple[str, str], strip: Table, box: str) -> None:
        switched, neutral = potentials
        far = self.box()
        fed = self.device(far, {"L": switched, "N": neutral, "PE": "PE"})
        self.load(fed, "L", "N", "120 V")
        ways = ((switched, "T", "L"), (neutral, "N", "N"), ("PE", "PE", "PE"))
        pairs = [(name, f"{strip['tag']}:{a}", f"{fed['tag']}:{b}") for name, a, b in ways]
        if far == box:
            for _, a, b in pairs:
                self.wire(a, b)
        else:
            self.cable((box, far), pairs, circuit=circuit)

    def wire(self, a: str, b: str) -> None:
        """A link that the maker fitted inside an enclosure."""
        self.conductors += 1
        self.add("factory_wire", **{"from": a, "to": b, "size": "18 AWG"})

    def control(self, box: str, strip: Table, line: str) -> None:
        """A transformer on a strip, and what its supply reaches by plugs and strips."""
        tag = f"X{self.count('device') + 1}"
        plus, zero = f"{tag} 24 V", f"{tag} 0 V"
        self.carries |= {plus: "signal", zero: "signal", f"{tag} L": "line"}
        supply = self.device(box, {"24": plus, "0": zero})
        self.load(strip, line, "N", "120 V")
        supply["element"].append(
            {"kind": "supply", "id": "secondary", "between": ["24", "0"], "volts": "24 V", "current": "ac"}
            | {"listed": "class-2", "limit": "40 VA"}
        )
        for _ in range(self.chance.randint(1, 4)):
            if self.room(self.bounds.terminals, self.bounds.conductors):
                self._reached(box, supply, plus, zero)

    def _reached(self, box: str, supply: Table, plus: str, zero: str) -> None:
        """A device that the supply reaches: by a plug at both ends, or by strips."""
        far = self.box()
        if far == box:
            return
        plug = self.chance.random() < 0.5
        near, pins = supply, {"24": plus, "0": zero}
        calls = {
            f"{n}": f"{far} call {self.count('device')}.{n}" for n in range(1, self.chance.randint(1, 4))
        }
        self.carries |= dict.fromkeys(calls.values(), "signal")
        if plug or calls:
            near = self.device(box, pins | calls, plug=plug)
            for pin in pins:
                self.wire(f"{supply['tag']}:{pin}", f"{near['tag']}:{pin}")
        there = self.device(far, pins | calls, plug=plug)
        pairs = [
            (name, f"{near['tag']}:{pin}", f"{there['tag']}:{pin}") for pin, name in (pins | calls).items()
        ]
        self.cable((box, far), pairs, plugs=plug)
        for pin in calls:
            self.contact(there, "24", pin)
            if self.chance.random() < 0.5:
                coil = {
                    "kind": "coil",
                    "id": f"coil-{pin}",
                    "between": [pin, "0"],
                    "rated": "24 V",
                    "burden": "4 VA",
                }
                near["element"].append(coil | {"drives": self.signal(driven=True)})
            else:
                self.load(near, pin, "0", "24 V")
        if not calls:
            self.load(there, "24", "0", "24 V")

    def loop(self) -> None:
        """A pair of strips with signals of their own, some linked on a strip by a jumper."""
        a, b = self.box(), self.box()
        if a == b:
            return
        names = {str(n): f"loop {self.count('device')}.{n}" for n in range(1, self.chance.randint(3, 10))}
        self.carries |= dict.fromkeys(names.values(), "signal")
        one, other = self.device(a, names), self.device(b, names)
        self.cable(
            (a, b), [(name, f"{one['tag']}:{pin}", f"{other['tag']}:{pin}") for pin, name in names.items()]
        )
        self.contact(one, "1", "2")
        if self.chance.random() < 0.5:
            other["element"].append({"kind": "link", "id": "jumper", "between": ["1", "2"]})
        else:
            other["element"].append(
                {"kind": "resistor", "id": "end", "between": ["1", "2"], "ohms": "4.7 kohm"}
            )

    def shared(self) -> list[tuple[str, Point, Point]]:
        """Terminals of one potential in two enclosures that nothing joins directly yet, whatever is bought."""
        return [
            (potential, *pair)
            for potential, points in sorted(self.stands.items())
            for pair in combinations(points, 2)
            if pair[0][1] != pair[1][1] and (pair[0][0], pair[1][0]) not in self.joined
        ]

    def again(self) -> None:
        """One more cable between enclosures, for what stands in both: mostly grounds, as bonds close rings."""
        found = self.shared()
        grounds = [item for item in found if self.carries[item[0]] == "ground"]
        potential, (_, box), (_, other) = self.chance.choice(
            grounds if grounds and self.chance.random() < _GROUNDS else found
        )
        carries = self.carries[potential]
        fitting = {
            name: (name, a, b)
            for name, (a, one), (b, two) in found
            if (one, two) == (box, other) and self.carries[name] == carries
        }
        names = sorted(fitting)
        count = min(len(names), self.chance.randint(1, 4))
        self.cable((box, other), [fitting[name] for name in self.chance.sample(names, count)])
