"""What would cure a finding of the solved states: by hand, in words; what the job did to the circuits, taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy

if TYPE_CHECKING:
    from schedules.derived import Derived


def let_rest(names: str) -> Remedy:
    """Coils and contacts that set and drop each other."""
    return Remedy(
        f"hold the elements that set and heed {names} in the equipment sheet against the maker's diagram: a coil whose "
        "own contact drops it never rests"
    )


def unload(name: str) -> Remedy:
    """A breaker or supply that carries too much."""
    return Remedy(
        f"find in the equipment sheet what joins the poles of {name} in these states, or take load off it; a larger "
        "rating only where its maker and its conductors allow it"
    )


def shut_off(effect: str) -> Remedy:
    """Cooking energy that a release leaves on."""
    return Remedy(
        f"lead the supply of {effect} through what the release opens, as the maker's diagram has it, and correct the "
        "equipment sheet or the choices by it"
    )


def hold_off(effect: str) -> Remedy:
    """Cooking energy that comes back without a hand."""
    return Remedy(
        f"shut {effect} off by something that stays off until a hand sets it: a valve reset by hand, a contactor that "
        "holds itself in, a breaker's shunt trip"
    )


def notice_loss(circuit: str) -> Remedy:
    """A shutoff that needs a supply whose loss nobody may notice."""
    return Remedy(
        f"shut off by something that lets go when {circuit} is lost; or let a lamp or relay show that {circuit} is on, "
        "or test it live at set times, as the authority having jurisdiction decides"
    )


def take_out(subject: str) -> Remedy:
    """A part that is live, or carries current, and may not."""
    return Remedy(
        f"follow in the equipment sheet what leads from a line to {subject} in this state, and take it out"
    )


def keep_promise(effect: str) -> Remedy:
    """An effect that is not as its maker promises."""
    return Remedy(
        f"hold what feeds {effect} in these states against the maker's diagram, and correct the wiring or the promise "
        "in the equipment sheet, whichever is wrong"
    )


def own_breakers(derived: Derived) -> tuple[Remedy, ...]:
    """What the job may have done to the circuits, taken back; kept only where a new plan shows that it cures."""
    return tuple(
        Remedy(
            f"take {change.circuit} from a breaker of its own, not from {change.downstream_of}",
            (Edit("circuit", change.circuit, "downstream_of", None),),
        )
        for change in derived.job.circuit
        if change.downstream_of is not None
    )
