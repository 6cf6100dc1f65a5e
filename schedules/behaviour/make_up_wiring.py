"""Which way the hood's contact drives the make-up air, as the solved network has it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.behaviour.states import Level, followed_signals, levels_in
from schedules.network.settling import settle

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.derived import Derived


@dataclass(frozen=True, slots=True)
class MakeUpWiring:
    """How the make-up load is powered against the exhaust.

    contact: None where the load's power doesn't follow the exhaust. fire_exhaust, fire_make_up: in a fire while the
    exhaust had been called; make-up air counts as on where its damper stands open.
    """

    contact: Literal["closes with the exhaust", "opens with the exhaust"] | None
    fire_exhaust: Literal["on", "off"]
    fire_make_up: Literal["on", "off"]


def make_up_wiring(derived: Derived) -> MakeUpWiring | None:
    """Read it off the network; None where these choices have no make-up load or no exhaust to call."""
    effects = {item.id: item.kind for item in derived.sheet.effect}
    present = {user.effect for user in derived.network.netlist.users.values()}
    make_up = sorted(name for name in present if effects[name] == "make-up air")
    exhaust = sorted(name for name in present if effects[name] == "exhaust")
    called = _call(derived, exhaust)
    if not make_up or called is None:
        return None
    idle, running = _levels(derived), _levels(derived, called)
    fires = [signal.id for signal in derived.sheet.signal if signal.fire and signal.set_by == "outside"]
    burning = _levels(derived, called, *fires[:1])
    powered = [_on(levels, make_up) for levels in (idle, running, burning)]
    contact: Literal["closes with the exhaust", "opens with the exhaust"] | None = None
    if powered[0] != powered[1]:
        contact = "closes with the exhaust" if powered[1] else "opens with the exhaust"
    opens = contact != "opens with the exhaust"
    return MakeUpWiring(
        contact,
        "on" if _on(burning, exhaust) else "off",
        "on" if powered[2] == opens else "off",
    )


def _call(derived: Derived, exhaust: list[str]) -> str | None:
    """A person's switch that starts the exhaust."""
    followed = followed_signals(derived.network)
    calls = [
        signal.id
        for signal in derived.sheet.signal
        if signal.set_by == "outside" and not signal.fire and signal.id in followed
    ]
    return next((name for name in calls if _on(_levels(derived, name), exhaust)), None)


def _levels(derived: Derived, *signals: str) -> Mapping[str, Level]:
    return levels_in(settle(derived.network, signals).solution)


def _on(levels: Mapping[str, Level], effects: list[str]) -> bool:
    return any(levels.get(name) is Level.ON for name in effects)
