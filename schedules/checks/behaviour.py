"""Does the installation, solved in every state, stay safe and do what its maker promises?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from schedules.behaviour.hazards import Danger, Watch
from schedules.behaviour.interlocks import Interlocks
from schedules.behaviour.promises import broken_promises
from schedules.behaviour.shared_contacts import contacts_shared_by
from schedules.behaviour.states import Level
from schedules.checks.behaviour_remedies import (
    hold_off,
    keep_promise,
    let_rest,
    notice_loss,
    own_breakers,
    shut_off,
    take_out,
    unload,
)
from schedules.findings import Finding, Remedy, Severity
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.behaviour.promises import Broken
    from schedules.behaviour.states import SolvedCase
    from schedules.derived import Derived
    from schedules.sheet.behaviour import Effect

_SOLVED = Source("the installation solved as a circuit", Confidence.DERIVED)
_NFPA_96 = Source("NFPA 96 (2021) 10.4.1 and 10.4.4, as trade texts quote them", Confidence.TWO_TEXTS)
_PRACTICE = Source("controls fed ahead of what the fire contact opens", Confidence.COMMON_PRACTICE)
_PRACTICE_SUPERVISED = Source(
    "energise-to-trip needs a supervised supply or a regular live test", Confidence.COMMON_PRACTICE
)
_OFF_RULE = "in a fire all cooking energy goes off, and nothing gives it back but a hand"

CODES = frozenset(
    {
        "contacts-chase",
        "supply-overloaded",
        "heat-in-fire",
        "heat-returns",
        "heat-on-reset",
        "heat-without-supply",
        "controls-die",
        "metal-live",
        "neutral-live",
        "limited-sees-mains",
        "ground-carries-current",
        "promise-broken",
        "contact-shared",
    }
)
"""Every check that the solved states can fail."""

_NAMED = 3
"""So many states are named in a finding's sentence; its numbers name them all."""


def check_behaviour(derived: Derived) -> Iterator[Finding]:
    """Solve every state and hold the safety statements and the maker's promises against it."""
    interlocks = Interlocks(derived)
    solved = interlocks.solved
    yield from _unsettled(solved)
    yield from _overloads(solved)
    yield from _heat(interlocks)
    yield from _controls(derived, interlocks)
    yield from _hazards(derived, solved)
    yield from _promises(derived, interlocks)


def _unsettled(solved: tuple[SolvedCase, ...]) -> Iterator[Finding]:
    restless = [item for item in solved if not item.situation.settled]
    for chasing in dict.fromkeys(item.situation.chasing for item in restless):
        states = [item for item in restless if item.situation.chasing == chasing]
        # Coils of one signal can chase each other while the signal itself stays.
        names = ", ".join(chasing) or "coils of one signal"
        yield _finding(
            "contacts-chase",
            chasing[0] if chasing else states[0].case.id,
            f"contacts and coils never come to rest: {names} set and drop each other",
            states,
            rule="every state comes to rest",
            source=_SOLVED,
            remedies=(let_rest(names),),
        )


def _overloads(solved: tuple[SolvedCase, ...]) -> Iterator[Finding]:
    """A breaker that its trip coil opens is meant to; one that carries too much is not."""
    over: dict[str, list[SolvedCase]] = {}
    for item in solved:
        situation = item.situation
        for name in (*situation.network.netlist.names(situation.tripped), *situation.given_up):
            over.setdefault(name.removesuffix("-off").upper() if name.endswith("-off") else name, []).append(
                item
            )
    for name, states in sorted(over.items()):
        yield _finding(
            "supply-overloaded",
            name,
            f"{name} carries more than it can and gives up",
            states,
            rule="no breaker or supply is overloaded in any state",
            source=_SOLVED,
            remedies=(unload(name),),
        )


def _heat(interlocks: Interlocks) -> Iterator[Finding]:
    """Cooking energy is off in every state with a release in it, and stays off until a hand gives it back."""
    for effect in interlocks.effects:
        if effect.kind != "cooking":
            continue
        hot = [item for item in interlocks.solved if _worst(interlocks, item, effect) is not Level.OFF]
        in_fire = [item for item in hot if item.burning]
        yield from _hot(effect, in_fire, interlocks)
        after = [item for item in hot if not item.burning]
        back = [item for item in after if _since_release(item, interlocks) == "nothing"]
        reset = [item for item in after if _since_release(item, interlocks) == "reset"]
        if back:
            says = f"{effect.name} comes back by itself after a release"
            yield _finding(
                "heat-returns",
                effect.id,
                says,
                back,
                rule=_OFF_RULE,
                source=_NFPA_96,
                remedies=(hold_off(effect.name),),
            )
        if reset:
            says = f"{effect.name} comes back as soon as the suppression is reset"
            yield _finding(
                "heat-on-reset",
                effect.id,
                says,
                reset,
                rule=_OFF_RULE,
                source=_NFPA_96,
                severity=Severity.CHECK,
            )


