"""A story for a class: states and slips one after another, each on what came before, and what every event changes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.hazards import Watch
from schedules.behaviour.states import at_rest, cases_of, cast_of, level_of, solve_cases
from schedules.behaviour.what_if import broken_wire, joined_points, swapped_ends
from schedules.behaviour.wire_states import wire_states
from schedules.connections.points import Point
from schedules.network.settling import settle
from schedules.network.switching import Change

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.states import Case, Level
    from schedules.behaviour.wire_states import WireState
    from schedules.derived import Derived
    from schedules.network.settling import Situation
    from schedules.network.switching import Network


class EventKind(StrEnum):
    """What may happen: a state is put up, a wire breaks, two ends are swapped, two terminals touch, all is mended."""

    STATE = "state"
    BREAK = "break"
    SWAP = "swap"
    JOIN = "join"
    MEND = "mend"


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happens. case: the state put up; fault: what goes wrong; mended takes every fault back."""

    kind: EventKind
    says: str
    case: Case | None = None
    fault: Fault | None = None


@dataclass(frozen=True, slots=True)
class Turn:
    """An effect that is otherwise than in the scene before."""

    effect: str
    was: Level
    now: Level


@dataclass(frozen=True, slots=True)
class Scene:
    """What is seen after an event. says: the event; state, wrong: what is put up and what is wrong by now.

    levels: of each effect, by its name. turned: those that this event changed; tripped: breakers and supplies that
    it brought down; hazards: what must not be live and is. change: what is wrong, in the network's terms; situation:
    the network solved with it.
    """

    says: str
    state: str
    wrong: tuple[str, ...]
    levels: Mapping[str, Level]
    turned: tuple[Turn, ...]
    tripped: tuple[str, ...]
    hazards: tuple[str, ...]
    settled: bool
    change: Change
    situation: Situation

    @property
    def wires(self) -> Mapping[str, WireState]:
        """Every conductor: live, carrying current, dead or open."""
        return wire_states(self.situation, self.change)


@dataclass(frozen=True, slots=True)
class StateRow:
    """One state, by the name that is typed, with what is wrong by now. put_up: it is the state of the scene.

    levels: of each effect, by its name; unlike: the effects that are otherwise in a sound installation.
    """

    state: str
    levels: Mapping[str, Level]
    unlike: frozenset[str]
    put_up: bool


