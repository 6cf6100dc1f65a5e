"""The commissioning tests in their order, what is recorded of each, and what has to come before it.

Order and holds are common practice: dead proved first, every dead test before anything is switched on, each live step
only after the one before it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

from schedules.behaviour.diagnose import DEAD_CAUTIONS, LIVE_CAUTIONS
from schedules.behaviour.meter_words import OPEN, read_ohms, read_volts
from schedules.behaviour.readings import NOTHING_V, Function, expected_readings
from schedules.job.landing import landed
from schedules.quantities.numerals import UnitError
from schedules.tables import load
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.behaviour.readings import Reading
    from schedules.derived import Derived
    from schedules.job.records import Job
    from schedules.job.testing import Tested
    from schedules.tables import Row
    from schedules.working import Source

_BY_METER = ("prove-dead", "continuity", "polarity", "contacts", "loop", "loaded")
"""Steps whose tests come from the solved network; without a reading there is nothing of the kind here."""

_PROVE_DEAD = "prove-dead"
_NAMED = 2
"""So many of what is lacking are named; the rest are counted."""


class Verdict(StrEnum):
    """What a recorded test comes to."""

    PASSED = "pass"
    FAILED = "FAIL"
    ACCEPTED = "accepted"
    OUTDATED = "take again"

    @property
    def good(self) -> bool:
        """Whether what comes after it may be done."""
        return self in (Verdict.PASSED, Verdict.ACCEPTED)


@dataclass(frozen=True, slots=True)
class Test:
    """One commissioning test: a reading with a meter, or a step that eyes judge.

    id: unique within an installation. title: of its step. how: what to do. passes: in words what passes.
    dead: taken with everything switched off.
    """

    id: str
    step: str
    order: int
    title: str
    state: str
    how: str
    passes: str
    dead: bool
    note: str
    source: Source
    reading: Reading | None = None

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind before it is taken."""
        if self.step == _PROVE_DEAD:
            still = (self.reading.note.capitalize() + ".",) if self.reading and self.reading.note else ()
            return ("Treat as live until proved dead: meter proved before and after.", *still)
        return DEAD_CAUTIONS if self.dead else LIVE_CAUTIONS

    def read(self, text: str) -> str:
        """What a person found, as the job writes it. Raises UnitError, which says what may stand there."""
        words = " ".join(text.split())
        if self.reading is None:
            _yes_or_no(words)
            return words.lower()
        value = _value(self.reading.function, words)
        if value == OPEN:
            return "OL"
        return words if not words.replace(".", "", 1).isdigit() else f"{words} {self.unit}"

    @property
    def unit(self) -> str:
        """The unit of what is found; empty where eyes judge."""
        if self.reading is None:
            return ""
        return "ohm" if self.reading.function is Function.OHMS else "V"

    def passed(self, found: str) -> bool:
        """Whether what was found lies in the band. Raises UnitError for what can't be read."""
        if self.reading is None:
            return _yes_or_no(found)
        value = _value(self.reading.function, found)
        if self.reading.low is None or self.reading.high is None:
            return value == OPEN
        if not self.reading.high:
            return value < NOTHING_V
        # Held against the band as it is printed, so that a person with the paper comes to the same.
        low, high = (
            _as_printed(bound, self.reading.function) for bound in (self.reading.low, self.reading.high)
        )
        return low <= value <= high


def _yes_or_no(text: str) -> bool:
    if text.lower() not in ("yes", "no"):
        raise UnitError(printable(text) or "nothing", "yes or no: is it as it should be?")
    return text.lower() == "yes"


def _value(function: Function, text: str) -> float:
    return read_ohms(text) if function is Function.OHMS else read_volts(text)


def verdict(test: Test, record: Tested) -> Verdict:
    """Hold what was found against what is expected now."""
    if record.expected != test.passes:
        return Verdict.OUTDATED
    try:
        passed = test.passed(record.found)
    except UnitError:
        passed = False
    if passed:
        return Verdict.PASSED
    return Verdict.ACCEPTED if record.reason else Verdict.FAILED