def _hot(effect: Effect, in_fire: list[SolvedCase], interlocks: Interlocks) -> Iterator[Finding]:
    """Heat in a fire stops the work; with a supply lost before the fire, somebody must notice the loss in time."""
    at_once = [item for item in in_fire if item.case.of_sheet or not item.case.circuits_off]
    if at_once:
        says = f"{effect.name} is not off in a fire"
        yield _finding(
            "heat-in-fire",
            effect.id,
            says,
            at_once,
            rule=_OFF_RULE,
            source=_NFPA_96,
            remedies=(shut_off(effect.name),),
        )
    for circuit in dict.fromkeys(
        tag for item in in_fire if item not in at_once for tag in item.case.circuits_off
    ):
        states = [item for item in in_fire if item not in at_once and circuit in item.case.circuits_off]
        shows = _shown_by_loss(interlocks, circuit)
        tell = (
            f"that {circuit} is off shows by: {', '.join(shows)}"
            if shows
            else f"nothing tells that {circuit} is off"
        )
        yield _finding(
            "heat-without-supply",
            f"{effect.id} without {circuit}",
            f"with {circuit} off, {effect.name} is not off in a fire; {tell}",
            states,
            rule="what must act in a fire acts without its supply too, or the loss is noticed in time",
            source=_PRACTICE_SUPERVISED,
            severity=Severity.CHECK if shows else Severity.FIX,
            remedies=(notice_loss(circuit),),
        )


def _shown_by_loss(interlocks: Interlocks, circuit: str) -> list[str]:
    """What a person sees change when this circuit goes off."""
    for lost in interlocks.solved:
        before = interlocks.by_id.get(lost.case.after or "")
        if before is not None and lost.case.circuits_off == {circuit} and not lost.burning:
            return [
                effect.name
                for effect in interlocks.effects
                if before.levels[effect.id] != lost.levels[effect.id]
            ]
    return []


def _worst(interlocks: Interlocks, item: SolvedCase, effect: Effect) -> Level:
    """The highest level, whatever a person's switches are set to."""
    levels = [item.levels[effect.id]]
    if item.burning or _since_release(item, interlocks) is not None:
        levels += interlocks.four(item.case, effect.id)
    return max(levels, key=list(Level).index)


def _since_release(item: SolvedCase, interlocks: Interlocks) -> Literal["nothing", "reset", "hand"] | None:
    """What a hand has done since the last release before this state, None where there was none.

    reset: the suppression was reset, and nothing else set. hand: something was set that holds itself.
    """
    done: Literal["nothing", "reset", "hand"] = "nothing"
    state: SolvedCase | None = item
    while state is not None:
        if state.burning:
            return done
        if not state.case.signals.isdisjoint(interlocks.acts):
            done = "hand"
        elif state.case.reset and done == "nothing":
            done = "reset"
        state = interlocks.by_id.get(state.case.after or "")
    return None


def _controls(derived: Derived, interlocks: Interlocks) -> Iterator[Finding]:
    """The controls are alive wherever no breaker is off, and a release takes nothing from them."""
    for effect in interlocks.effects:
        if effect.kind != "controls":
            continue
        dead = []
        for item in interlocks.solved:
            before = interlocks.by_id.get(item.case.after or "")
            alive_before = (
                before is not None
                and before.levels[effect.id] is Level.ON
                and before.case.circuits_off == item.case.circuits_off
            )
            if item.levels[effect.id] is not Level.ON and (not item.case.circuits_off or alive_before):
                dead.append(item)
        if dead:
            by = sorted({name for item in dead for name in _opened(item)})
            says = f"{effect.name}: not so, though their own breaker is on" + (
                f" ({', '.join(by)})" if by else ""
            )
            rule = "the controls stay supplied unless their own supply is lost"
            yield _finding(
                "controls-die",
                effect.id,
                says,
                dead,
                rule=rule,
                source=_PRACTICE,
                remedies=own_breakers(derived),
            )


