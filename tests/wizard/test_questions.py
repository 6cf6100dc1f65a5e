"""Which questions are asked, how each stands, and what becomes of an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.findings import Edit
from schedules.job.draft import ROW_KEYS, read_draft
from schedules.job.job_tables import TABLES
from schedules.plan import plan_job
from schedules.planned import read_sheet_of
from schedules.quantities.lengths import Style
from schedules.quantities.numerals import UnitError
from schedules.questions.fields import FIELDS
from tests.stage import sample_job
from wizard.answering import added_entry, picked_answer, picked_choice, removed_entry, typed_answer
from wizard.questions import groups_of, wanted
from wizard.session import Session, Snapshot
from wizard.steps import STEPS, State, standing, step_of
from wizard.widgets.step_panels import PANELS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from wizard.question import Group, Question, StepId


SAMPLES = ("galley-gas", "corner-electric", "farmhouse-electric", "loft-gas", "must-fail", "training-room")


def opened(name: str, site: Path) -> Session:
    draft = read_draft(sample_job(name, site))
    session = Session(draft, read_sheet_of(draft))
    session.plan_now()
    return session


def groups(step: StepId, snapshot: Snapshot, style: Style | None = None) -> tuple[Group, ...]:
    return groups_of(step, snapshot, style)


def questions(snapshot: Snapshot, style: Style | None = None) -> Iterator[Question]:
    for step in STEPS:
        for group in groups(step.id, snapshot, style):
            yield from group.questions


def question(snapshot: Snapshot, *answer: str | None) -> Question:
    return next(item for item in questions(snapshot) if item.answer == answer and item.kind == "answer")


IDS = [step.id for step in STEPS]


def test_each_step_has_an_id_of_its_own_and_every_panel_is_of_a_step() -> None:
    assert len(set(IDS)) == len(IDS)
    assert set(PANELS) <= set(IDS)
    # A finding is acknowledged, and a test recorded, on the finding and the test themselves.
    assert [step.id for step in STEPS if step.id in PANELS and step.tables] == ["findings", "commissioning"]


def test_every_table_of_a_job_has_a_step() -> None:
    for table in TABLES:
        assert step_of((table, None, "any")) in IDS


@pytest.mark.parametrize("name", SAMPLES)
def test_every_answer_of_a_job_is_asked_in_some_step(site: Path, name: str) -> None:
    """Whatever the sample's file says about things that are bought, a person can see and alter in the wizard."""
    snapshot = opened(name, site).now
    asked = {item.answer for item in questions(snapshot)}
    not_bought = {"as_built"}
    for table, key in FIELDS:
        if table in not_bought or key == "choices":
            continue
        for row in rows_of(snapshot, table):
            if snapshot.written(table, row, key) is not None and is_there(snapshot, table, row):
                assert (table, row, key) in asked


def rows_of(snapshot: Snapshot, table: str) -> list[str | None]:
    if table not in ROW_KEYS:
        return [None]
    return [entry[ROW_KEYS[table]] for entry in snapshot.document.get(table, [])]


def is_there(snapshot: Snapshot, table: str, row: str | None) -> bool:
    """Whether what the entry is about comes with the choices made."""
    plan = snapshot.plan
    assert plan is not None
    selection = plan.derived.selection
    present = {
        "run": {item.tag for item in selection.cables},
        "place": {item.tag for item in selection.enclosures},
        "box": {item.tag for item in selection.enclosures if item.kind == "box"},
        "circuit": {item.tag for item in selection.circuits},
        "nameplate": {f"{device.tag}.{item.id}" for device in selection.devices for item in device.element},
    }
    return table not in present or row in present[table]


def test_keys_of_questions_are_unique_within_a_group(site: Path) -> None:
    snapshot = opened("training-room", site).now
    for step in STEPS:
        ids = [group.id for group in groups(step.id, snapshot)]
        assert len(ids) == len(set(ids))
        for group in groups(step.id, snapshot):
            keys = [item.key for item in group.questions]
            assert len(keys) == len(set(keys))


def test_lengths_are_shown_as_written_or_in_one_style(site: Path) -> None:
    snapshot = opened("galley-gas", site).now

    def shown(style: Style | None) -> str:
        return next(item.shown for item in questions(snapshot, style) if item.answer == ("place", "MU", "up"))

    assert shown(None) == "2.44 m"
    assert shown(Style.METRIC) == "2.44 m"
    assert shown(Style.US) == "8' 0-1/16\""


