"""What lets in enough air for the hood, as edits of the job that can be planned again."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.behaviour.make_up_wiring import make_up_wiring
from schedules.findings import Edit, Remedy
from schedules.make_up.house_air import allowed_pa
from schedules.make_up.house_pressure import depressurisation
from schedules.make_up.make_up_air import passive_opening
from schedules.practice import practice

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.job.mechanical import Air

_NEVER_LESS = 1e-9
"""A crumb of binary arithmetic asks for no further unit."""
_FAN_STEP_CFM = 10
"""A make-up fan is set by tens."""


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


def flue_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The least make-up airflow with which the hood can't pull a natural-draft appliance's gases back."""
    air, plan = derived.house_air, derived.job.air
    if air is None or plan.leakage is None:
        return
    safe_pa = min(practice("natural_draft_at_risk").numbers)
    airflow = next(
        step * _FAN_STEP_CFM
        for step in range(math.ceil(air.exhaust_cfm / _FAN_STEP_CFM) + 1)
        if _pulled_pa(air.exhaust_cfm - step * _FAN_STEP_CFM, plan) <= safe_pa
    )
    asked = 0.0 if air.needed is None else air.needed.airflow_cfm
    airflow = max(airflow, math.ceil(asked - _NEVER_LESS))
    damper, spring = _damper(derived)
    yield Remedy(
        f"let in {airflow} cfm by a make-up fan{damper}: then the house stays within {safe_pa:g} Pa",
        (
            Edit("air", None, "make_up", "powered"),
            Edit("air", None, "make_up_airflow", f"{airflow} cfm"),
            *spring,
        ),
    )
    yield from _contact(derived)


def _pulled_pa(net_cfm: float, plan: Air) -> float:
    """The worst that a net exhaust does to the house [Pa]; nothing where more is let in than taken out."""
    return depressurisation(max(0.0, net_cfm), plan.leakage or 0.0, exponent=plan.exponent).highest_pa


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
