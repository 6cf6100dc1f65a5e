"""Does the installation do what the sheet says that its maker promises?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.states import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.interlocks import Interlocks
    from schedules.behaviour.states import SolvedCase
    from schedules.derived import Derived
    from schedules.sheet.behaviour import Effect, Promise


@dataclass(frozen=True, slots=True)
class Broken:
    """A promise that doesn't hold in one state, and what happens instead, in words."""

    promise: Promise
    effect: Effect
    solved: SolvedCase
    instead: str


def broken_promises(derived: Derived, interlocks: Interlocks) -> Iterator[Broken]:
    """Compare every promise that the choices bring with the solved states."""
    choices = derived.selection.choices
    solved = interlocks.by_id
    effects = {effect.id: effect for effect in interlocks.effects}
    for promise in derived.sheet.promise:
        effect = effects.get(promise.effect)
        if effect is None or not promise.when.holds(choices):
            continue
        for state in promise.states:
            if state in solved:
                instead = _instead(interlocks, promise, effect, solved[state])
                if instead:
                    yield Broken(promise, effect, solved[state], instead)


def promised(derived: Derived, state: str, effect: str) -> Promise | None:
    """What the sheet says that its maker promises of an effect in a state, with these choices; None where nothing."""
    choices = derived.selection.choices
    return next(
        (
            promise
            for promise in derived.sheet.promise
            if promise.effect == effect and state in promise.states and promise.when.holds(choices)
        ),
        None,
    )


def _instead(interlocks: Interlocks, promise: Promise, effect: Effect, solved: SolvedCase) -> str:
    """What the effect does where it is not what was promised; empty where it is."""
    if promise.does in ("on", "off"):
        return _not_steady(interlocks, promise, effect, solved)
    off, _, _, on = four = interlocks.four(solved.case, effect.id)
    if promise.does == "follows":
        return "" if _runs(off, effect) != _runs(on, effect) else f"is {on} whether it is called or not"
    before = [interlocks.levels_before(solved.case, effect.id, on=called) for called in (False, True)]
    if before[0] is None or [four[0], four[3]] == before:
        return ""
    return f"goes from {before[1]} to {on} while it is called, from {before[0]} to {off} while it isn't"


def _not_steady(interlocks: Interlocks, promise: Promise, effect: Effect, solved: SolvedCase) -> str:
    """As stated; where a release stands, also whatever a person's switches are set to."""
    wanted = promise.does == "on"
    level = solved.levels[effect.id]
    if _runs(level, effect) != wanted:
        return f"is {level}"
    if solved.burning:
        others = [item for item in interlocks.four(solved.case, effect.id) if _runs(item, effect) != wanted]
        if others:
            return f"is {others[0]} with other switches on"
    return ""


def _runs(level: Level, effect: Effect) -> bool | None:
    """Whether it runs. An alarm input watched through a resistor rests; anything else at part voltage does neither."""
    if level is Level.PART:
        return False if effect.kind == "alarm" else None
    return level is Level.ON
