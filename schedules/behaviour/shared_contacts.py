"""Which contacts does more than one effect hang on?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.behaviour.states import Level, cases_of, solve_cases
from schedules.network.switching import Change

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.derived import Derived
    from schedules.sheet.behaviour import Effect


def contacts_shared_by(derived: Derived, effect: Effect, others: Iterable[Effect]) -> Iterator[str]:
    """Contacts which, held open, stop both this effect and one of the others in some state without a release."""
    cases = cases_of(derived)
    whole = [item for item in solve_cases(derived, derived.network, cases) if not item.burning]
    partners = [other.id for other in others]
    for key, switch in derived.network.netlist.switches.items():
        if switch.breaker:
            continue
        held = solve_cases(derived, derived.network.changed(Change(stuck_open=(key,))), cases)
        broken = {item.case.id: item.levels for item in held}
        for item in whole:
            stopped = {
                name
                for name, level in item.levels.items()
                if level is Level.ON and broken[item.case.id].get(name) is not Level.ON
            }
            if effect.id in stopped and not stopped.isdisjoint(partners):
                yield key
                break