@dataclass(frozen=True)
class Commissioning:
    """All tests of one installation, and every conductor end that a hand lands: cable, and terminal."""

    tests: tuple[Test, ...]
    ends: tuple[tuple[str, str], ...]

    @cached_property
    def by_id(self) -> dict[str, Test]:
        """The tests by their ids."""
        return {test.id: test for test in self.tests}

    def verdicts(self, job: Job) -> dict[str, Verdict]:
        """What each test comes to that the job records."""
        return {
            record.test: verdict(self.by_id[record.test], record)
            for record in job.tested
            if record.test in self.by_id
        }

    def cautions(self, test: Test) -> tuple[str, ...]:
        """What to mind before a test is taken: ohms are not for a terminal that another supply keeps live."""
        if test.reading is None or test.reading.function is not Function.OHMS:
            return test.cautions
        kept = [
            item.reading.note
            for item in self.tests
            if item.step == _PROVE_DEAD
            and item.reading is not None
            and item.reading.note
            and item.reading.start in (test.reading.start, test.reading.end)
        ]
        return (*test.cautions, *(f"Isolate that supply too; it {note}." for note in dict.fromkeys(kept)))

    def held_by(self, test: Test, job: Job) -> str:
        """Why a test can't be taken yet, in words; empty where it can."""
        verdicts = self.verdicts(job)
        lacking = [
            other
            for other in self.tests
            if _comes_before(other, test) and not (other.id in verdicts and verdicts[other.id].good)
        ]
        if lacking:
            kind = "dead tests" if lacking[0].dead else "tests"
            return f"first the {kind} before it: {_some(item.id for item in lacking)}"
        if test.dead:
            return ""
        done = landed(job)
        loose = [f"{cable} at {terminal}" for cable, terminal in self.ends if (cable, terminal) not in done]
        return f"first land these ends and mark them as landed: {_some(loose)}" if loose else ""


def _comes_before(other: Test, test: Test) -> bool:
    """Whether one test has to be good before another is taken."""
    if other is test or test.step == _PROVE_DEAD:
        return False
    if not test.dead:
        return other.dead or other.order < test.order
    if other.step != _PROVE_DEAD:
        return False
    if test.reading is None:
        return True
    return other.reading is not None and other.reading.start in (test.reading.start, test.reading.end)


def _some(names: Iterable[str]) -> str:
    names = tuple(names)
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return ", ".join(names[:_NAMED]) + more


def commissioning(derived: Derived) -> Commissioning:
    """Every test of an installation, in order."""
    conductors = derived.connections.conductors.values()
    ends = tuple((item.cable, str(point)) for item in conductors for point in (item.a, item.b))
    return Commissioning(tuple(_tests(derived)), tuple(dict.fromkeys(ends)))


def _tests(derived: Derived) -> Iterator[Test]:
    by_step: dict[str, list[Reading]] = {}
    for reading in expected_readings(derived):
        by_step.setdefault(reading.step, []).append(reading)
    for row in load("commissioning_tests").rows:
        step = row.text("step")
        if step in by_step:
            yield from (_test(row, reading) for reading in by_step[step])
        elif step not in _BY_METER:
            yield _test(row, None)


def _test(row: Row, reading: Reading | None) -> Test:
    state = row.text("state") if reading is None else reading.state
    return Test(
        id=row.text("step") if reading is None else reading.id,
        step=row.text("step"),
        order=row.count("order"),
        title=row.text("test"),
        state=state,
        how=row.text("how"),
        passes=row.text("pass") if reading is None else passing_words(reading),
        dead=row.text("state").startswith(("dead", "breakers off")),
        note=row.text("note") if reading is None else reading.note,
        source=load("commissioning_tests").source(row),
        reading=reading,
    )


def passing_words(reading: Reading) -> str:
    """What passes, in words."""
    if reading.low is None or reading.high is None:
        return "over limit"
    if not reading.high:
        return value_words(0.0, reading.function)
    if not reading.low:
        return f"under {value_words(reading.high, reading.function)}"
    low = value_words(reading.low, reading.function).split()[0]
    return f"{low} to {value_words(reading.high, reading.function)}"


def value_words(value: float | None, function: Function) -> str:
    """A value as the meter would show it."""
    if value is None:
        return "over limit"
    return f"{value:.{_digits(value, function)}f} {function}"


def _digits(value: float, function: Function) -> int:
    if value >= 100:
        return 0
    return 2 if function is Function.OHMS else 1


def _as_printed(value: float, function: Function) -> float:
    return round(value, _digits(value, function))