def _opened(item: SolvedCase) -> frozenset[str]:
    """What a coil has opened in this state: latched signals of trip coils, breakers that gave up."""
    netlist = item.situation.network.netlist
    return netlist.names(item.situation.latched | item.situation.tripped)


_DANGERS = {
    Danger.METAL: ("metal-live", "no enclosure's metal is live in any state"),
    Danger.NEUTRAL: ("neutral-live", "no neutral terminal is live in any state"),
    Danger.LIMITED: ("limited-sees-mains", "power-limited wiring never sees mains"),
    Danger.GROUND_CURRENT: ("ground-carries-current", "no grounding conductor carries current in use"),
}


def _hazards(derived: Derived, solved: tuple[SolvedCase, ...]) -> Iterator[Finding]:
    """Each live part once, in the first state that shows it."""
    watch, told = Watch(derived.network.netlist), set[tuple[Danger, str]]()
    for item in solved:
        for hazard in watch.over(item.situation):
            if (hazard.danger, hazard.subject) in told:
                continue
            told.add((hazard.danger, hazard.subject))
            code, rule = _DANGERS[hazard.danger]
            yield Finding(
                code=code,
                severity=Severity.STOP,
                subject=hazard.subject,
                says=f"{hazard.danger}: {hazard.subject} has {hazard.shown}; in “{item.case.name}”",
                rule=rule,
                source=_SOLVED,
                numbers=(Input(str(hazard.danger), hazard.shown, "solved"),),
                remedies=(take_out(hazard.subject),),
            )


def _promises(derived: Derived, interlocks: Interlocks) -> Iterator[Finding]:
    broken = tuple(broken_promises(derived, interlocks))
    yield from _shared(derived, broken)
    for effect in dict.fromkeys(item.effect.id for item in broken):
        items = [item for item in broken if item.effect.id == effect]
        first = items[0]
        told = dict.fromkeys(f"{_PROMISED[item.promise.does]}, solved it {item.instead}" for item in items)
        yield _finding(
            "promise-broken",
            effect,
            f"{first.effect.name}: the sheet promises that it {'; and that it '.join(told)}",
            [item.solved for item in items],
            rule="the installation does what its maker promises",
            source=Source(first.promise.source, Confidence.SHEET),
            severity=Severity.STOP if any(item.solved.burning for item in items) else Severity.FIX,
            remedies=(*own_breakers(derived), keep_promise(first.effect.name)),
        )


_PROMISED = {"on": "is on", "off": "is off", "follows": "follows its call", "unchanged": "stays as it was"}


def _shared(derived: Derived, broken: tuple[Broken, ...]) -> Iterator[Finding]:
    """Where make-up air breaks a promise: does one contact work both it and the exhaust, which must do otherwise?"""
    told: set[str] = set()
    for item in broken:
        if item.effect.kind not in ("make-up air", "exhaust"):
            continue
        other = "exhaust" if item.effect.kind == "make-up air" else "make-up air"
        partners = [effect for effect in derived.sheet.effect if effect.kind == other]
        for key in contacts_shared_by(derived, item.effect, partners):
            if key in told:
                continue
            told.add(key)
            yield Finding(
                code="contact-shared",
                severity=Severity.STOP,
                subject=key,
                says=(
                    f"contact {key} works both exhaust and make-up air; in state “{item.solved.case.name}” the sheet "
                    "promises different things of them, and one contact can't do both"
                ),
                rule="make-up air that follows the exhaust and a fire that stops only one of them need two contacts",
                source=Source(item.promise.source, Confidence.SHEET),
                remedies=(Remedy("give make-up air a contact of its own that the release also opens"),),
            )


def _finding(
    code: str,
    subject: str,
    says: str,
    states: Sequence[SolvedCase],
    *,
    rule: str,
    source: Source,
    severity: Severity = Severity.STOP,
    remedies: tuple[Remedy, ...] = (),
) -> Finding:
    names = [f"“{item.case.name}”" for item in states[:_NAMED]]
    more = f" and {len(states) - _NAMED} more" if len(states) > _NAMED else ""
    return Finding(
        code=code,
        severity=severity,
        subject=subject,
        says=f"{says}; in {', '.join(names)}{more}",
        rule=rule,
        source=source,
        numbers=tuple(Input("state", item.case.name, "solved") for item in states),
        remedies=remedies,
    )
