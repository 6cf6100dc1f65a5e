"""Fault finding: which faults explain what was found, and what to measure next so as to tell them apart soonest."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from schedules.behaviour.fault_list import FaultKind, single_faults
from schedules.behaviour.foretelling import RIGHT, Foretelling, Hypothesis
from schedules.behaviour.meter_words import OPEN
from schedules.behaviour.probes import ProbeKind, make_probes
from schedules.behaviour.trial import Bench

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.foretelling import Value
    from schedules.behaviour.probes import Probe
    from schedules.connections.points import Point
    from schedules.derived import Derived

ItemT = TypeVar("ItemT")

LIKELIHOOD = {
    FaultKind.OPEN: 5.0,
    FaultKind.UNPLUGGED: 5.0,
    FaultKind.BREAKER_OFF: 5.0,
    FaultKind.SUPPLY_LOST: 2.0,
    FaultKind.SWAPPED: 1.0,
    FaultKind.OTHER_THROW: 1.0,
    FaultKind.TOUCHING: 1.0,
    FaultKind.STUCK_OPEN: 1.0,
    FaultKind.STUCK_SHUT: 1.0,
    FaultKind.COIL_OPEN: 1.0,
    FaultKind.LOAD_OPEN: 1.0,
    FaultKind.RESISTOR_MOVED: 1.0,
    FaultKind.LEFT_SET: 1.0,
}
"""How many times as likely as a swap each kind is taken to be: opens outnumber other wiring faults; figures nominal."""

SOUND_LIKELIHOOD = 1.0
"""That nothing at all is wrong, on the same scale."""

VOLTS_APART = 3.0
VOLTS_SHARE_APART = 0.08
"""Two voltages are told apart where they differ by more than both of these [V; share], nominal."""

OHMS_APART = 1.6
"""Two resistors are told apart where one is more than this many times the other, nominal."""

JOINED_BELOW_OHM = 2.0
"""What measures less counts as joined, so that leads and warm conductors make no difference, nominal."""

OPEN_FROM_OHM = 1e6
"""What measures more counts as open, nominal."""

MOST_PAIRED = 40
"""So many single faults, those that explain most, are tried in pairs."""

LIVE_CAUTIONS = (
    "Live: only a licensed electrician, meter proved before and after, one hand, insulated leads.",
    "Gas shut and the agent disabled as the maker says before anything is switched on.",
)
DEAD_CAUTIONS = (
    "Breakers off and locked, dead proved at every terminal touched; other supplies may stay live.",
)


@dataclass(frozen=True, slots=True)
class Found:
    """One thing found: which probe, what it showed."""

    probe: str
    value: Value


@dataclass(frozen=True, slots=True)
class Suspect:
    """A fault that explains all that was found, None for nothing being wrong; its share of all likelihood left."""

    fault: Fault | None
    share: float

    @property
    def says(self) -> str:
        """The fault in words."""
        return self.fault.says if self.fault is not None else "nothing is wrong"


@dataclass(frozen=True, slots=True)
class Proposal:
    """What to find out next: how much it is expected to tell [bit], what it may show and how likely that is."""

    probe: Probe
    gain_bits: float
    outcomes: tuple[tuple[Value, float], ...]

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind before it is taken."""
        if self.probe.live or self.probe.kind in (ProbeKind.SEE, ProbeKind.STATE):
            return LIVE_CAUTIONS
        return () if self.probe.kind is ProbeKind.LOOK else DEAD_CAUTIONS


class _Steps:
    """Counts what is done of a known number of steps."""

    def __init__(self, total: int, tell: Callable[[float], None]) -> None:
        self._total, self._tell, self._done = total, tell, 0

    def over(self, items: Iterable[ItemT]) -> Iterator[ItemT]:
        for item in items:
            yield item
            self._done += 1
            self._tell(self._done / self._total)


