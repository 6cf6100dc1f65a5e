"""Commissioning tests that failed, as what fault finding begins with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.commissioning import Verdict
from schedules.behaviour.diagnose import JOINED_BELOW_OHM
from schedules.behaviour.meter_words import OPEN, read_ohms, read_volts
from schedules.behaviour.probes import ProbeKind
from schedules.behaviour.readings import CLOSED_BELOW_OHM
from schedules.behaviour.states import at_rest, cases_of, cast_of, in_use
from schedules.quantities.numerals import UnitError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.commissioning import Commissioning, Test
    from schedules.behaviour.diagnose import Finder, Found
    from schedules.behaviour.readings import Reading
    from schedules.derived import Derived
    from schedules.job.records import Job

STRAY_SUPPLY = (
    "stop: find what feeds it and lock that, for a breaker may not open or not be the one it is taken for"
)
"""What a terminal says that is live with every breaker off; no reading in use may come before it is cleared."""

_BY_ITSELF = {
    "prove-dead": STRAY_SUPPLY,
    "continuity": "what lies between these two is itself at fault: a joint, a clamp, the conductor",
    "insulation": "lift cable by cable: the one that reads low is at fault",
    "contacts": "the contact is itself at fault, neither shut nor open",
    "loop": "the resistor is not of the value that the plan has, or a joint of its loop is bad",
    "polarity": "no fault that is tried makes it so: look at the supply and at the joints on the way",
    "loaded": "no fault that is tried makes it so: look at the supply and at the joints on the way",
}
"""What a failed test says where no fault that is tried here shows in it, by its step."""

_BY_EYE = "judged by eye: enter the state in which it was seen"


@dataclass(frozen=True, slots=True)
class FailedTest:
    """One failed commissioning test. found: as fault finding takes it; None where it says by itself what is wrong."""

    test: Test
    shown: str
    found: Found | None
    by_itself: str

    @property
    def stray_supply(self) -> bool:
        """Whether something was live with every breaker off."""
        return self.by_itself == STRAY_SUPPLY


def failed_tests(finder: Finder, derived: Derived, whole: Commissioning, job: Job) -> Iterator[FailedTest]:
    """Each commissioning test that failed and is not accepted, in the order of the record."""
    verdicts = whole.verdicts(job)
    for record in job.tested:
        test = whole.by_id.get(record.test)
        if test is None or verdicts[test.id] is not Verdict.FAILED:
            continue
        found = None if test.reading is None else _as_found(finder, derived, test.reading, record.found)
        by_itself = "" if found is not None else _BY_ITSELF.get(test.step, _BY_EYE)
        yield FailedTest(test, record.found, found, by_itself)


def _as_found(finder: Finder, derived: Derived, reading: Reading, text: str) -> Found | None:
    """What a probe takes of a reading; None where that is what the probe shows with nothing wrong, too."""
    try:
        found = _found(finder, derived, reading, text)
    except UnitError:
        return None
    if found is None or any(suspect.fault is None for suspect in finder.suspects([found])):
        return None
    return found


def _found(finder: Finder, derived: Derived, reading: Reading, text: str) -> Found | None:
    match reading.step:
        case "polarity" | "loaded":
            cases, cast = cases_of(derived), cast_of(derived)
            case = at_rest(cases, cast) if reading.step == "polarity" else in_use(cases, cast)
            probe = finder.probe_between(ProbeKind.VOLTS, case.id, reading.start, reading.end)
            return None if probe is None else finder.found(probe, read_volts(text))
        case "contacts":
            stays = _stays(reading, read_ohms(text))
            return _lifted(finder, f"contact {reading.element}", stays) if stays else None
        case "loop":
            return _lifted(finder, f"loop {reading.element}", read_ohms(text))
        case "continuity" if reading.element:
            cable = derived.connections.conductors[reading.element].cable
            # A conductor that rings through with too much resistance is bad, but not open.
            is_open = read_ohms(text) == OPEN
            return _lifted(finder, f"ring {cable}", f"{reading.element} open") if is_open else None
        case "continuity" if read_ohms(text) == OPEN or read_ohms(text) < JOINED_BELOW_OHM:
            probe = finder.probe_between(ProbeKind.OHMS, finder.dead_case, reading.start, reading.end)
            return None if probe is None else finder.found(probe, read_ohms(text))
    return None


def _stays(reading: Reading, ohms: float) -> str:
    """How a contact is stuck; empty for one that leaks where it should be open, or is bad where it should be shut."""
    if ohms < CLOSED_BELOW_OHM:
        return "stays shut"
    shut_expected = reading.high == CLOSED_BELOW_OHM
    return "stays open" if shut_expected and ohms == OPEN else ""


def _lifted(finder: Finder, name: str, value: str | float) -> Found | None:
    probe = finder.probe(name)
    return None if probe is None else finder.found(probe, value)
