"""What lets in enough air for the hood, as edits of the job that can be planned again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.behaviour.make_up_wiring import make_up_wiring
from schedules.findings import Edit, Remedy
from schedules.make_up.house_air import allowed_pa
from schedules.make_up.make_up_air import passive_opening

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived

_NEVER_LESS = 1e-9


def make_up_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A make-up fan, else a passive opening, with a damper that suits the hood's contact."""
    air = derived.house_air
    if air is None or air.needed is None:
        return
    airflow = math.ceil(air.needed.airflow_cfm - _NEVER_LESS)
    damper, spring = _damper(derived)
    yield Remedy(
        f"let in {airflow} cfm by a make-up fan{damper}",
        (
            Edit("air", None, "make_up", "powered"),
            Edit("air", None, "make_up_airflow", f"{airflow} cfm"),
            *spring,
        ),
    )
    opening = passive_opening(air.exhaust_cfm, allowed_pa(derived.job))
    area = math.ceil(opening.area_sq_in - _NEVER_LESS)
    yield Remedy(
        f"let it in by a passive opening of {area} sq in free, a round hole of {opening.diameter_in:.1f} in{damper}",
        (Edit("air", None, "make_up", "passive"), Edit("air", None, "opening", f"{area} sq in"), *spring),
    )
    yield from _contact(derived)


def opening_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The free area that passes the whole airflow at the pressure it may cost the house; else a fan."""
    air = derived.house_air
    if air is None or air.opening is None:
        return
    area = math.ceil(air.opening.area_sq_in - _NEVER_LESS)
    yield Remedy(
        f"open {area} sq in free, a round hole of {air.opening.diameter_in:.1f} in",
        (Edit("air", None, "opening", f"{area} sq in"),),
    )
    if air.needed is not None:
        airflow = math.ceil(air.needed.airflow_cfm - _NEVER_LESS)
        yield Remedy(
            f"let in {airflow} cfm by a make-up fan instead",
            (
                Edit("air", None, "make_up", "powered"),
                Edit("air", None, "make_up_airflow", f"{airflow} cfm"),
                Edit("air", None, "opening", None),
            ),
        )


def _damper(derived: Derived) -> tuple[str, tuple[Edit, ...]]:
    """What the job doesn't say of the damper yet: the spring that suits the hood's contact, and that it is reached."""
    plan, wiring = derived.job.air, make_up_wiring(derived)
    words, edits = [], []
    if plan.spring is None and wiring is not None and wiring.contact is not None:
        spring = "closed" if wiring.contact == "closes with the exhaust" else "open"
        words.append(f"springs {spring}")
        edits.append(Edit("air", None, "spring", spring))
    if plan.damper_access is None:
        words.append("can be reached")
        edits.append(Edit("air", None, "damper_access", value=True))
    return (f", its damper one that {' and '.join(words)}" if words else "", tuple(edits))


def _contact(derived: Derived) -> Iterator[Remedy]:
    """Where the options bought have nothing that starts make-up air, name those that would."""
    if make_up_wiring(derived) is not None:
        return
    titles = [
        choice.title
        for group in derived.sheet.group
        for choice in group.choice
        if "make-up air" in choice.brings and choice.id not in derived.job.choices
    ]
    if titles:
        yield Remedy(
            f"the options bought have no contact that starts make-up air with the hood; buy {' or '.join(titles)}, "
            "and measure what it brings"
        )
