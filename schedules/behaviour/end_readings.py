"""What the meter shows at each landed end, so that whoever has just tightened it can tell that it is right."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.leads import Leads, in_reach
from schedules.behaviour.readings import CLOSED_BELOW_OHM, NEUTRAL_RISE_V
from schedules.behaviour.states import at_rest, cases_of, cast_of, in_use, solve_cases
from schedules.connections.points import Point
from schedules.network.meter import Meter
from schedules.sheet.breakers import MAINS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.behaviour.states import Case
    from schedules.connections.points import Landing
    from schedules.derived import Derived
    from schedules.network.meter import Volts

_SHOWN_FROM_V = 0.05
"""Below this a meter on a volt range shows nothing."""


_ALONE = "nothing beside it to read against"


class When(StrEnum):
    """In which state: every breaker off; armed and nothing in use; the most in use before anything happens."""

    DEAD = "dead"
    IDLE = "idle"
    IN_USE = "in use"


@dataclass(frozen=True, slots=True)
class EndReading:
    """What is read from an end to a reference. volts [V], or below_ohm [ohm] where it is read dead."""

    when: When
    reference: Point
    volts: Volts | None
    below_v: float | None
    below_ohm: float | None


def end_readings(derived: Derived) -> Mapping[Point, EndReading | str]:
    """For each point that conductors land on the reading there, or in words why there is none."""
    taking = _Taking(derived)
    found = {
        point: taking.at(point, landing)
        for point, landing in derived.connections.landings.items()
        if derived.connections.landed(point)
    }
    references = {item.reference for item in found.values() if isinstance(item, EndReading)}
    return {
        point: "others are read to it" if item == _ALONE and point in references else item
        for point, item in found.items()
    }


class _Taking:
    def __init__(self, derived: Derived) -> None:
        cast = cast_of(derived)
        cases = cases_of(derived, cast)
        off = next(case for case in cases if _all_off(derived, case))
        states = {When.DEAD: off, When.IDLE: at_rest(cases, cast), When.IN_USE: in_use(cases, cast)}
        solved = {item.case.id: item for item in solve_cases(derived, derived.network, cases)}
        self._meters = {when: Meter(solved[case.id].situation) for when, case in states.items()}
        self._leads = Leads(derived)
        self._nets = derived.network.netlist.nets

    def at(self, point: Point, landing: Landing) -> EndReading | str:
        """The reading at one end."""
        if not in_reach(landing):
            return "inside a plug"
        if landing.carries == "ground":
            return self._ground(point)
        reference = next(self._leads.references(point), None) or self._leads.far_return(point)
        if reference is None:
            return _ALONE
        if landing.carries == "neutral":
            volts = self._meters[When.IN_USE].open_volts(point, reference)
            below = NEUTRAL_RISE_V if max(volts.ac, abs(volts.dc)) < NEUTRAL_RISE_V else None
            return EndReading(When.IN_USE, reference, volts, below, None)
        for when in (When.IDLE, When.IN_USE):
            volts = self._meters[when].open_volts(point, reference)
            if max(volts.ac, abs(volts.dc)) >= _SHOWN_FROM_V:
                return EndReading(when, reference, volts, None, None)
        return EndReading(When.IN_USE, reference, volts, None, None)

    def _ground(self, point: Point) -> EndReading | str:
        """To the panel's grounding bar, with every breaker off."""
        bar = Point(MAINS, "PE")
        if self._nets[point] == self._nets[bar]:
            return "the bar itself"
        ohms = self._meters[When.DEAD].ohms(point, bar)
        if ohms is None or ohms >= CLOSED_BELOW_OHM:
            return "no way to the grounding bar"
        return EndReading(When.DEAD, bar, None, None, CLOSED_BELOW_OHM)


def _all_off(derived: Derived, case: Case) -> bool:
    return case.circuits_off >= {circuit.tag for circuit in derived.selection.circuits}
