"""Published critical-path and three-estimate examples, and the kitchen's own order of work."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar, Event

from schedules.tables import load
from schedules.work.order_of_work import (
    OrderOfWork,
    Step,
    change,
    day_of,
    plan_work,
    usual_steps,
    with_durations,
)
from schedules.work.working_days import first_working_day, working_day_after
from schedules.writers.calendar_file import calendar_bytes

EVERYTHING = frozenset({"gas", "make-up air", "inline fan", "alarm", "pull station"})


def step(name: str, needs: str, low: float, likely: float | None = None, high: float | None = None) -> Step:
    middle = low if likely is None else likely
    return Step(name, "trade", name, tuple(needs), low, middle, middle if high is None else high)


def times(order: OrderOfWork) -> dict[str, tuple[float, ...]]:
    return {
        slot.step.id: tuple(
            round(value, 2)
            for value in (slot.early_start, slot.early_finish, slot.late_start, slot.late_finish)
        )
        for slot in order.slots
    }


def test_university_handout_network_of_seven_activities() -> None:
    """studylib.net 8378728, example 1, table 2: 16 hours over A B D E G, C and F with a slack of one."""
    found = plan_work(
        (
            step("A", "", 6),
            step("B", "A", 2),
            step("C", "A", 2),
            step("D", "B", 3),
            step("F", "C", 2),
            step("E", "DF", 4),
            step("G", "E", 1),
        )
    )
    assert found.likely_days == 16
    assert found.critical_path == ("A", "B", "D", "E", "G")
    assert times(found) == {
        "A": (0, 6, 0, 6),
        "B": (6, 8, 6, 8),
        "D": (8, 11, 8, 11),
        "E": (11, 15, 11, 15),
        "G": (15, 16, 15, 16),
        "C": (6, 8, 7, 9),
        "F": (8, 10, 9, 11),
    }
    assert {slot.step.id: slot.slack_days for slot in found.slots if not slot.critical} == {"C": 1, "F": 1}


def test_lecture_slides_network_of_eight_activities() -> None:
    """slideplayer.com 3283910: E starts 9 or 10, ends 14 or 15; D starts 4, or 7 at the latest."""
    found = plan_work(
        (
            step("A", "", 4),
            step("B", "A", 3),
            step("C", "A", 5),
            step("D", "A", 2),
            step("E", "BC", 5),
            step("F", "CD", 6),
            step("G", "EF", 4),
            step("H", "G", 3),
        )
    )
    printed = times(found)
    assert printed["E"] == (9, 14, 10, 15)
    assert printed["D"][0::2] == (4, 7)
    assert found.critical_path == ("A", "C", "F", "G", "H")


def test_textbook_three_estimates_fourteen_activities() -> None:
    """A widely set operations textbook problem, its printed table to two decimals, activities A to F."""
    estimates = {
        "A": ("", 5, 5, 7),
        "B": ("", 1, 2, 5),
        "C": ("A", 5, 5, 5),
        "D": ("A", 4, 8, 13),
        "E": ("BC", 1, 10, 17),
        "F": ("D", 1, 5, 7),
        "G": ("D", 2, 6, 9),
        "H": ("EF", 4, 4, 6),
        "I": ("GH", 2, 7, 10),
        "J": ("I", 2, 4, 7),
        "K": ("I", 6, 10, 13),
        "L": ("J", 2, 6, 6),
        "M": ("K", 2, 2, 3),
        "N": ("LM", 7, 7, 12),
    }
    steps = tuple(step(name, needs, *days) for name, (needs, *days) in estimates.items())
    means = {each.id: each.expected_days for each in steps}
    printed_means = [5.33, 2.33, 5.00, 8.17, 9.67, 4.67, 5.83, 4.33, 6.67, 4.17, 9.83, 5.33, 2.17, 7.83]
    assert [round(mean, 2) for mean in means.values()] == printed_means
    found = plan_work(steps, means)
    printed = {
        "A": (0.00, 5.33, 0.00, 5.33),
        "B": (0.00, 2.33, 8.00, 10.33),
        "C": (5.33, 10.33, 5.33, 10.33),
        "D": (5.33, 13.50, 7.17, 15.33),
        "E": (10.33, 20.00, 10.33, 20.00),
        "F": (13.50, 18.17, 15.33, 20.00),
    }
    assert {name: row for name, row in times(found).items() if name in printed} == printed
    assert found.critical_path == ("A", "C", "E", "H", "I", "K", "M", "N")


def test_lecture_notes_three_estimates_ten_activities() -> None:
    """A lecture's problem 1: expected 17 weeks over C F H J."""
    estimates = {
        "A": ("", 5, 6, 7),
        "B": ("", 1, 3, 5),
        "C": ("", 1, 4, 7),
        "D": ("A", 1, 2, 3),
        "E": ("B", 1, 2, 9),
        "F": ("C", 1, 5, 9),
        "G": ("C", 2, 2, 8),
        "H": ("EF", 4, 4, 10),
        "I": ("D", 2, 5, 8),
        "J": ("HG", 2, 2, 8),
    }
    steps = tuple(step(name, needs, *days) for name, (needs, *days) in estimates.items())
    found = plan_work(steps, {each.id: each.expected_days for each in steps})
    assert found.likely_days == pytest.approx(17)
    assert found.critical_path == ("C", "F", "H", "J")


