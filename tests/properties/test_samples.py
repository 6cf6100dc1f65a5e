"""The invented sheets and jobs: whatever is chosen, they join up, and between them they use every option."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.checks.behaviour import check_behaviour
from schedules.connections.graph import connect
from schedules.connections.options import combinations, conflicts, select
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import plan_file, read_sheet_of
from schedules.remedies import with_remedies
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.sheet.hardware import Device, Element
    from schedules.sheet.sheet import Sheet

SAMPLES = Path(__file__).parents[2] / "samples"
SHEETS = ("fescue", "marram")
JOBS = tuple(sorted(path.stem for path in (SAMPLES / "jobs").glob("*.toml")))
TRAINING_ROOM = "training-room"
MUST_FAIL = ("must-fail", "must-fail-air", "must-fail-bracket", "must-fail-circuits")

# Measured by counting.
COMBINATIONS = {"fescue": 180, "marram": 512}

both_sheets = pytest.mark.parametrize("name", SHEETS)


@cache
def sheet(name: str) -> Sheet:
    return read_sheet(SAMPLES / "sheets" / f"{name}.toml")


@cache
def built(name: str) -> tuple[tuple[Selection, Connections], ...]:
    """Every valid combination of a sheet, with its graph."""
    selections = [select(sheet(name), choices) for choices in combinations(sheet(name))]
    return tuple((selection, connect(selection, {})) for selection in selections)


def elements(name: str) -> Iterator[Element]:
    return (element for device in sheet(name).device for element in device.element)


@both_sheets
def test_the_number_of_combinations_is_as_counted(name: str) -> None:
    assert len(built(name)) == COMBINATIONS[name]


@both_sheets
def test_no_combination_refuses_a_conductor(name: str) -> None:
    refused = {refusal for _, connections in built(name) for refusal in connections.refusals}
    assert refused == set()


@both_sheets
def test_what_stands_in_an_enclosure_comes_with_it(name: str) -> None:
    for selection, _ in built(name):
        present = {enclosure.tag for enclosure in selection.enclosures}
        ends = {end.enclosure for cable in selection.cables for end in (cable.origin, cable.target)}
        used = {device.enclosure for device in selection.devices} | ends
        # The panel's devices are made from the circuits, so it is in use by its cables alone.
        assert used == present, sorted(selection.choices)


@both_sheets
def test_every_conductor_wire_and_link_joins_equal_potentials(name: str) -> None:
    for _, connections in built(name):
        landings = connections.landings
        for conductor in connections.conductors.values():
            assert landings[conductor.a].potential == landings[conductor.b].potential, conductor
        for inside in connections.inside.values():
            # The panel's bars join every circuit's neutral and ground: they are one potential by another name.
            if inside.conducts and inside.a.device != "MAINS":
                assert landings[inside.a].potential == landings[inside.b].potential, inside


@both_sheets
def test_every_needed_terminal_holds_what_it_may(name: str) -> None:
    for _, connections in built(name):
        for point, landing in connections.landings.items():
            landed = connections.landed(point)
            assert landed or not landing.needed, point
            assert not (landed and landing.empty_on_purpose), point
            if landing.clamp is None:
                assert len(landed) <= 1, point
                continue
            assert len(landed) <= landing.clamp.holds, point
            for conductor in landed:
                assert landing.clamp.smallest <= conductor.size <= landing.clamp.largest, (point, conductor)


@both_sheets
def test_a_conductor_that_is_left_out_is_missed_at_both_ends(name: str) -> None:
    for _, connections in built(name):
        for conductor in connections.conductors.values():
            for end in (conductor.a, conductor.b):
                assert connections.landings[end].needed, (conductor.number, end)


@both_sheets
def test_classes_agree_at_both_ends(name: str) -> None:
    for _, connections in built(name):
        for conductor in connections.conductors.values():
            for end in (conductor.a, conductor.b):
                assert connections.landings[end].circuit_class == conductor.circuit_class, conductor


@both_sheets
def test_each_effect_is_promised_once_in_each_state(name: str) -> None:
    for selection, connections in built(name):
        choices = selection.choices
        effects = {
            inside.spec.effect
            for inside in connections.inside.values()
            if inside.spec is not None and inside.spec.kind == "load"
        }
        for state in sheet(name).state:
            if state.when.holds(choices):
                promised = sorted(
                    promise.effect
                    for promise in sheet(name).promise
                    if state.id in promise.states and promise.when.holds(choices)
                )
                assert promised == sorted(effects), (state.id, sorted(choices))


@both_sheets
def test_everything_declared_is_used(name: str) -> None:
    """A clamp, connector, signal or opening that nothing uses is a slip of the pen."""
    this = sheet(name)
    terminals = [terminal for device in this.device for terminal in device.terminal]
    ends = [end for cable in this.cable for end in (cable.origin, cable.target)]
    assert {terminal.clamp for terminal in terminals} == {clamp.id for clamp in this.clamp}
    assert {end.connector for end in ends} - {None} == {item.id for item in this.connector}
    assert {end.opening for end in ends} - {None} == {opening.tag for opening in this.opening}
    driven = {element.drives for element in elements(name) if element.kind == "coil"}
    driven |= {circuit.shunt_trip.drives for circuit in this.circuit if circuit.shunt_trip is not None}
    assert driven == {signal.id for signal in this.signal if signal.set_by == "coil"}
    assert {item.effect for item in elements(name) if item.kind == "load"} == {
        item.id for item in this.effect
    }


@both_sheets
def test_a_plug_of_a_cable_meets_a_socket_of_the_same_kind(name: str) -> None:
    devices: dict[str, Device] = {device.tag: device for device in sheet(name).device}
    for cable in sheet(name).cable:
        for core in cable.core:
            for end, reference in ((cable.origin, core.origin), (cable.target, core.target)):
                if reference is not None and end.connector is not None:
                    assert devices[reference.partition(":")[0]].connector == end.connector, (
                        cable.tag,
                        core.id,
                    )


@both_sheets
def test_each_core_ends_in_its_cable_s_enclosures(name: str) -> None:
    homes = {device.tag: device.enclosure for device in sheet(name).device}
    panel = next(item.tag for item in sheet(name).enclosure if item.kind == "panel")
    homes |= {circuit.tag: panel for circuit in sheet(name).circuit}
    for cable in sheet(name).cable:
        for core in cable.core:
            for end, reference in ((cable.origin, core.origin), (cable.target, core.target)):
                if reference is not None:
                    assert homes[reference.partition(":")[0]] == end.enclosure, (cable.tag, core.id)


def test_the_two_families_use_every_kind_of_thing() -> None:
    sheets = [sheet(name) for name in SHEETS]
    kinds = {element.kind for name in SHEETS for element in elements(name)}
    assert kinds == {"link", "bond", "contact", "coil", "load", "supply", "resistor"}
    assert {opening.kind for item in sheets for opening in item.opening} == {"knockout", "bored", "slot"}
    assert {clamp.style for item in sheets for clamp in item.clamp} == {
        "screw",
        "spring",
        "lug",
        "lead",
        "pin",
    }
    assert {clamp.prepare for item in sheets for clamp in item.clamp} == {
        "bare",
        "ferrule",
        "fork lug",
        "ring lug",
        "wire connector",
        "fitted",
    }
    assert {group.pick for item in sheets for group in item.group} == {"one", "some", "any"}
    assert {cable.circuit_class for item in sheets for cable in item.cable} == {
        "power",
        "class-2",
        "fire-alarm",
    }


def test_the_sound_kitchens_use_every_option_between_them() -> None:
    used: dict[str, set[str]] = {name: set() for name in SHEETS}
    for job in JOBS:
        planned = plan_file(SAMPLES / "jobs" / f"{job}.toml", remedies=False)
        if job not in (*MUST_FAIL, TRAINING_ROOM):
            used[planned.sheet.sheet.id] |= set(planned.draft.job.choices)
    assert used == {name: {choice.id for choice in sheet(name).choices} for name in SHEETS}


def test_there_are_nine_jobs() -> None:
    assert len(JOBS) == 9


@pytest.mark.parametrize("job", [job for job in JOBS if job not in MUST_FAIL])
def test_a_sound_kitchen_has_no_finding_that_blocks(job: str) -> None:
    plan = plan_file(SAMPLES / "jobs" / f"{job}.toml", remedies=False).plan
    assert [finding for finding in plan.findings if finding.severity.blocks] == []


def test_the_training_room_has_all_that_fits_together() -> None:
    planned = plan_file(SAMPLES / "jobs" / f"{TRAINING_ROOM}.toml", remedies=False)
    choices = frozenset(planned.draft.job.choices)
    for choice in planned.sheet.choices:
        wider = choices | {choice.id}
        assert wider == choices or conflicts(planned.sheet, wider), choice.id


CIRCUIT_MISTAKES = {
    ("framing-cut", "F1"),
    ("steel-plate", "F4"),
    ("conductor-thin", "W2"),
    ("ground-thin", "W1"),
    ("box-full", "CR"),
    ("breaker-type", "Q7"),
}


def test_mistakes_planted_in_circuits_boxes_and_framing_are_found_cured_and_no_other() -> None:
    plan = plan_file(SAMPLES / "jobs" / "must-fail-circuits.toml").plan
    blocking = [item for item in plan.findings if item.severity.blocks]
    assert {(item.code, item.subject) for item in blocking} == CIRCUIT_MISTAKES
    assert len(blocking) == len(CIRCUIT_MISTAKES)
    for finding in blocking:
        assert any(remedy.edits for remedy in finding.remedies), finding.code


MECHANICAL_MISTAKES = {
    "must-fail-bracket": {
        ("hood-height", "hood"),
        ("bracket-misses", "bracket"),
        ("bracket-overloaded", "bracket"),
        ("box-no-room", "CB"),
    },
    "must-fail-air": {
        ("duct-flexible", "duct"),
        ("duct-reduced", "duct"),
        # Flexible and narrow, so that too little air moves.
        ("airflow-short", "duct"),
        ("outlet-near", "outlet, intake"),
        ("make-up-short", "make-up air"),
        ("damper-spring-wrong", "make-up air"),
        ("gas-connector", "gas"),
        ("gas-shutoff", "gas"),
    },
}


@pytest.mark.parametrize("job", MECHANICAL_MISTAKES)
def test_mistakes_planted_round_the_wires_are_found_and_no_other(job: str) -> None:
    plan = plan_file(SAMPLES / "jobs" / f"{job}.toml").plan
    blocking = [(item.code, item.subject) for item in plan.findings if item.severity.blocks]
    assert len(blocking) == len(set(blocking))
    assert set(blocking) == MECHANICAL_MISTAKES[job]
    edits = {
        (finding.code, edit.table, edit.field, edit.value)
        for finding in plan.findings
        for remedy in finding.remedies
        for edit in remedy.edits
    }
    computed: dict[str, set[tuple[str, str, str, object]]] = {
        "must-fail-bracket": {
            ("hood-height", "mounting", "clearance", "2' 2\""),
            ("bracket-misses", "mounting", "blocks", "planned"),
            ("lift-heavy", "mounting", "lift", True),
        },
        "must-fail-air": {
            ("duct-reduced", "duct", "diameter", '8"'),
            ("duct-flexible", "duct", "surface", "galvanized"),
            ("damper-spring-wrong", "air", "spring", "closed"),
        },
    }
    assert computed[job] <= edits


@pytest.mark.parametrize("job", JOBS)
def test_every_job_answers_what_stands_round_the_wires(job: str) -> None:
    derived = plan_file(SAMPLES / "jobs" / f"{job}.toml", remedies=False).plan.derived
    for found in (derived.hanging, derived.exhaust, derived.house_air):
        assert found is not None
        assert found.given
        assert found.missing == ()
    assert derived.hanging is not None
    assert derived.hanging.fastening is not None
    assert derived.exhaust is not None
    assert derived.exhaust.point is not None
    has_valve = any(item.when.holds(derived.selection.choices) for item in derived.sheet.gas_valve)
    assert (derived.gas_supply is not None) is has_valve
    assert derived.gas_supply is None or derived.gas_supply.path is not None


def test_the_failing_job_has_its_planted_mistakes_and_each_has_a_cure() -> None:
    plan = plan_file(SAMPLES / "jobs" / "must-fail.toml").plan
    blocking = {(item.code, item.subject): item for item in plan.findings if item.severity.blocks}
    assert set(blocking) == {
        ("cable-short", "W4"),
        ("raceway-small", "R2"),
        ("controls-cut-by-fire", "A1.electronics"),
        ("class-mixed-by-opening", "W15"),
    }
    assert sum(1 for finding in plan.findings if finding.severity.blocks) == len(blocking)
    for finding in blocking.values():
        assert any(remedy.edits for remedy in finding.remedies), finding.code
    edits = [edit for remedy in blocking["cable-short", "W4"].remedies for edit in remedy.edits]
    assert any((edit.field, edit.value) == ("extension", "fan-extension-10") for edit in edits)


def test_the_self_tripped_supply_is_found_by_the_cut_and_by_the_solved_states() -> None:
    plan = plan_file(SAMPLES / "jobs" / "must-fail.toml", remedies=False).plan
    solved = {(item.code, item.subject): item for item in check_behaviour(plan.derived)}
    following = [
        ("controls-die", "controls"),
        ("promise-broken", "controls"),
        ("promise-broken", "hood-healthy"),
    ]
    assert set(following) <= set(solved)
    # They have one cause, so the finding of the cut names them and they stand by themselves no more.
    (cut,) = (item for item in plan.findings if item.code == "controls-cut-by-fire")
    told = {number.value for number in cut.numbers if number.name == "follows"}
    assert told == {solved[key].says.replace("; ", ", ") for key in following}
    assert set(following).isdisjoint((item.code, item.subject) for item in plan.findings)


def test_what_would_be_found_anyway_is_not_put_down_to_the_supply() -> None:
    """With a promise that no wiring keeps, the solved states still tell it beside the cut supply."""
    planned = plan_file(SAMPLES / "jobs" / "must-fail.toml", remedies=False)
    kept = next(item for item in planned.sheet.promise if item.effect == "hood-healthy" and item.does == "on")
    opposite = kept.model_copy(update={"does": "off"})
    sheet = planned.sheet.model_copy(update={"promise": (*planned.sheet.promise, opposite)})
    codes = {(item.code, item.subject) for item in plan_job(sheet, planned.draft.job).findings}
    assert ("promise-broken", "hood-healthy") in codes
    assert ("promise-broken", "controls") not in codes


@pytest.mark.parametrize("job", MECHANICAL_MISTAKES)
def test_taking_the_first_remedy_of_each_mistake_makes_the_job_sound(job: str) -> None:
    draft = read_draft(SAMPLES / "jobs" / f"{job}.toml")
    sheet = read_sheet_of(draft)
    for _ in MECHANICAL_MISTAKES[job]:
        plan = with_remedies(sheet, draft, plan_job(sheet, draft.job))
        offered = [
            remedy
            for finding in plan.findings
            if finding.severity.blocks
            for remedy in finding.remedies
            if remedy.edits
        ]
        if not offered:
            break
        draft = draft.edited(offered[0].edits)
    assert plan_job(sheet, draft.job).sound


@pytest.mark.parametrize(
    ("name", "safety"), [("farmhouse-electric", {"W14", "W20"}), ("loft-gas", {"W14", "W15", "W19"})]
)
def test_only_wires_beyond_the_supply_make_a_limited_cable_a_safety_control(
    name: str, safety: set[str]
) -> None:
    """Each of these kitchens also has cables whose wires to what shuts off heat are just its supply's two poles."""
    limited = plan_file(SAMPLES / "jobs" / f"{name}.toml", remedies=False).plan.derived.limited
    assert {cable.cable for cable in limited if cable.safety} == safety
    assert len(limited) > len(safety)
