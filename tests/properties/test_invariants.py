"""What must always hold of a plan, over every valid set of choices of every sample family and random kitchens."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.connections.graph import connect
from schedules.connections.options import combinations, select
from schedules.findings import Severity
from schedules.job.records import Job
from schedules.plan import plan_job
from schedules.quantities.lengths import format_length
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet
    from schedules.sheet.wiring import Core

SHEETS = {path.stem: read_sheet(path) for path in sorted(Path("samples/sheets").glob("*.toml"))}
COMBINATIONS = {name: sorted(map(sorted, combinations(sheet))) for name, sheet in SHEETS.items()}
AXES = ("along", "out", "up")
Spot = tuple[float, float, float]
WIRING = {
    "conductor-without-end",
    "potentials-joined",
    "terminal-size",
    "terminal-full",
    "terminal-empty",
    "terminal-reserved",
    "potential-parted",
    "load-incomplete",
    "enclosure-ungrounded",
    "neutral-shared",
    "neutral-borrowed",
    "controls-cut-by-fire",
    "class-mixed-at-terminal",
    "class-mixed-in-raceway",
    "class-mixed-in-enclosure",
    "class-mixed-by-opening",
    "colour-misleads",
}


def job_for(choices: list[str], spots: list[Spot] | None = None, sheet: Sheet | None = None) -> Job:
    data = {
        "format": 1,
        "job": {
            "name": "random kitchen",
            "sheet": "none",
            "revision": "1",
            "date": "2026-01-01",
            "code": 2023,
        },
        "choices": tuple(choices),
        "site": {"tolerance": "1/4 in"},
    }
    if sheet is not None and spots is not None:
        data["run"] = tuple({"cable": cable.tag, "route": "direct"} for cable in sheet.cable)
        data["place"] = tuple(
            {"enclosure": item.tag}
            | {axis: format_length(value) for axis, value in zip(AXES, spot, strict=True)}
            for item, spot in zip(sheet.enclosure, spots, strict=True)
        )
    return Job.model_validate(data)


def wiring_findings(plan: Plan) -> list[str]:
    return [f"{item.code} {item.subject}: {item.says}" for item in plan.findings if item.code in WIRING]


def codes(plan: Plan) -> set[tuple[str, str]]:
    return {(item.code, item.subject) for item in plan.findings}


@st.composite
def chosen(draw: st.DrawFn) -> tuple[Sheet, list[str]]:
    name = draw(st.sampled_from(sorted(SHEETS)))
    return SHEETS[name], draw(st.sampled_from(COMBINATIONS[name]))


coordinate = st.integers(-2 * 16, 40 * 12 * 16).map(lambda sixteenths: sixteenths / 16)


@given(pick=chosen(), data=st.data())
def test_every_combination_in_any_kitchen_is_wired_right(
    pick: tuple[Sheet, list[str]], data: st.DataObject
) -> None:
    sheet, choices = pick
    spots = [data.draw(st.tuples(coordinate, coordinate, coordinate)) for _ in sheet.enclosure]
    plan = plan_job(sheet, job_for(choices, spots, sheet))
    assert wiring_findings(plan) == []
    assert not [item for item in plan.findings if item.code.startswith("choice")]


def with_core(sheet: Sheet, cable: int, place: int, core: Core) -> Sheet:
    changed = sheet.cable[cable]
    cores = tuple(core if n == place else item for n, item in enumerate(changed.core))
    cables = tuple(
        changed.model_copy(update={"core": cores}) if n == cable else item
        for n, item in enumerate(sheet.cable)
    )
    return sheet.model_copy(update={"cable": cables})


def live_cores(sheet: Sheet, choices: list[str]) -> list[tuple[int, int]]:
    facts = frozenset(choices)
    return [
        (n, i)
        for n, cable in enumerate(sheet.cable)
        if cable.when.holds(facts)
        for i, core in enumerate(cable.core)
        if core.origin is not None and core.when.holds(facts)
    ]


@given(pick=chosen(), data=st.data())
def test_a_removed_conductor_is_found(pick: tuple[Sheet, list[str]], data: st.DataObject) -> None:
    sheet, choices = pick
    n, i = data.draw(st.sampled_from(live_cores(sheet, choices)))
    core = sheet.cable[n].core[i].model_copy(update={"origin": None, "target": None})
    plan = plan_job(with_core(sheet, n, i, core), job_for(choices))
    assert wiring_findings(plan)
    assert any(item.severity is Severity.STOP for item in plan.findings)


@given(pick=chosen(), data=st.data())
def test_two_swapped_ends_are_found(pick: tuple[Sheet, list[str]], data: st.DataObject) -> None:
    """Ends of one potential may change places: that is the same connection."""
    sheet, choices = pick
    cores = live_cores(sheet, choices)
    (n, i), (m, j) = data.draw(st.lists(st.sampled_from(cores), min_size=2, max_size=2, unique=True))
    one, two = sheet.cable[n].core[i], sheet.cable[m].core[j]
    whole = connect(select(sheet, frozenset(choices)), {})
    landings = {str(point): landing for point, landing in whole.landings.items()}
    if landings[str(one.target)].potential == landings[str(two.target)].potential:
        return
    swapped = with_core(sheet, n, i, one.model_copy(update={"target": two.target}))
    swapped = with_core(swapped, m, j, swapped.cable[m].core[j].model_copy(update={"target": one.target}))
    assert wiring_findings(plan_job(swapped, job_for(choices)))


@given(pick=chosen(), data=st.data())
def test_a_conductor_too_many_is_found(pick: tuple[Sheet, list[str]], data: st.DataObject) -> None:
    """One more core that lands where another already does overfills its terminal, or the terminal is made for it."""
    sheet, choices = pick
    n, i = data.draw(st.sampled_from(live_cores(sheet, choices)))
    cable = sheet.cable[n]
    more = cable.core[i].model_copy(update={"id": "x9"})
    grown = cable.model_copy(update={"core": (*cable.core, more)})
    cables = tuple(grown if place == n else item for place, item in enumerate(sheet.cable))
    plan = plan_job(sheet.model_copy(update={"cable": cables}), job_for(choices))
    full = {subject for code, subject in codes(plan) if code == "terminal-full"}
    landings = plan.derived.connections.landings
    for end in (more.origin, more.target):
        landing = next(item for point, item in landings.items() if str(point) == end)
        holds = landing.clamp.holds if landing.clamp is not None else 1
        if len(plan.derived.connections.landed(landing.point)) > holds:
            assert str(landing.point) in full
    assert full


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_an_option_never_renumbers_what_stood_before(name: str) -> None:
    sheet = SHEETS[name]
    seen: dict[str, tuple[str, str]] = {}
    for choices in COMBINATIONS[name][:: max(1, len(COMBINATIONS[name]) // 40)]:
        for conductor in plan_job(sheet, job_for(choices)).derived.connections.conductors.values():
            identity = (conductor.cable, conductor.core)
            assert seen.setdefault(conductor.number, identity) == identity


@settings(max_examples=50)
@given(pick=chosen())
def test_same_input_gives_the_same_plan(pick: tuple[Sheet, list[str]]) -> None:
    sheet, choices = pick
    one, two = plan_job(sheet, job_for(choices)), plan_job(sheet, job_for(choices))
    assert one.findings == two.findings
    assert one.derived.lengths == two.derived.lengths