def test_an_unanswered_route_wants_the_room_and_both_ends(site: Path) -> None:
    session = opened("galley-gas", site)
    draft = session.now.draft
    bare = draft.edited(
        (
            Edit("run", "W1", "", None),
            Edit("place", "PB", "up", None),
            Edit("site", None, "above", None),
        )
    )
    waiting = wanted(plan_job(session.now.sheet, bare.job))
    assert {("run", "W1", "route"), ("place", "PB", "up"), ("site", None, "above")} <= waiting
    assert ("place", "PB", "along") not in waiting


def test_states_of_a_sound_job_and_of_one_that_must_fail(site: Path) -> None:
    sound = opened("galley-gas", site).now
    for step in STEPS:
        untouched = step.id == "commissioning"
        assert standing(step.id, sound).state is (State.UNTOUCHED if untouched else State.COMPLETE), (
            step.title
        )
    failing = opened("must-fail", site).now
    states = {step.id: standing(step.id, failing).state for step in STEPS}
    assert states["routes"] is State.TROUBLE
    assert states["circuits"] is State.TROUBLE
    assert states["findings"] is State.TROUBLE
    assert states["options"] is State.COMPLETE
    assert "wrong" in standing("routes", failing).words


def test_states_of_a_job_just_begun(site: Path) -> None:
    session = opened("galley-gas", site)
    edits = [Edit(table, row, "", None) for table in ("run", "place") for row in rows_of(session.now, table)]
    session.answer((*edits, Edit("", None, "choices", [])), "emptied")
    session.plan_now()
    snapshot = session.now
    states = {step.id: standing(step.id, snapshot).state for step in STEPS}
    assert states["options"] is State.UNTOUCHED
    assert states["places"] is State.UNTOUCHED
    assert states["equipment"] is State.COMPLETE


def test_a_typed_answer_becomes_an_edit_and_words(site: Path) -> None:
    snapshot = opened("galley-gas", site).now
    edits, did = typed_answer(question(snapshot, "place", "H", "along"), " 7 ft ")
    assert edits == (Edit("place", "H", "along", "7 ft"),)
    assert did == "H, along the wall: 7 ft"


def test_empty_text_takes_an_answer_out_but_never_one_that_a_job_needs(site: Path) -> None:
    snapshot = opened("galley-gas", site).now
    edits, did = typed_answer(question(snapshot, "site", None, "ceiling"), "  ")
    assert edits == (Edit("site", None, "ceiling", None),)
    assert did == "Ceiling height: taken out"
    with pytest.raises(UnitError, match="no job goes without it"):
        typed_answer(question(snapshot, "site", None, "tolerance"), "")


def test_a_choice_that_is_picked_says_what_came_and_went(site: Path) -> None:
    snapshot = opened("galley-gas", site).now
    edits, did = picked_choice(snapshot, "fan-inline", out=False)
    assert did == "Chosen: Inline fan in the duct"
    assert "fan-inside" not in str(edits[0].value)
    failing = opened("must-fail", site).now
    with pytest.raises(UnitError, match="one electric range is shut off by one means"):
        picked_choice(failing, "range-contactor", out=False)


def test_a_cable_goes_into_a_new_raceway_and_out_of_it(site: Path) -> None:
    session = opened("galley-gas", site)
    asked = next(item for item in questions(session.now) if item.kind == "raceway" and item.row == "W1")
    edits, did = picked_answer(session.now.draft.job, asked, ("new EMT",))
    assert did == "W1, raceway: a new EMT"
    job = session.answer(edits, did).draft.job
    tag = next(raceway.tag for raceway in job.raceway if raceway.cables == ("W1",))
    session.plan_now()
    asked = next(item for item in questions(session.now) if item.kind == "raceway" and item.row == "W1")
    assert asked.written == tag
    edits, _ = picked_answer(session.now.draft.job, asked, ("none",))
    assert tag not in {raceway.tag for raceway in session.answer(edits, "out").draft.job.raceway}


def test_an_entry_is_added_under_a_free_tag_and_removed_whole(site: Path) -> None:
    session = opened("galley-gas", site)
    edits, did = added_entry(session.now.draft.job, "bundle", {"cables": ["W1", "W2"], "length": "4 ft"})
    assert did == "Added: bundle B1"
    bundle = session.answer(edits, did).draft.job.bundle
    assert [(item.tag, item.cables, item.length) for item in bundle] == [("B1", ("W1", "W2"), 48.0)]
    session.plan_now()
    removing = next(item for item in questions(session.now) if item.kind == "remove" and item.row == "B1")
    edits, did = removed_entry(removing)
    assert session.answer(edits, did).draft.job.bundle == ()
