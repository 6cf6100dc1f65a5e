"""What differs between two plans is told both ways alike, and nothing else is told."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.comparison import Comparison, Kind, compare
from schedules.connections.options import combinations
from schedules.findings import Edit
from schedules.plan import Plan, plan_job
from schedules.planned import Planned, plan_file

SAMPLES = Path(__file__).parents[2] / "samples"


@cache
def galley() -> Planned:
    return plan_file(SAMPLES / "jobs" / "galley-gas.toml", remedies=False)


@cache
def every_combination() -> tuple[frozenset[str], ...]:
    return tuple(combinations(galley().sheet))


def planned_with(*edits: Edit) -> Plan:
    return plan_job(galley().sheet, galley().draft.edited(edits).job)


def with_choices(choices: frozenset[str]) -> Plan:
    return planned_with(Edit("", None, "choices", sorted(choices)))


def told(comparison: Comparison, kind: Kind) -> set[tuple[str, str]]:
    return {
        (subject, change.subject)
        for subject, changes in comparison.by_subject()
        for change in changes
        if change.kind is kind
    }


def test_a_plan_differs_in_nothing_from_itself() -> None:
    assert compare(galley().plan, galley().plan).same


@settings(max_examples=25)
@given(pair=st.tuples(st.integers(0, 10_000), st.integers(0, 10_000)))
def test_what_one_way_adds_the_other_way_removes(pair: tuple[int, int]) -> None:
    every = every_combination()
    a, b = (with_choices(every[number % len(every)]) for number in pair)
    there, back = compare(a, b), compare(b, a)
    assert told(there, Kind.ADDED) == told(back, Kind.REMOVED)
    assert told(there, Kind.REMOVED) == told(back, Kind.ADDED)
    assert told(there, Kind.ALTERED) == told(back, Kind.ALTERED)


@settings(max_examples=25)
@given(number=st.integers(0, 10_000))
def test_every_row_that_is_not_told_is_the_same(number: int) -> None:
    """Counted apart from the comparison: conductors by their numbers, terminals and colours."""
    every = every_combination()
    before, after = galley().plan, with_choices(every[number % len(every)])

    def conductors(plan: Plan) -> dict[str, tuple[str, str, str]]:
        items = plan.derived.connections.conductors.values()
        return {item.number: (str(item.a), str(item.b), item.colour) for item in items}

    was, now = conductors(before), conductors(after)
    comparison = compare(before, after)
    by_kind = {kind: {c.subject for c in comparison.conductors if c.kind is kind} for kind in Kind}
    assert by_kind[Kind.ADDED] == {f"wire {name}" for name in now.keys() - was.keys()}
    assert by_kind[Kind.REMOVED] == {f"wire {name}" for name in was.keys() - now.keys()}
    altered = {f"wire {name}" for name in was.keys() & now.keys() if was[name] != now[name]}
    assert altered <= by_kind[Kind.ALTERED]


def test_a_higher_ceiling_lengthens_each_overhead_cable_by_twice_as_much() -> None:
    """Up and down again: 12 in more of ceiling are 24 in more of cable."""
    after = planned_with(Edit("site", None, "ceiling", "9 ft"))
    overhead = {run.cable for run in galley().draft.job.run if run.route == "overhead"}
    comparison = compare(galley().plan, after)
    assert {change.subject for change in comparison.cables} == overhead
    before = {item.cable: item.required_in or 0.0 for item in galley().plan.derived.lengths}
    for length in after.derived.lengths:
        grown = (length.required_in or 0.0) - before[length.cable]
        assert abs(grown - (24.0 if length.cable in overhead else 0.0)) < 1e-6


def test_a_change_says_what_it_was_and_what_it_is() -> None:
    after = planned_with(Edit("site", None, "ceiling", "9 ft"))
    change = next(item for item in compare(galley().plan, after).cables if item.subject == "W1")
    needs = next(item for item in change.differences if item.what == "needs")
    assert str(needs) == f"needs {needs.now} (was {needs.was})"
    assert needs.was != needs.now


def test_a_route_taken_out_is_told_as_a_finding_and_as_an_altered_cable() -> None:
    after = planned_with(Edit("run", "W5", "route", "taped"))
    comparison = compare(galley().plan, after)
    added = [change for change in comparison.findings if change.kind is Kind.ADDED]
    assert [change.subject for change in added] == ["W5"]
    assert "fix" in str(added[0])
    assert "W5" in {change.subject for change in comparison.cables}


def test_interlocks_are_compared_where_that_is_asked() -> None:
    """A second handle is a second cause; without it being asked for, no state is solved."""
    after = planned_with(Edit("", None, "choices", [*galley().draft.job.choices, "pull-remote"]))
    assert compare(galley().plan, after).interlocks == ()
    changes = compare(galley().plan, after, interlocks=True).interlocks
    added = {change.subject for change in changes if change.kind is Kind.ADDED}
    assert added
    assert all("emote" in name for name in added)
    assert not [change for change in changes if change.kind is Kind.REMOVED]
    fewer = [name for name in galley().draft.job.choices if name not in {"range-shunt-trip", "trip-supply"}]
    changes = compare(
        galley().plan, planned_with(Edit("", None, "choices", fewer)), interlocks=True
    ).interlocks
    gone = [str(change) for change in changes if change.kind is Kind.REMOVED]
    assert gone[:2] == [
        f"{name}: can't happen any more" for name in ("Electric range heats", "Lamp shows the trip supply")
    ]
