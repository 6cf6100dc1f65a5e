"""A wall to scale is as the plan says; a drawing that isn't is refused, a stranger's words are only words.

The numbers are read back from the SVG alone: scale and datum from the drawn wall.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.drawings.elevation import elevation, elevations
from schedules.drawings.errors import DrawingError
from schedules.drawings.picture import Paper
from schedules.drawings.site_proof import prove_elevation
from schedules.drawings.wall_content import wall_content, walls_to_draw
from schedules.planned import plan_file

if TYPE_CHECKING:
    from schedules.plan import Plan

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
KITCHENS = ("corner-electric", "farmhouse-electric", "galley-gas", "loft-gas", "training-room")
HOSTILE = "</text><script>alert(1)</script> & \"quoted\" 'so'"


@cache
def plan(name: str) -> Plan:
    return plan_file(JOBS / f"{name}.toml", remedies=False).plan


def named(job_plan: Plan, name: str) -> Plan:
    """The same plan under another job's name."""
    job = job_plan.derived.job
    renamed = job.model_copy(update={"job": job.job.model_copy(update={"name": name})})
    return replace(job_plan, derived=replace(job_plan.derived, job=renamed))


@pytest.mark.parametrize("paper", [Paper.TABLOID, Paper.A3])
@pytest.mark.parametrize("name", KITCHENS)
def test_every_hole_of_a_kitchen_is_drawn_and_named_in_the_table(name: str, paper: Paper) -> None:
    drawings = elevations(plan(name), paper)
    written = {
        words
        for drawing in drawings
        for element in ET.fromstring(drawing.svg).iter()  # noqa: S314 - written by ourselves
        if re.fullmatch(r"[a-z]+-holes-\d+-0-0", (element.get("id") or "").lower())
        for words in element.itertext()
    }
    assert written == {hole.tag for hole in plan(name).derived.holes}


@given(step=st.floats(1.0, 40.0), sign=st.sampled_from((-1, 1)), pick=st.integers(0, 10_000))
@settings(max_examples=40, deadline=None)
def test_a_hole_that_is_drawn_elsewhere_is_refused(step: float, sign: int, pick: int) -> None:
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0])
    svg = elevation(kitchen, content.wall).svg
    hole = content.holes[pick % len(content.holes)]
    found = re.search(rf'id="hole-{hole.tag}" cx="([\d.]+)"', svg)
    assert found is not None
    moved = svg.replace(found[0], f'id="hole-{hole.tag}" cx="{float(found[1]) + sign * step}"')
    assert prove_elevation(content, svg, "") == ()
    assert [failure.split()[0] for failure in prove_elevation(content, moved, "")] == [f"hole-{hole.tag}"]


def test_a_wrong_number_beside_a_tick_is_refused() -> None:
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0])
    svg = elevation(kitchen, content.wall).svg
    wrong = svg.replace(">hood 5&#x27; 5&quot;<", ">hood 5&#x27; 6&quot;<")
    assert wrong != svg
    assert prove_elevation(content, wrong, "") == ("the dimension 'hood 5\\' 6\"' stands at 65.00 in",)


def test_the_name_of_a_job_is_only_words() -> None:
    drawing = elevations(named(plan("galley-gas"), HOSTILE))[0]
    root = ET.fromstring(drawing.svg)  # noqa: S314 - written by ourselves
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert any(HOSTILE in "".join(element.itertext()) for element in root.iter())


def test_an_unsound_plan_says_so_in_its_title() -> None:
    title = re.search(r'id="A-title"[^>]*>([^<]+)<', elevations(plan("must-fail"))[0].svg)
    assert title is not None
    assert title[1] == "Wall A, seen from inside. NOT SOUND, do not build by it"


def test_paper_that_is_too_small_is_refused_in_words() -> None:
    with pytest.raises(
        DrawingError, match="wall A fits Letter paper at no scale of the rule; take larger paper"
    ):
        elevations(plan("galley-gas"), Paper.LETTER)


def test_without_a_measured_wall_there_is_nothing_to_draw() -> None:
    with pytest.raises(DrawingError, match="no wall was measured"):
        elevations(plan("must-fail-air"))