class Stage:
    """One installation on which stories are played."""

    def __init__(self, derived: Derived) -> None:
        self._derived = derived
        self._networks = {_NOTHING: derived.network}
        self.cases = {case.id.lstrip("+"): case for case in cases_of(derived)}
        self._rest = at_rest(self.cases.values(), cast_of(derived))
        self._watch = Watch(derived.network.netlist)
        self._names = {effect.id: effect.name for effect in derived.sheet.effect}

    def read(self, text: str) -> Event:
        """Read one line of a story: `state fire`, `break 701`, `swap 101@X1:1L 102@X1:1N`, `join X1:1N X1:1PE`, `mend`.

        Raises LookupError, which says what may stand there.
        """
        word, *rest = text.split()[:3] or [""]
        if word not in {*_PARTS} or len(rest) != _PARTS[EventKind(word)]:
            raise LookupError(f"found “{text.strip()[:40]}”; allowed: {ALLOWED}")
        match EventKind(word):
            case EventKind.STATE:
                case = self._case(rest[0])
                return Event(EventKind.STATE, case.name, case=case)
            case EventKind.MEND:
                return Event(EventKind.MEND, "All is mended")
            case kind:
                fault = self._fault(kind, rest)
                return Event(kind, fault.says, fault=fault)

    def way_to(self, name: str) -> tuple[Event, ...]:
        """The states to put up one after another until one stands as it is solved. Raises LookupError as `read`."""
        way = self._way(self._case(name))
        return tuple(Event(EventKind.STATE, case.name, case=case) for case in way)

    def _way(self, case: Case) -> list[Case]:
        """The states that come before one, from the first of them, and the state itself."""
        way, cases = [case], {each.id: each for each in self.cases.values()}
        while (before := cases.get(way[0].after or "")) is not None:
            way.insert(0, before)
        return way

    def _case(self, name: str) -> Case:
        case = self.cases.get(name)
        if case is None:
            raise LookupError(f"no state “{name[:40]}”; there are: {', '.join(self.cases)}")
        return case

    def _fault(self, kind: EventKind, parts: Sequence[str]) -> Fault:
        if kind is EventKind.BREAK:
            return broken_wire(self._derived, parts[0])
        if kind is EventKind.JOIN:
            return joined_points(self._derived, _point(parts[0]), _point(parts[1]))
        one, two = (part.partition("@") for part in parts)
        return swapped_ends(self._derived, (one[0], _point(one[2])), (two[0], _point(two[2])))

    def play(self, events: Sequence[Event]) -> tuple[Scene, ...]:
        """Every scene: at rest to begin with, then one after each event."""
        return tuple(self._scenes(events))

    def states(self, scene: Scene) -> tuple[StateRow, ...]:
        """Every state of the sheet, and the one put up, as each would be with what is wrong in a scene."""
        sound, seen = self._levels_in_states(_NOTHING), self._levels_in_states(scene.change)
        return tuple(
            StateRow(
                typed,
                seen[case.id],
                frozenset(name for name, level in seen[case.id].items() if level is not sound[case.id][name]),
                case.name == scene.state,
            )
            for typed, case in self.cases.items()
            if case.of_sheet or case.name == scene.state
        )

    def _levels_in_states(self, change: Change) -> dict[str, dict[str, Level]]:
        """The effects' levels in each state, by its id; each state in its own order, as it is solved."""
        solved = solve_cases(self._derived, self._network(change), self.cases.values())
        return {item.case.id: self._levels(item.situation) for item in solved}

    def _scenes(self, events: Sequence[Event]) -> Iterator[Scene]:
        case = self._rest
        faults: tuple[Fault, ...] = ()
        situation = self._before_the_first()
        scene = self._scene(case.name, case, faults, situation, None)
        yield scene
        for event in events:
            if event.case is not None:
                case = event.case
            elif event.kind is EventKind.MEND:
                faults = ()
            elif event.fault is not None:
                faults = (*faults, event.fault)
            situation = self._settled(case, _together(faults), situation)
            scene = self._scene(event.says, case, faults, situation, scene)
            yield scene

    def _before_the_first(self) -> Situation:
        """At rest, after whatever a hand has to do first to arm it."""
        first, *rest = self._way(self._rest)
        situation = self._settled(first, _NOTHING, None)
        for case in rest:
            situation = self._settled(case, _NOTHING, situation)
        return situation

    def _settled(self, case: Case, change: Change, before: Situation | None) -> Situation:
        return settle(self._network(change), case.outside, before, case.reset)

    def _network(self, change: Change) -> Network:
        """The network with what is wrong in it; the same one each time, with what it has solved."""
        if change not in self._networks:
            self._networks[change] = self._derived.network.changed(change)
        return self._networks[change]

    def _scene(
        self, says: str, case: Case, faults: tuple[Fault, ...], situation: Situation, before: Scene | None
    ) -> Scene:
        levels = self._levels(situation)
        was = levels if before is None else before.levels
        turned = tuple(
            Turn(name, was[name], level) for name, level in levels.items() if level is not was[name]
        )
        names = situation.network.netlist.names(situation.tripped) | situation.given_up
        hazards = (f"{item.danger}: {item.subject}, {item.shown}" for item in self._watch.over(situation))
        return Scene(
            says=says,
            state=case.name,
            wrong=tuple(fault.says for fault in faults),
            levels=levels,
            turned=turned,
            tripped=tuple(sorted(name.removesuffix("-off").upper() for name in names)),
            hazards=tuple(hazards),
            settled=situation.settled,
            change=_together(faults),
            situation=situation,
        )

    def _levels(self, situation: Situation) -> dict[str, Level]:
        shares: dict[str, float] = {}
        for user in self._derived.network.netlist.users.values():
            shares[user.effect] = max(shares.get(user.effect, 0.0), situation.share(user.key))
        return {name: level_of(shares[effect]) for effect, name in self._names.items() if effect in shares}


_NOTHING = Change()


def _together(faults: Iterable[Fault]) -> Change:
    """Everything that is wrong at once."""
    changes = [fault.change for fault in faults]
    return Change(
        opened=tuple(item for change in changes for item in change.opened),
        moved=tuple(item for change in changes for item in change.moved),
        touching=tuple(item for change in changes for item in change.touching),
    )


_PARTS = {EventKind.STATE: 1, EventKind.BREAK: 1, EventKind.SWAP: 2, EventKind.JOIN: 2, EventKind.MEND: 0}

ALLOWED = "state NAME, break WIRE, swap WIRE@TERMINAL WIRE@TERMINAL, join TERMINAL TERMINAL, mend"
"""What a line of a story may be."""


def _point(text: str) -> Point:
    point = Point.read(text)
    if not (point.device and point.terminal):
        raise LookupError(f"found “{text[:40]}”; allowed: a terminal such as X1:1L")
    return point