class Finder:
    """The single faults of one installation, and what every probe shows with each of them."""

    def __init__(self, derived: Derived, tell: Callable[[float], None] = lambda _share: None) -> None:
        """Foretell every probe. tell: is told the share that is done; what it raises ends the work."""
        self._bench = Bench(derived)
        self.probes = make_probes(self._bench)
        self._foretell = Foretelling(self._bench)
        self._place = {probe.id: place for place, probe in enumerate(self.probes)}
        sound = Hypothesis(None, self._bench.network, self._bench.sound)
        faults = single_faults(derived)
        steps = _Steps(len(faults) + len(self.probes), tell)
        self.hypotheses = (sound, *(self._hypothesis(fault) for fault in steps.over(faults)))
        self._weights = [_likelihood(item.fault) for item in self.hypotheses]
        self._groups = [self._grouped(probe) for probe in steps.over(self.probes)]
        self._proposed: dict[tuple[frozenset[int], frozenset[str]], Proposal | None] = {}

    def _hypothesis(self, fault: Fault) -> Hypothesis:
        seen = self._bench.try_out(fault)
        return Hypothesis(fault, self._bench.network_with(fault), seen)

    def _grouped(self, probe: Probe) -> _Groups:
        return _Groups(probe, [self._foretell.value(probe, item) for item in self.hypotheses])

    def classes(self) -> tuple[tuple[Suspect, ...], ...]:
        """The faults, those together that no probe tells apart."""
        alike: dict[tuple[int, ...], list[int]] = {}
        for place in range(len(self.hypotheses)):
            alike.setdefault(tuple(groups.of[place] for groups in self._groups), []).append(place)
        return tuple(self._suspects(members) for members in alike.values())

    def foretell(self, probe: str, fault: Fault | None) -> Value:
        """What a probe shows with one of the faults. Raises LookupError for an unknown probe or fault."""
        place = next((n for n, item in enumerate(self.hypotheses) if item.fault == fault), None)
        if place is None or probe not in self._place:
            raise LookupError(f"no probe {probe!r} or no such fault")
        return self._groups[self._place[probe]].values[place]

    def probe(self, name: str) -> Probe | None:
        """The probe of this name."""
        place = self._place.get(name)
        return None if place is None else self.probes[place]

    @property
    def dead_case(self) -> str:
        """The state in which ohms are measured: every breaker off."""
        return next(probe.case for probe in self.probes if probe.kind is ProbeKind.OHMS)

    def probe_between(self, kind: ProbeKind, case: str, a: Point, b: Point) -> Probe | None:
        """The probe of this kind and state between the nets of two terminals."""
        nets = self._bench.network.netlist.nets
        wanted = {nets[a], nets[b]}
        return next(
            (
                probe
                for probe in self.probes
                if probe.kind is kind
                and probe.case == case
                and probe.start is not None
                and probe.end is not None
                and {nets[probe.start], nets[probe.end]} == wanted
            ),
            None,
        )

    def found(self, probe: Probe, value: Value) -> Found:
        """What a probe showed."""
        return Found(probe.id, value)

    def possible(self, probe: Probe) -> tuple[Value, ...]:
        """Everything that a probe may show with one fault or none."""
        return tuple(self._groups_of(probe.id).shown)

    def suspects(self, found: Iterable[Found]) -> tuple[Suspect, ...]:
        """The faults that explain all that was found, likeliest first. Raises LookupError for an unknown probe."""
        return self._suspects(self._left(found))

    def propose(self, found: Iterable[Found], without: frozenset[str] = frozenset()) -> Proposal | None:
        """What to find out next, by expected information per effort and hazard; None where nothing tells any more.

        without: probes that can't be taken here.
        """
        key = frozenset(self._left(found)), without
        if key not in self._proposed:
            self._proposed[key] = self._best(*key)
        return self._proposed[key]

    def pairs(self, found: Sequence[Found]) -> Iterator[tuple[Fault, Fault]]:
        """Pairs of faults that explain together what none does alone, from the single ones that explain most of it."""
        shares = {
            place: [self._share(item, place) for item in found]
            for place, hypothesis in enumerate(self.hypotheses)
            if hypothesis.fault is not None
        }
        partly = [
            place for place, share in shares.items() if any(share) and not all(part >= 1 for part in share)
        ]
        best = sorted(partly, key=lambda place: (-sum(shares[place]), place))[:MOST_PAIRED]
        for n, one in enumerate(best):
            for two in best[n + 1 :]:
                # What the two don't make up between them, hardly anything of both does.
                if all(a + b >= 1 for a, b in zip(shares[one], shares[two], strict=True)):
                    first, second = self.hypotheses[one].fault, self.hypotheses[two].fault
                    if first is not None and second is not None and self._both_explain(first, second, found):
                        yield first, second

    def _share(self, found: Found, place: int) -> float:
        """How much of one thing that was found a fault explains: of several words, as many as it leads to."""
        groups = self._groups_of(found.probe)
        if groups.of[place] in groups.matching(found.value):
            return 1.0
        value = groups.values[place]
        if isinstance(value, str) and isinstance(found.value, str) and value != RIGHT:
            given, led = set(found.value.split(", ")), set(value.split(", "))
            return len(led) / len(given) if led < given else 0.0
        return 0.0

    def _both_explain(self, one: Fault, two: Fault, found: Iterable[Found]) -> bool:
        both = self._hypothesis(_joined(one, two))
        for item in found:
            probe = self._groups_of(item.probe).probe
            if not _same(
                probe, _counted(probe, self._foretell.value(probe, both)), _counted(probe, item.value)
            ):
                return False
        return True

    def _groups_of(self, probe: str) -> _Groups:
        if probe not in self._place:
            raise LookupError(f"no probe {probe!r}")
        return self._groups[self._place[probe]]

    def _left(self, found: Iterable[Found]) -> list[int]:
        left = list(range(len(self.hypotheses)))
        for item in found:
            groups = self._groups_of(item.probe)
            matching = groups.matching(item.value)
            left = [place for place in left if groups.of[place] in matching]
        return left

    def _suspects(self, places: Iterable[int]) -> tuple[Suspect, ...]:
        places = list(places)
        total = sum(self._weights[place] for place in places)
        suspects = [
            Suspect(self.hypotheses[place].fault, self._weights[place] / total)
            for place in sorted(places, key=lambda place: (-self._weights[place], place))
        ]
        return tuple(suspects)

    def _best(self, left: frozenset[int], without: frozenset[str]) -> Proposal | None:
        best, best_rate = None, 0.0
        weights = self._weights
        total = sum(weights[place] for place in left)
        for probe, groups in zip(self.probes, self._groups, strict=True):
            shares: dict[int, float] = {}
            for place in left:
                group = groups.of[place]
                shares[group] = shares.get(group, 0.0) + weights[place]
            if len(shares) < 2 or probe.id in without:
                continue
            gain = -sum(share / total * math.log2(share / total) for share in shares.values())
            if gain / probe.cost > best_rate:
                best_rate = gain / probe.cost
                outcomes = sorted(
                    ((groups.shown[group], share / total) for group, share in shares.items()),
                    key=lambda outcome: -outcome[1],
                )
                best = Proposal(probe, gain, tuple(outcomes))
        return best


