"""Commissioning tests that failed, as what fault finding begins with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.behaviour.commissioning import Verdict
from schedules.behaviour.meter_words import OPEN, read_ohms, read_volts
from schedules.behaviour.probes import ProbeKind
from schedules.behaviour.readings import CLOSED_BELOW_OHM
from schedules.behaviour.states import at_rest, cases_of, cast_of, in_use
from schedules.quantities.numerals import UnitError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.commissioning import Commissioning
    from schedules.behaviour.diagnose import Finder, Found
    from schedules.behaviour.readings import Reading
    from schedules.derived import Derived
    from schedules.job.records import Job


def failed_as_found(finder: Finder, derived: Derived, whole: Commissioning, job: Job) -> Iterator[Found]:
    """Each failed reading that a probe of fault finding takes too.

    A reading with every breaker off that shows a voltage, and what eyes judge, has no such probe: it is left out.
    """
    verdicts = whole.verdicts(job)
    for record in job.tested:
        test = whole.by_id.get(record.test)
        if test is None or test.reading is None or verdicts[test.id] is not Verdict.FAILED:
            continue
        try:
            found = _found(finder, derived, test.reading, record.found)
        except UnitError:
            continue
        if found is not None:
            yield found


def _found(finder: Finder, derived: Derived, reading: Reading, text: str) -> Found | None:
    match reading.step:
        case "polarity" | "loaded":
            cases, cast = cases_of(derived), cast_of(derived)
            case = at_rest(cases, cast) if reading.step == "polarity" else in_use(cases, cast)
            probe = finder.probe_between(ProbeKind.VOLTS, case.id, reading.start, reading.end)
            return None if probe is None else finder.found(probe, read_volts(text))
        case "contacts":
            stays = "stays shut" if read_ohms(text) < CLOSED_BELOW_OHM else "stays open"
            return _lifted(finder, f"contact {reading.element}", stays)
        case "loop":
            return _lifted(finder, f"loop {reading.element}", read_ohms(text))
        case "continuity" if reading.element:
            cable = derived.connections.conductors[reading.element].cable
            # A conductor that rings through with too much resistance is bad, but not open.
            return (
                _lifted(finder, f"ring {cable}", f"{reading.element} open")
                if read_ohms(text) == OPEN
                else None
            )
    return None


def _lifted(finder: Finder, name: str, value: str | float) -> Found | None:
    probe = finder.probe(name)
    return None if probe is None else finder.found(probe, value)
