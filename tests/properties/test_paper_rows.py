"""What is printed beside the plan's own tables: nothing forgotten, nothing twice, nothing made up."""

from __future__ import annotations

from collections import Counter

import pytest

from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.plan import Plan, plan_job
from schedules.planned import read_sheet_of
from schedules.rows.as_built import as_built
from schedules.rows.before_cover import before_cover
from schedules.rows.directory import directory
from schedules.rows.interlocks import interlocks
from schedules.rows.labels import labels
from schedules.rows.owner import owner
from schedules.rows.terminations import spares, terminations
from schedules.tables import load
from schedules.work.site_work import order_of
from tests.packages import JOBS, plan_of

EVERY = sorted(path.stem for path in JOBS.glob("*.toml"))


@pytest.fixture(scope="module", params=EVERY)
def plan(request: pytest.FixtureRequest) -> Plan:
    return plan_of(request.param)


def test_both_ends_of_every_conductor_spare_and_cable_have_a_label(plan: Plan) -> None:
    rows = labels(plan).rows
    wires = Counter((row.at, row.lines) for row in rows if row.kind == "wire end")
    assert wires == Counter((end.enclosure, (end.label,)) for end in terminations(plan).rows)
    spare = Counter(row.lines[0].split(" ")[0] for row in rows if row.kind == "spare end")
    assert spare == Counter({row.number: 2 for row in spares(plan).rows})
    cables = Counter((row.at, row.lines[0]) for row in rows if row.kind == "cable end")
    expected: Counter[tuple[str, str]] = Counter()
    for cable in plan.derived.selection.cables:
        a, b = cable.origin.enclosure, cable.target.enclosure
        expected[a, f"{cable.tag} to {b}"] += 1
        expected[b, f"{cable.tag} to {a}"] += 1
    assert cables == expected


def test_a_box_s_plate_names_every_circuit_that_enters_it(plan: Plan) -> None:
    plates = {row.at: row.lines[2] for row in labels(plan).rows if row.kind == "enclosure"}
    landings = plan.derived.connections.landings
    for conductor in plan.derived.connections.conductors.values():
        circuit = next(item.circuit for item in plan.derived.selection.cables if item.tag == conductor.cable)
        for point in (conductor.a, conductor.b):
            plate = plates.get(landings[point].enclosure)
            if circuit is not None and plate is not None:
                assert circuit in plate.partition(" and every other supply")[0]


def test_every_thing_to_be_covered_is_seen_exactly_once(plan: Plan) -> None:
    derived = plan.derived
    rows = before_cover(plan).rows
    things = Counter(row.thing for row in rows)
    for cable in derived.selection.cables:
        assert (
            sum(count for thing, count in things.items() if thing.startswith(f"{cable.tag} {cable.type},"))
            == 1
        )
    for raceway in derived.raceways:
        assert sum(count for thing, count in things.items() if thing.startswith(f"{raceway.raceway} ")) == 1
    for finding in plan.findings:
        said = f"{finding.severity.upper()} {finding.subject}: {finding.says}"
        assert things[said] == (1 if finding.severity.blocks else 0)
    steps = [slot.step for slot in order_of(derived.selection, derived.job).slots]
    assert {step.work for step in steps if step.before_cover} <= set(things)
    assert not {step.work for step in steps if not step.before_cover} & set(things)


def test_each_breaker_has_one_line_in_the_panel_s_door(plan: Plan) -> None:
    rows = directory(plan).rows
    assert [row.circuit for row in rows] == [item.circuit.tag for item in plan.derived.branches]
    assert all(row.text.strip() for row in rows)
    assert {row.feeds for row in rows} >= {""} or all(row.feeds for row in rows)


def test_the_owner_s_card_says_what_the_matrix_says(plan: Plan) -> None:
    """Held against the printed matrix: its rows of a release with nothing else lost, cell by cell."""
    matrix = interlocks(plan)
    fire = {signal.id for signal in plan.derived.sheet.signal if signal.fire}
    released = {
        state.id for state in plan.derived.sheet.state if fire & set(state.signals) and not state.circuits_off
    }
    rows = [row for row in matrix.rows if row.of_sheet and row.cause in released]
    names = {effect.id: effect.name for effect in plan.derived.sheet.effect}
    said = {row.what: row.says for row in owner(plan).rows if row.part.startswith("What the hood does")}
    words = {"on": "on", "off": "off", "watched": "off", "follows": "as you switch it"}
    words["unchanged"] = "as it was just before"
    for place, effect in enumerate(matrix.rows[0].effects if matrix.rows else ()):
        cells = {words.get(row.does[place], "depends") for row in rows}
        if cells:
            expected = cells.pop() if len(cells) == 1 else "depends"
            assert said[names[effect]].startswith(expected)
    assert bool(said) == bool(rows)


def test_the_owner_s_card_has_room_for_each_number_to_call(plan: Plan) -> None:
    blank = [row.what for row in owner(plan).rows if not row.says]
    assert blank == [row.text("what") for row in load("owner_card").rows if not row.text("says")]
    assert len(blank) == 4


def test_the_record_stands_beside_what_was_planned() -> None:
    draft = read_draft(JOBS / "galley-gas.toml")
    edits = (
        Edit("as_built", "W1", "length", "38 ft 6 in"),
        Edit("as_built", "W1", "landed", ["Q1:L", "X1:1L"]),
        Edit("as_built", "W1", "initials", "AB"),
        Edit("as_built", "W1", "date", "2026-03-20"),
    )
    plan = plan_job(read_sheet_of(draft), draft.edited(edits).job)
    rows = {row.cable: row for row in as_built(plan).rows}
    assert set(rows) == {cable.tag for cable in plan.derived.selection.cables}
    built = rows["W1"]
    assert (built.pulled_in, built.landed, built.initials, built.date) == (
        462.0,
        ("Q1:L", "X1:1L"),
        "AB",
        "2026-03-20",
    )
    assert built.ends == 6
    planned = next(item for item in plan.derived.lengths if item.cable == "W1")
    assert built.planned_in == planned.cut_in
    assert all(row.pulled_in is None and row.landed == () for tag, row in rows.items() if tag != "W1")
