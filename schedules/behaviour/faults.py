"""What each single fault does in every state, whether that is safe, and who would notice it and when."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.fault_list import FaultKind, single_faults
from schedules.behaviour.protection import Grounding
from schedules.behaviour.states import Level, cast_of
from schedules.behaviour.trial import Bench

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.hazards import Danger, Hazard
    from schedules.behaviour.trial import Seen
    from schedules.derived import Derived
    from schedules.sheet.behaviour import Effect


class Notice(StrEnum):
    """Who notices a fault, and when."""

    AT_ONCE = "at once, armed and idle"
    IN_USE = "a person, when it is used"
    ON_RETURN = "a person, when power fails or the suppression is reset"
    IN_FIRE = "only by a live test of the release, or in a fire"
    NOBODY = "nobody, short of a meter"


@dataclass(frozen=True, slots=True)
class Deviation:
    """One thing that is not as without the fault, in one state, in words."""

    case: str
    state: str
    subject: str
    says: str
    seen: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """One fault: what is different in which state, what of it is dangerous, who notices."""

    fault: Fault
    deviations: tuple[Deviation, ...]
    dangers: tuple[str, ...]
    notice: Notice

    @property
    def safe(self) -> bool:
        """Whether nothing dangerous comes of it."""
        return not self.dangers

    @property
    def hidden(self) -> bool:
        """Whether nobody notices it in use."""
        return self.notice in (Notice.ON_RETURN, Notice.IN_FIRE, Notice.NOBODY)


def try_faults(derived: Derived) -> tuple[Outcome, ...]:
    """Try every single fault of an installation."""
    judge = Judge(derived)
    return tuple(judge.outcome(fault) for fault in single_faults(derived))


def _alike(sound: Seen, seen: Seen) -> bool:
    return (
        seen.levels == sound.levels
        and seen.hazards == sound.hazards
        and seen.tripped == sound.tripped
        and seen.settled == sound.settled
    )


def _new_hazards(sound: Seen, seen: Seen) -> list[Hazard]:
    known = {(hazard.danger, hazard.subject) for hazard in sound.hazards}
    return [hazard for hazard in seen.hazards if (hazard.danger, hazard.subject) not in known]


def _few(parts: Iterable[str]) -> str:
    """The first of several parts by name, and how many more."""
    first, *more = parts
    return f"{first} and {len(more)} more" if more else first


class Judge:
    """Compares what is seen with a fault with what is seen without it."""

    def __init__(self, derived: Derived) -> None:
        self.bench = Bench(derived)
        self._grounding = Grounding(derived.network)
        self._effects: Mapping[str, Effect] = {effect.id: effect for effect in derived.sheet.effect}
        self._fire = frozenset(cast_of(derived).fire)
        self._sound = {seen.solved.case.id: seen for seen in self.bench.sound}
        self._after_release = frozenset(self._after_releases())

    def outcome(self, fault: Fault) -> Outcome:
        """Try one fault and judge it."""
        return self.judged(fault, self.bench.try_out(fault))

    def judged(self, fault: Fault, states: tuple[Seen, ...]) -> Outcome:
        """Judge a fault by what was seen with it."""
        deviations: list[Deviation] = []
        dangers: dict[str, None] = {}
        hazards: dict[Danger, dict[str, None]] = {}
        for sound, seen in zip(self.bench.sound, states, strict=True):
            if not _alike(sound, seen):
                deviations += self._deviations(sound, seen)
                dangers.update(dict.fromkeys(self._dangers(sound, seen)))
                for hazard in _new_hazards(sound, seen):
                    hazards.setdefault(hazard.danger, {})[hazard.subject] = None
        # What never went off in the fire has no need to come back.
        for effect in self._effects.values():
            if f"{effect.name} in a fire" in dangers:
                dangers.pop(f"{effect.name} comes back without a hand", None)
        for danger, parts in hazards.items():
            dangers[f"{danger}: {_few(parts)}"] = None
        for tag in self._grounding.lost(fault.change):
            dangers[f"metal of {tag} has no grounding path: a line that touches it stays live"] = None
        if fault.kind is FaultKind.RESISTOR_MOVED:
            dangers.update(dict.fromkeys(self._unwatched(fault)))
        return Outcome(fault, tuple(deviations), tuple(dangers), self._notice(deviations))

    def _after_releases(self) -> Iterator[str]:
        """States that come after a release in which nothing has been set by hand since."""
        after: set[str] = set()
        for seen in self.bench.sound:
            case = seen.solved.case
            before = self._sound.get(case.after or "")
            if before is not None and (before.solved.burning or before.solved.case.id in after):
                after.add(case.id)
                yield case.id

    def _deviations(self, sound: Seen, seen: Seen) -> Iterator[Deviation]:
        case = seen.solved.case
        if seen.levels != sound.levels:
            for effect, level in seen.levels.items():
                if level is not sound.levels[effect]:
                    name = self._effects[effect].name
                    says = f"{name}: {level} instead of {sound.levels[effect]}"
                    yield Deviation(case.id, case.name, effect, says, seen=True)
        for name in sorted(seen.tripped - sound.tripped):
            tripped = name.removesuffix("-off").upper() if name.endswith("-off") else name
            yield Deviation(case.id, case.name, name, f"{tripped} trips", seen=True)
        if sound.settled and not seen.settled:
            yield Deviation(case.id, case.name, "contacts", "contacts chatter", seen=True)
        for hazard in _new_hazards(sound, seen):
            says = f"{hazard.danger}: {hazard.subject}, {hazard.shown}"
            yield Deviation(case.id, case.name, hazard.subject, says, seen=False)

    def _dangers(self, sound: Seen, seen: Seen) -> Iterator[str]:
        case = seen.solved.case
        burning = sound.solved.burning
        for name, level in seen.levels.items():
            effect, was = self._effects[name], sound.levels[name]
            if effect.kind == "cooking" and level is not Level.OFF and was is Level.OFF:
                if burning:
                    yield f"{effect.name} in a fire"
                elif case.id in self._after_release:
                    yield f"{effect.name} comes back without a hand"
            if (
                burning
                and self._called_by_fire(case.id, effect)
                and level is not Level.ON
                and was is Level.ON
            ):
                yield f"not in a fire: {effect.name}"
        yield from self._blind(sound, seen)

    def _called_by_fire(self, case: str, effect: Effect) -> bool:
        """Whether this state is a release itself, and the effect is a release or an alarm that it calls."""
        state = self._sound[case].solved.case
        before = self._sound.get(state.after or "")
        return (
            effect.kind in ("release", "alarm")
            and not state.signals.isdisjoint(self._fire)
            and (before is None or before.levels[effect.id] is not Level.ON)
        )

    def _blind(self, sound: Seen, seen: Seen) -> Iterator[str]:
        """Heat that runs while the controls, which should be alive, are dead."""
        heat = any(
            level is not Level.OFF and self._effects[name].kind == "cooking"
            for name, level in seen.levels.items()
        )
        for name, level in seen.levels.items():
            effect = self._effects[name]
            if heat and effect.kind == "controls" and level is Level.OFF and sound.levels[name] is Level.ON:
                yield f"heat runs without this: {effect.name}"

    def _unwatched(self, fault: Fault) -> Iterator[str]:
        """Wires of the loop whose break is noticed with the resistor in its place, and not where it is now."""
        network = self.bench.network
        loop = network.blocks[network.block_of_branch[fault.subjects[0]]].branches
        for other in single_faults(self.bench.derived):
            if other.kind is not FaultKind.OPEN or other.subjects[0] not in loop:
                continue
            whole, both = self.outcome(other), self._both(fault, other)
            if whole.notice is Notice.AT_ONCE and both.notice is not Notice.AT_ONCE:
                yield f"a break of wire {other.subjects[0]} is no longer noticed"

    def _both(self, one: Fault, two: Fault) -> Outcome:
        change = replace(one.change, opened=(*one.change.opened, *two.change.opened))
        return self.judged(two, self.bench.try_out(replace(two, change=change)))

    def _notice(self, deviations: list[Deviation]) -> Notice:
        shown = {deviation.case for deviation in deviations if deviation.seen}
        when = {self._when(self._sound[case]) for case in shown}
        return next((notice for notice in _SUREST if notice in when), Notice.NOBODY)

    def _when(self, sound: Seen) -> Notice:
        """When a person sees what is different in this state."""
        case = sound.solved.case
        if sound.solved.burning and not case.signals.isdisjoint(self._fire):
            return Notice.IN_FIRE
        if sound.solved.burning or case.circuits_off or case.reset or case.id in self._after_release:
            return Notice.ON_RETURN
        return Notice.IN_USE if case.signals else Notice.AT_ONCE


_SUREST = (Notice.AT_ONCE, Notice.IN_USE, Notice.IN_FIRE, Notice.ON_RETURN)