@pytest.mark.parametrize(
    ("steps", "says"),
    [
        ((step("A", "B", 1), step("B", "A", 1)), "wait for each other: [AB], [AB]"),
        ((step("A", "Z", 1),), "A needs Z, which isn't there"),
        ((step("A", "", 1), step("A", "", 1)), "two steps are called A"),
    ],
)
def test_work_that_can_not_be_ordered_is_refused(steps: tuple[Step, ...], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        plan_work(steps)


@st.composite
def networks(draw: st.DrawFn) -> tuple[Step, ...]:
    count = draw(st.integers(1, 8))
    steps = []
    for place in range(count):
        needs = draw(st.lists(st.integers(0, place - 1), unique=True)) if place else []
        low, likely, high = sorted(draw(st.tuples(*(st.floats(0, 9),) * 3)))
        steps.append(Step(f"s{place}", "t", "w", tuple(f"s{need}" for need in needs), low, likely, high))
    return tuple(steps)


def longest(steps: tuple[Step, ...]) -> float:
    """The longest chain, found by walking every chain."""
    by_id = {each.id: each for each in steps}

    def until(name: str) -> float:
        chain = [until(need) for need in by_id[name].needs]
        return by_id[name].likely_days + max(chain, default=0.0)

    return max(until(name) for name in by_id)


@given(networks())
def test_the_whole_is_the_longest_chain_and_nothing_starts_before_its_needs(steps: tuple[Step, ...]) -> None:
    found = plan_work(steps)
    assert found.likely_days == pytest.approx(longest(steps))
    assert found.low_days <= found.likely_days <= found.high_days
    assert found.critical_path
    ends = {slot.step.id: slot.early_finish for slot in found.slots}
    for slot in found.slots:
        assert all(ends[need] <= slot.early_start for need in slot.step.needs)
        assert slot.slack_days >= -1e-9
        assert slot.late_finish <= found.likely_days + 1e-9


@given(st.frozensets(st.sampled_from(sorted(EVERYTHING))), st.sampled_from(sorted(EVERYTHING)))
def test_an_option_never_shortens_the_work(brought: frozenset[str], option: str) -> None:
    before, after = plan_work(usual_steps(brought)), plan_work(usual_steps(brought | {option}))
    found = change(before, after)
    assert min(found.low_days, found.likely_days, found.high_days) >= 0
    assert not found.removed
    assert bool(found.added) is (option not in brought)


@given(st.frozensets(st.sampled_from(sorted(EVERYTHING))))
def test_what_has_to_be_done_before_cover_is(brought: frozenset[str]) -> None:
    order = plan_work(usual_steps(brought))
    slots = {slot.step.id: slot for slot in order.slots}
    cover = slots["drywall"].early_start
    hidden = [slot for slot in order.slots if slot.step.before_cover]
    assert all(slot.early_finish <= cover for slot in hidden)
    assert all(slot.late_finish <= slots["drywall"].late_start + 1e-9 for slot in hidden)
    # Rough work is seen before it is covered, the hood hangs after, arming is last before the trial.
    assert slots["inspect-rough"].early_start >= slots["electrical-rough"].early_finish
    assert slots["hood"].early_start >= slots["cabinets"].early_finish
    assert slots["arm"].early_start >= slots["electrical-trim"].early_finish


def test_the_table_of_steps_names_only_what_it_has() -> None:
    rows = load("order_of_work").rows
    names = {row.text("step") for row in rows}
    assert all(names.issuperset(row.words("needs")) for row in rows)
    assert {row.text("brought_by") for row in rows} - {""} == EVERYTHING
    assert all(row.number("low_days") <= row.number("likely_days") <= row.number("high_days") for row in rows)


def test_gas_brings_a_trade_that_others_wait_for() -> None:
    plain, gas = plan_work(usual_steps(frozenset())), plan_work(usual_steps(frozenset({"gas"})))
    assert change(plain, gas).added == ("gas-rough", "gas-trim")
    assert ("electrical", "gas") in gas.waits()
    assert ("electrical", "gas") not in plain.waits()
    slower = with_durations(usual_steps(frozenset({"gas"})), {"gas-rough": (1, 4, 6)})
    assert "gas-rough" in plan_work(slower).critical_path
    with pytest.raises(LookupError, match="no step 'roof'"):
        with_durations(slower, {"roof": (1, 1, 1)})
    with pytest.raises(ValueError, match="hood: 0 ≤ low"):
        with_durations(slower, {"hood": (2, 1, 3)})


def test_days_skip_the_weekend() -> None:
    friday = date(2026, 3, 6)
    assert day_of(friday, 0.75) == friday
    assert day_of(friday, 1) == date(2026, 3, 9)
    assert day_of(date(2026, 3, 7), 0) == date(2026, 3, 9)
    assert working_day_after(friday, 5) == date(2026, 3, 13)
    assert first_working_day(date(2026, 3, 8)) == date(2026, 3, 9)
    with pytest.raises(ValueError, match="0 or more"):
        working_day_after(friday, -1)


def test_a_moved_start_moves_the_calendars_entries_and_another_kitchen_has_its_own() -> None:
    order = plan_work(usual_steps(EVERYTHING))

    def identities(start: date, title: str) -> set[str]:
        return {str(event["uid"]) for event in Calendar.from_ical(calendar_bytes(order, start, title)).events}

    first = identities(date(2026, 3, 6), "North kitchen")
    assert first == identities(date(2026, 3, 9), "North kitchen")
    assert not first & identities(date(2026, 3, 6), "South kitchen")


def test_the_calendar_reads_back() -> None:
    order = plan_work(usual_steps(EVERYTHING))
    start = date(2026, 3, 6)
    title = "Kitchen, north; \x1b[31mwing\r\nBEGIN:VEVENT"
    written = calendar_bytes(order, start, title)
    assert written == calendar_bytes(order, start, title)
    assert b"\x1b" not in written
    events = [each for each in Calendar.from_ical(written).walk("VEVENT") if isinstance(each, Event)]
    assert len(events) == len(order.slots)
    assert len({str(event["uid"]) for event in events}) == len(events)
    for event, slot in zip(events, order.slots, strict=True):
        assert event.start == day_of(start, slot.early_start)
        assert event.start < event.end
        assert (event.end - event.start).days >= slot.early_finish - slot.early_start
        assert str(event["summary"]) == f"{slot.step.trade}: {slot.step.work}"
    permits = events[0]
    # Ten working days from Friday the 6th end on Thursday the 19th; the end of an all-day entry is the day after.
    assert (permits.start, permits.end) == (start, date(2026, 3, 20))