class _Groups:
    """What one probe shows with each hypothesis, in groups that a meter tells apart."""

    def __init__(self, probe: Probe, values: list[Value]) -> None:
        self.probe = probe
        self.values = values
        number: dict[Value, int] = {}
        self._bounds: list[tuple[Value, Value]] = []
        for value in _in_order({_counted(probe, value) for value in values}):
            if self._bounds and _same(probe, self._bounds[-1][1], value):
                self._bounds[-1] = (self._bounds[-1][0], value)
            else:
                self._bounds.append((value, value))
            number[value] = len(self._bounds) - 1
        self.of = [number[_counted(probe, value)] for value in values]
        self.shown = [low for low, _ in self._bounds]

    def matching(self, value: Value) -> set[int]:
        """The groups that a value which was found may belong to."""
        value = _counted(self.probe, value)
        return {
            place
            for place, (low, high) in enumerate(self._bounds)
            if _within(value, low, high) or _same(self.probe, low, value) or _same(self.probe, high, value)
        }


def _in_order(values: Iterable[Value]) -> list[Value]:
    return sorted(
        values,
        key=lambda value: (isinstance(value, str), value if isinstance(value, float) else 0, str(value)),
    )


def _within(value: Value, low: Value, high: Value) -> bool:
    if isinstance(value, str) or isinstance(low, str) or isinstance(high, str):
        return False
    return low <= value <= high


def _counted(probe: Probe, value: Value) -> Value:
    """A value as it counts: on ohms, what is joined is 0 and what is open is OPEN."""
    if isinstance(value, str) or probe.kind in (ProbeKind.SEE, ProbeKind.LOOK, ProbeKind.VOLTS):
        return value
    if value > OPEN_FROM_OHM:
        return OPEN
    return value if value >= JOINED_BELOW_OHM else 0.0


def _same(probe: Probe, one: Value, two: Value) -> bool:
    """Whether a person with an ordinary meter takes two values for the same; words may stand in any order."""
    if one == two:
        return True
    if isinstance(one, str) and isinstance(two, str):
        return set(one.split(", ")) == set(two.split(", "))
    if isinstance(one, str) or isinstance(two, str) or probe.kind in (ProbeKind.SEE, ProbeKind.LOOK):
        return False
    if probe.kind is ProbeKind.VOLTS:
        return abs(one - two) <= max(VOLTS_APART, VOLTS_SHARE_APART * max(abs(one), abs(two)))
    low, high = min(one, two), max(one, two)
    if probe.kind in (ProbeKind.ELEMENT, ProbeKind.OHMS):
        # A winding's or an electronic supply's ohms are not what its nameplate tells: joined, something or open.
        return low > 0 and high < OPEN
    return low > 0 and high <= OHMS_APART * low


def _likelihood(fault: Fault | None) -> float:
    return SOUND_LIKELIHOOD if fault is None else LIKELIHOOD[fault.kind]


def _joined(one: Fault, two: Fault) -> Fault:
    """Both faults at once."""
    return replace(
        one,
        id=f"{one.id} + {two.id}",
        says=f"{one.says}, and {two.says}",
        subjects=one.subjects + two.subjects,
        enclosures=tuple(dict.fromkeys(one.enclosures + two.enclosures)),
        change=replace(
            one.change,
            opened=one.change.opened + two.change.opened,
            moved=one.change.moved + two.change.moved,
            touching=one.change.touching + two.change.touching,
            stuck_shut=one.change.stuck_shut + two.change.stuck_shut,
            stuck_open=one.change.stuck_open + two.change.stuck_open,
        ),
        signals=one.signals | two.signals,
    )
