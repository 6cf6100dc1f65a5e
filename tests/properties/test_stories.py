"""Stories played on a sample kitchen, and answers graded: against the plan's own states and ends."""

from __future__ import annotations

import itertools
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.behaviour.states import Level, solve_states
from schedules.planned import plan_file
from schedules.teaching.grading import Asked, grade, questions, score
from schedules.teaching.story import Scene, Stage

if TYPE_CHECKING:
    from schedules.plan import Plan

SAMPLES = Path(__file__).parents[2] / "samples"


@cache
def plan() -> Plan:
    return plan_file(SAMPLES / "jobs" / "galley-gas.toml", remedies=False).plan


@cache
def stage() -> Stage:
    return Stage(plan().derived)


def played(*lines: str) -> tuple[Scene, ...]:
    return stage().play([stage().read(line) for line in lines])


def test_a_story_begins_at_rest_as_the_states_have_it() -> None:
    rest = next(item for item in solve_states(plan().derived) if item.case.id == "idle")
    names = {effect.id: effect.name for effect in plan().derived.sheet.effect}
    (scene,) = played()
    assert scene.levels == {names[effect]: level for effect, level in rest.levels.items()}
    assert scene.turned == ()


def test_each_state_in_its_own_order_is_as_it_is_solved() -> None:
    solved = {item.case.id: item for item in solve_states(plan().derived)}
    names = {effect.id: effect.name for effect in plan().derived.sheet.effect}
    for scene, case in zip(
        played("state cooking", "state fire-detector")[1:], ("cooking", "fire-detector"), strict=True
    ):
        assert scene.levels == {names[effect]: level for effect, level in solved[case].levels.items()}


def test_the_way_to_each_state_ends_as_it_is_solved() -> None:
    names = {effect.id: effect.name for effect in plan().derived.sheet.effect}
    for solved in solve_states(plan().derived):
        scene = stage().play(stage().way_to(solved.case.id.lstrip("+")))[-1]
        assert scene.state == solved.case.name
        assert scene.levels == {names[effect]: level for effect, level in solved.levels.items()}


def test_a_broken_wire_shuts_the_valve_and_mending_does_not_open_a_fire() -> None:
    """Wire 701 feeds the gas valve: with it open there is no gas; the fire then finds heat off, too."""
    scenes = played("state cooking", "break 701", "state fire-detector", "mend")
    gas = [scene.levels["Gas valve is open"] for scene in scenes]
    assert gas == [Level.ON, Level.ON, Level.OFF, Level.OFF, Level.OFF]
    assert [turn.effect for turn in scenes[2].turned] == ["Gas valve is open"]
    assert (scenes[2].wrong, scenes[4].wrong) == (("wire 701 of W7 is open",), ())
    assert {"Agent is released", "Electric range heats"} <= {turn.effect for turn in scenes[3].turned}


def test_every_scene_turns_the_one_before_into_itself() -> None:
    scenes = played("state cooking", "join X1:1L X1:1PE", "mend", "state idle", "state fire-pull")
    assert scenes[2].tripped == ("Q1",)
    for before, after in itertools.pairwise(scenes):
        levels = dict(before.levels)
        for turn in after.turned:
            assert levels[turn.effect] is turn.was
            levels[turn.effect] = turn.now
        assert levels == after.levels


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("", "allowed: state NAME, break WIRE"),
        ("burn", "allowed: state NAME, break WIRE"),
        ("state", "allowed: state NAME, break WIRE"),
        ("state nowhere", "no state “nowhere”; there are: panel-off, "),
        ("break 9999", "no wire 9999 with these choices"),
        ("join X1:1L ZZ:1", "no terminal ZZ:1"),
        ("join X1:1L 7", "allowed: a terminal such as X1:1L"),
        ("swap 101@X1:1L 102@X9:9", "wire 102 is on "),
    ],
)
def test_a_line_that_says_nothing_is_refused_with_what_may_stand_there(line: str, words: str) -> None:
    with pytest.raises(LookupError, match=words.replace("(", r"\(")):
        stage().read(line)


def asked(number: str) -> Asked:
    return next(item for item in questions(plan(), 1) if item.row.number == number)


@pytest.mark.parametrize(
    ("given", "reason"),
    [
        ("H X1:1L", ""),
        ("x1:1l", ""),
        ("RB X1:1L", "X1:1L is in H, not in RB"),
        ("X1:1N", "X1:1N carries neutral, this wire line; wire 101 ends on H X1:1L"),
        ("X1:2L", "wire 201 lands on X1:2L; wire 101 ends on H X1:1L"),
        ("Q1:L", "that is where it starts; wire 101 ends on H X1:1L"),
        ("X77:1", "there is no terminal X77:1 with these choices"),
        ("", "there is no terminal without a name with these choices"),
    ],
)
def test_an_answer_is_graded_with_its_reason(given: str, reason: str) -> None:
    graded = grade(plan(), asked("101"), given)
    assert (graded.reason, graded.right) == (reason, not reason)


def test_every_conductor_is_asked_once_and_its_own_end_is_right() -> None:
    every = questions(plan(), 5)
    assert {item.row.number for item in every} == set(plan().derived.connections.conductors)
    assert len(every) == len({item.row.number for item in every})
    assert every == questions(plan(), 5)
    assert every != questions(plan(), 6)
    result = score(grade(plan(), item, item.answer) for item in every)
    assert (result.right, result.answered, result.percent) == (len(every), len(every), 100)


def test_the_last_answer_to_a_question_counts() -> None:
    wrong, right = grade(plan(), asked("101"), "X1:1N"), grade(plan(), asked("101"), "X1:1L")
    assert (score([wrong, right]).right, score([right, wrong]).right) == (1, 0)
    assert score([right, wrong]).wrong == (wrong,)
    assert score([]).percent == 0
